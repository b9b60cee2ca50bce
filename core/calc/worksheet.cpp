#include "core/calc/worksheet.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {

Worksheet::Worksheet(const SumForm& form, const Ask& ask, std::string source)
    : form_(form), ask_(ask) {
  sum.id = form.id;
  sum.title = form.title;
  sum.source = std::move(source);
}

const Need& Worksheet::need(std::string_view name) const {
  return *std::find_if(form_.needs.begin(), form_.needs.end(),
                       [&](const Need& need) { return need.name == name; });
}

void Worksheet::note(const Need& need, const Given& given) {
  const std::optional<double> expanded =
      given.uncertainty ? std::optional{2 * *given.uncertainty} : std::nullopt;
  sum.inputs.push_back(Amount{std::string{need.name}, given.value, given.unit,
                              input_decimals(given.unit), expanded, given.cylinder, given.from});
}

std::optional<Given> Worksheet::take(std::string_view name) {
  const Need& wanted = need(name);
  std::optional<Given> found;
  if (const auto given = ask_.given.find(name);
      given != ask_.given.end() && !given->second.empty()) {
    found = given->second.back();
  } else if (const Figure* figure = ask_.family.figure(std::string{wanted.figure});
             figure && figure->nominal()) {
    found = Given{*figure->nominal(), figure->unit, 0, std::nullopt, "family"};
  } else if (wanted.usual) {
    found = Given{*wanted.usual, model_unit(wanted.dimension), 0, std::nullopt, "usual"};
  }
  if (found) note(wanted, *found);
  return found;
}

Given Worksheet::needed(std::string_view name) {
  return take(name).value();
}

std::vector<Given> Worksheet::all(std::string_view name) {
  const auto given = ask_.given.find(name);
  if (given == ask_.given.end()) return {};
  for (const Given& one : given->second)
    note(need(name), one);
  return given->second;
}

void Worksheet::result(std::string name, double value, const Unit& unit, int decimals,
                       std::optional<double> expanded, int cylinder) {
  sum.results.push_back(Amount{std::move(name), value, unit, decimals, expanded, cylinder, ""});
}

int length_decimals(const Unit& unit, bool fine) {
  const double step_mm = fine ? 0.001 : 0.01;
  const double steps = std::log10(unit.factor / step_mm);
  return std::max(0, static_cast<int>(std::lround(steps)));
}

int input_decimals(const Unit& unit) {
  switch (unit.dimension) {
    case Dimension::length:
      return length_decimals(unit, true);
    case Dimension::lift_rate:
      return 4;
    case Dimension::number:
      return 0;
    default:
      return 2;
  }
}

std::string written(double model_value, const Unit& unit, int decimals) {
  const double half_step = 0.5 * std::pow(10.0, -decimals) * unit.factor;
  const bool is_zero = unit.offset == 0 && std::fabs(model_value) < half_step;
  return print_in(is_zero ? 0 : model_value, unit, decimals);
}

std::string late_or_early(double late_deg, int decimals) {
  return fmt::format("{:.{}f} deg {}", std::fabs(late_deg), decimals,
                     late_deg < 0 ? "early" : "late");
}

std::string of_cylinder(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format("cylinder {}: ", cylinder);
}

}  // namespace soot::calc
