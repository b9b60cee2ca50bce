#include "core/base/unit.hpp"

#include <algorithm>
#include <array>

namespace soot {
namespace {

constexpr double psi_in_bar = 0.06894757;
constexpr double kgf_per_cm2_in_bar = 0.980665;
constexpr double mm_hg_in_bar = 1.33322387e-3;
constexpr double mm_h2o_in_bar = 9.80665e-5;

struct Row {
  std::string_view word;  // as a person may write it, blanks taken out
  Unit unit;
};

constexpr Unit unit(std::string_view name, Dimension dimension, double factor, double offset = 0) {
  return Unit{name, dimension, factor, offset};
}

// The first row of a dimension is its model unit; further words of one unit share its name.
constexpr std::array rows{
    Row{"mm", unit("mm", Dimension::length, 1)},
    Row{"in", unit("in", Dimension::length, 25.4)},
    Row{"inch", unit("in", Dimension::length, 25.4)},
    Row{"\"", unit("in", Dimension::length, 25.4)},
    Row{"thou", unit("thou", Dimension::length, 0.0254)},
    Row{"um", unit("um", Dimension::length, 0.001)},
    Row{"cm", unit("cm", Dimension::length, 10)},
    Row{"m", unit("m", Dimension::length, 1000)},
    Row{"ft", unit("ft", Dimension::length, 304.8)},
    Row{"deg", unit("deg", Dimension::angle, 1)},
    Row{"\xC2\xB0", unit("deg", Dimension::angle, 1)},
    Row{"bar", unit("bar", Dimension::pressure, 1)},
    Row{"mbar", unit("mbar", Dimension::pressure, 0.001)},
    Row{"psi", unit("psi", Dimension::pressure, psi_in_bar)},
    Row{"kgf/cm2", unit("kgf/cm2", Dimension::pressure, kgf_per_cm2_in_bar)},
    Row{"kg/cm2", unit("kgf/cm2", Dimension::pressure, kgf_per_cm2_in_bar)},
    Row{"kPa", unit("kPa", Dimension::pressure, 0.01)},
    Row{"MPa", unit("MPa", Dimension::pressure, 10)},
    Row{"mmHg", unit("mm Hg", Dimension::pressure, mm_hg_in_bar)},
    Row{"inHg", unit("in Hg", Dimension::pressure, 25.4 * mm_hg_in_bar)},
    Row{"mmH2O", unit("mm H2O", Dimension::pressure, mm_h2o_in_bar)},
    Row{"inH2O", unit("in H2O", Dimension::pressure, 25.4 * mm_h2o_in_bar)},
    Row{"rpm", unit("rpm", Dimension::speed, 1)},
    Row{"1/min", unit("rpm", Dimension::speed, 1)},
    Row{"C", unit("C", Dimension::temperature, 1)},
    Row{"\xC2\xB0"
        "C",
        unit("C", Dimension::temperature, 1)},
    Row{"F", unit("F", Dimension::temperature, 5.0 / 9.0, -160.0 / 9.0)},
    Row{"\xC2\xB0"
        "F",
        unit("F", Dimension::temperature, 5.0 / 9.0, -160.0 / 9.0)},
    Row{"K", unit("K", Dimension::temperature, 1, -273.15)},
    Row{"mL", unit("mL", Dimension::volume, 1)},
    Row{"ml", unit("mL", Dimension::volume, 1)},
    Row{"cc", unit("mL", Dimension::volume, 1)},
    Row{"cm3", unit("mL", Dimension::volume, 1)},
    Row{"mm3", unit("mm3", Dimension::volume, 0.001)},
    Row{"L", unit("L", Dimension::volume, 1000)},
    Row{"l", unit("L", Dimension::volume, 1000)},
    Row{"mL/min", unit("mL/min", Dimension::flow, 1)},
    Row{"ml/min", unit("mL/min", Dimension::flow, 1)},
    Row{"L/min", unit("L/min", Dimension::flow, 1000)},
    Row{"l/min", unit("L/min", Dimension::flow, 1000)},
    Row{"L/h", unit("L/h", Dimension::flow, 1000.0 / 60.0)},
    Row{"s", unit("s", Dimension::time, 1)},
    Row{"sec", unit("s", Dimension::time, 1)},
    Row{"min", unit("min", Dimension::time, 60)},
    Row{"h", unit("h", Dimension::time, 3600)},
    Row{"N", unit("N", Dimension::force, 1)},
    Row{"kgf", unit("kgf", Dimension::force, 9.80665)},
    Row{"lbf", unit("lbf", Dimension::force, 4.4482216152605)},
    Row{"V", unit("V", Dimension::voltage, 1)},
    Row{"A", unit("A", Dimension::current, 1)},
    Row{"kg/L", unit("kg/L", Dimension::density, 1)},
    Row{"kg/l", unit("kg/L", Dimension::density, 1)},
    Row{"g/cm3", unit("kg/L", Dimension::density, 1)},
    Row{"drops/min", unit("drops/min", Dimension::count, 1)},
    Row{"bubbles/min", unit("bubbles/min", Dimension::count, 1)},
    Row{"strokes/min", unit("strokes/min", Dimension::count, 1)},
    Row{"%", unit("%", Dimension::share, 1)},
    Row{"percent", unit("%", Dimension::share, 1)},
    Row{"mm/deg", unit("mm/deg", Dimension::lift_rate, 1)},
    Row{"in/deg", unit("in/deg", Dimension::lift_rate, 25.4)},
    Row{"kW", unit("kW", Dimension::power, 1)},
    Row{"hp", unit("hp", Dimension::power, 0.74569987)},
    Row{"m/s", unit("m/s", Dimension::velocity, 1)},
    Row{"g/kWh", unit("g/kWh", Dimension::fuel_rate, 1)},
};

std::string without_blanks(std::string_view word) {
  std::string out;
  std::copy_if(word.begin(), word.end(), std::back_inserter(out),
               [](char c) { return c != ' ' && c != '\t'; });
  return out;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return text;
}

}  // namespace

std::optional<Unit> find_unit(std::string_view word) {
  const std::string wanted = without_blanks(word);
  for (const Row& row : rows)
    if (row.word == wanted) return row.unit;
  // A capital slip (Bar, PSI, Deg) is forgiven where it can mean one thing only.
  std::optional<Unit> found;
  for (const Row& row : rows) {
    if (lower(std::string{row.word}) != lower(wanted)) continue;
    if (found && found->name != row.unit.name) return std::nullopt;
    found = row.unit;
  }
  return found;
}

Unit model_unit(Dimension dimension) {
  if (dimension == Dimension::number) return unit("", Dimension::number, 1);
  return std::find_if(rows.begin(), rows.end(),
                      [&](const Row& row) { return row.unit.dimension == dimension; })
      ->unit;
}

std::string units_of(Dimension dimension) {
  std::string out;
  std::string_view last;
  for (const Row& row : rows) {
    if (row.unit.dimension != dimension || row.unit.name == last) continue;
    out += (out.empty() ? "" : ", ") + std::string{row.unit.name};
    last = row.unit.name;
  }
  return out.empty() ? "a plain number" : out;
}

std::vector<std::string> unit_words() {
  std::vector<std::string> out;
  for (const Row& row : rows)
    out.emplace_back(row.word);
  return out;
}

std::string_view name_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "a length";
    case Dimension::angle:
      return "an angle";
    case Dimension::pressure:
      return "a pressure";
    case Dimension::speed:
      return "a speed";
    case Dimension::temperature:
      return "a temperature";
    case Dimension::volume:
      return "a volume";
    case Dimension::flow:
      return "a flow";
    case Dimension::time:
      return "a time";
    case Dimension::force:
      return "a force";
    case Dimension::voltage:
      return "a voltage";
    case Dimension::current:
      return "a current";
    case Dimension::density:
      return "a density";
    case Dimension::count:
      return "a count a minute";
    case Dimension::share:
      return "a percentage";
    case Dimension::lift_rate:
      return "a lift rate";
    case Dimension::power:
      return "a power";
    case Dimension::velocity:
      return "a velocity";
    case Dimension::fuel_rate:
      return "a fuel rate";
    case Dimension::number:
      return "a plain number";
  }
  return "";
}

}  // namespace soot
