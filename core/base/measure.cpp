#include "core/base/measure.hpp"

#include "core/base/text.hpp"

#include <charconv>
#include <cmath>

namespace soot {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// "a length in mm, in, ...", "a plain number".
std::string wanted(Dimension dimension) {
  const std::string name{name_of(dimension)};
  return dimension == Dimension::number ? name : name + " in " + units_of(dimension);
}

}  // namespace

Result<Measure> read_measure(std::string_view text) {
  Measure measure;
  std::string_view rest = trim(text);
  measure.as_written = std::string{rest};
  if (rest.empty()) return fail(Kind::use, "nothing is written (expected a number with its unit)");
  if (rest.front() == '>' || rest.front() == '<') {
    measure.bound = rest.front() == '>' ? Bound::above : Bound::below;
    rest = trim(rest.substr(1));
  }
  if (!rest.empty() && rest.front() == '+') rest.remove_prefix(1);
  const bool number_begins =
      !rest.empty() && (is_digit(rest.front()) || rest.front() == '-' || rest.front() == '.');
  if (!number_begins)
    return fail(Kind::use, "'{}' is not a number (expected one with its unit, as 29.41 mm)",
                measure.as_written);

  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), measure.value);
  if (error == std::errc::result_out_of_range)
    return fail(Kind::use, "'{}' is too large or too small a number", measure.as_written);
  if (error != std::errc{} || !std::isfinite(measure.value))
    return fail(Kind::use, "'{}' is not a number (expected one with its unit, as 29.41 mm)",
                measure.as_written);
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  if (!rest.empty() && rest.front() == ',')
    return fail(Kind::use, "'{}' has a decimal comma (expected a point, as 29.41 mm)",
                measure.as_written);

  const std::string_view word = trim(rest);
  if (word.empty()) return measure;
  const std::optional<Unit> unit = find_unit(word);
  if (!unit)
    return fail(Kind::use, "'{}' is no unit known here{}", word, did_you_mean(word, unit_words()));
  measure.unit = *unit;
  return measure;
}

Result<Measure> read_measure(std::string_view text, Dimension dimension) {
  Result<Measure> measure = read_measure(text);
  if (!measure || measure->unit.dimension == dimension) return measure;
  if (measure->unit.dimension == Dimension::number)
    return fail(Kind::use, "'{}' has no unit (expected {})", measure->as_written,
                wanted(dimension));
  return fail(Kind::use, "'{}' is {} (expected {})", measure->as_written,
              name_of(measure->unit.dimension), wanted(dimension));
}

double model_difference(const Measure& measure) {
  return measure.unit.factor * measure.value;
}

std::string print_in(double model_value, const Unit& unit, int decimals) {
  const double value = (model_value - unit.offset) / unit.factor;
  std::string number = fmt::format("{:.{}f}", value, decimals);
  // A minus sign never stands before a zero.
  if (number.find_first_not_of("-0.") == std::string::npos && number.front() == '-')
    number.erase(0, 1);
  return unit.name.empty() ? number : fmt::format("{} {}", number, unit.name);
}

}  // namespace soot
