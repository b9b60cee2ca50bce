// A sum in the making: hands out the inputs one after another, noting each with where it came from,
// and prints numbers in the unit in which the person typed his. Used by the sums alone.
#pragma once

#include "core/calc/propagate.hpp"
#include "core/calc/sum.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot::calc {

class Worksheet {
 public:
  Worksheet(const SumForm& form, const Ask& ask, std::string source);

  Sum sum;

  /// The last one given, else the family's figure, else the usual value; nothing if there is none.
  std::optional<Given> take(std::string_view name);
  /// The same of an input that is known to be there (work_out has seen to it).
  Given needed(std::string_view name);
  /// All that were given.
  std::vector<Given> all(std::string_view name);

  /// Notes an input that the sum found for itself.
  void put_in(std::string_view name, const Given& given) { note(need(name), given); }

  void result(std::string name, double value, const Unit& unit, int decimals,
              std::optional<double> expanded = std::nullopt, int cylinder = 0);
  void result(std::string name, const Estimate& estimate, const Unit& unit, int decimals,
              int cylinder = 0);

  /// What it comes to for a cylinder (0: the engine). Cylinders of which the same is to be said
  /// share a line.
  void answer(int cylinder, const std::string& text);

 private:
  const Need& need(std::string_view name) const;
  void note(const Need& need, const Given& given);
  Given with_uncertainty(const Need& need, Given given) const;

  struct Said {
    std::string text;
    std::vector<int> cylinders;
    std::size_t at = 0;  ///< line of sum.answer
  };

  const SumForm& form_;
  const Ask& ask_;
  std::vector<Said> said_;
};

/// The value with its standard uncertainty, 0 where none is stated.
Estimate estimate(const Given& given);

/// "" of the engine, "cylinder 3: ", "cylinders 1, 2 and 4: ".
std::string of_cylinders(const std::vector<int>& cylinders);

/// Decimals for a length read to about a hundredth of a millimetre (`fine`: a thousandth).
int length_decimals(const Unit& unit, bool fine = false);
/// Decimals of a number as it stands in a note of what was put in.
int input_decimals(const Unit& unit);

/// "1.7 deg late", "0.3 deg early", "on time" where it rounds to nothing.
std::string late_or_early(double late_deg, int decimals = 1);
/// "cylinder 3: ", or nothing for the engine.
std::string of_cylinder(int cylinder);

}  // namespace soot::calc
