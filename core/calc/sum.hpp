// The arithmetic of a correction as a value: what was asked, what was put in and where it came
// from, each line of the sum, the result with its uncertainty, what was assumed, whose formula it
// is. Text and JSON are made from it elsewhere. A sum that is asked something outside its validity
// fails with a sentence instead.
#pragma once

#include "core/base/measure.hpp"
#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot::calc {

/// A named number as it is to be printed. `value` and `expanded` are in the dimension's model unit,
/// `unit` is the one to print in.
struct Amount {
  std::string name;
  double value = 0;
  Unit unit = model_unit(Dimension::number);
  int decimals = 2;
  std::optional<double> expanded;  ///< U, k = 2; a difference, without the unit's offset
  int cylinder = 0;                ///< 0: of the engine
  std::string from;                ///< of an input: "by hand", "family", "usual", a reading's name
};

struct Sum {
  std::string id;
  std::string title;
  std::vector<std::string> formula;  ///< in words
  std::vector<Amount> inputs;        ///< the numbers put in
  std::vector<std::string> lines;    ///< the sum, line by line, with its numbers
  std::vector<Amount> results;
  std::vector<std::string> answer;  ///< what it comes to, for the hand on the spanner
  std::vector<std::string> cautions;
  std::vector<std::string> assumptions;  ///< what it took for granted, and where it ends
  std::string source;
};

/// One number given to a sum, by hand or from a reading.
struct Given {
  double value = 0;  ///< model unit
  Unit unit = model_unit(Dimension::number);
  int cylinder = 0;
  std::optional<double> uncertainty;  ///< standard, model unit
  std::string from = "by hand";
};

/// The engine, and what is known. `family` must outlive the call; `law` may be null.
struct Ask {
  const Family& family;
  const LiftLaw* law = nullptr;
  std::map<std::string, std::vector<Given>, std::less<>> given;  ///< by name of the need
};

/// An input of a sum. What is not given comes from the family's figure, then from `usual`.
struct Need {
  std::string_view name{};  ///< as typed: name=measure
  Dimension dimension = Dimension::number;
  std::string_view meaning{};
  std::string_view quantity{};  ///< of the knowledge: its readings give this input; may be empty
  std::string_view figure{};    ///< of the family; may be empty
  std::optional<double> usual = std::nullopt;  ///< model unit
  bool needed = true;                          ///< the sum cannot do without
  /// Standard uncertainty of a value that states none, model unit, and in percent of it; the two
  /// add in squares. A family's figure counts as exact.
  double standard = 0, standard_share = 0;
  std::string_view unit{};   ///< to print `usual` in; empty: the model unit
  bool turned_back = false;  ///< its readings are those not come up to in the running direction
};

struct SumForm {
  std::string_view id;
  std::string_view title;
  std::vector<Need> needs;
  Result<Sum> (*work)(const SumForm& form, const Ask& ask);
};

/// Every sum there is, in the order in which they are offered.
const std::vector<SumForm>& sum_forms();
const SumForm* find_sum(std::string_view id);

/// Names of the needed inputs that neither are given nor stand in the family. Empty: it can be
/// done.
std::vector<std::string> missing_inputs(const SumForm& form, const Ask& ask);

/// Does the sum. Fails (Kind::use) on an unknown or missing input, one of another dimension, not
/// finite or of a cylinder that the family has not, and on whatever the sum refuses.
Result<Sum> work_out(const SumForm& form, const Ask& ask);

}  // namespace soot::calc
