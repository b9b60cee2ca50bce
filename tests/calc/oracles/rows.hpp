// Published reference values of the trade's physics, each beside its source, held against what the
// formulas and sums of core/calc make of the same inputs. A row may need several comparisons.
#pragma once

#include <string_view>
#include <vector>

namespace soot::test {

struct OracleRow {
  std::string_view id;
  std::string_view source;  ///< "from memory" and "computed" are said
  double got = 0;
  double expected = 0;
  double tolerance = 0;  ///< absolute, in the row's unit
};

std::vector<OracleRow> kinematics_rows();
std::vector<OracleRow> pump_rows();
std::vector<OracleRow> fuel_rows();
std::vector<OracleRow> air_rows();
std::vector<OracleRow> smoke_and_measure_rows();

}  // namespace soot::test
