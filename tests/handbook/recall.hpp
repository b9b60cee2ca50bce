// How much of a published trouble table the program would have said: one symptom alone, and whether
// the cause that the book names is among the first few.
#pragma once

#include "tests/judges/code_map.hpp"
#include "tests/judges/csv_rows.hpp"
#include "tests/judges/plain_engines.hpp"

#include <string>
#include <vector>

namespace soot::judges {

struct AskedRow {
  std::string source, symptom, condition, cause;
  std::size_t place = 0;   ///< in the list by cause, from 1; 0 = not in it
  std::size_t causes = 0;  ///< ids that count
  std::string engine;      ///< what it was asked of, beyond the plain one
};

struct UnaskedRow {
  std::string source, symptom, cause, why;
};

struct Recall {
  std::vector<AskedRow> asked;
  std::vector<UnaskedRow> missed;    ///< complaints that could not be put: each a miss
  std::vector<UnaskedRow> left_out;  ///< rows without a complaint
  std::vector<UnaskedRow> violations;
  std::size_t refused = 0;  ///< rows that do not apply, looked at
  std::size_t ceiling = 0;  ///< rows that lists of ten could have answered at best

  std::size_t wanted() const { return asked.size() + missed.size(); }
  double share_within(std::size_t places) const;
  double ceiling_share() const;
  double mean_causes() const;
};

/// Columns of a table of rows.
inline const std::vector<std::string> row_columns{"source",    "row",        "symptom_code",
                                                  "condition", "cause_code", "applies"};

/// A complaint is every symptom code but those that end in -found or -event. The history is
/// unknown, but for condition `after-rebuild`. Fails on rows that cannot be put for a reason of the
/// program's own.
Result<Recall> recall(PlainEngines& engines, const CodeMap& map, const std::vector<Row>& rows);

}  // namespace soot::judges
