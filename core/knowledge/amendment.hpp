// A figure of the common knowledge that is another one on the engines of a family: [[amend]] in the
// family's text. It changes numbers, and no more; what only this family has are entries of its own.
//
//   [[amend]]
//   cause = "plunger-worn"                 # or symptom, quantity, check, correction
//   common = "rare"                        # causes: common, after = { long-service = "more" }
//   signs = [{ id = "hard-start-hot", how = "often" }]       # how: one, or a table by grade
//   effects = [{ on = "delivery", size = "-5 %", sd = "2 %" }]
//   source = "practice"
//
// symptom: leak, missed, imagined; quantity: instrument, spread, wrong-offset, usual, and
// instrument-share, spread-share in %; check and correction: set-up, each, in minutes.
#pragma once

#include "core/base/measure.hpp"
#include "core/knowledge/scale.hpp"
#include "core/model/knowledge.hpp"
#include "core/table/reader.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace soot {

struct Amendment {
  template <class Value>
  using ByGrade = std::map<std::string, Value>;  ///< under "": of all grades

  struct Sign {
    std::string symptom;
    ByGrade<double> how;
    Place place;
  };
  struct Size {
    std::string target;
    ByGrade<Measure> size, sd;
    Place place;
  };

  std::string kind, id, source;
  Place place;
  std::map<std::string, Measure> measures;
  std::map<std::string, double> numbers;
  std::optional<double> common;
  std::map<std::string, double> after;  ///< factor by history
  std::vector<Sign> signs;
  std::vector<Size> effects;
};

/// All [[amend]] of a family's text. Complaints go to its document.
std::vector<Amendment> read_amendments(Reader& root, const Scale& scale);

/// The knowledge with its figures put right. Fails (Kind::data) on what is not there: the entry,
/// the grade, the sign or effect that is to be another, a measure of the wrong kind.
Result<Knowledge> amended(Knowledge knowledge, const std::vector<Amendment>& amendments);

}  // namespace soot
