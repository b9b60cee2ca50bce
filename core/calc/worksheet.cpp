#include "core/calc/worksheet.hpp"

#include <fmt/ranges.h>

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
    found = with_uncertainty(wanted, given->second.back());
  } else if (const Figure* figure = ask_.family.figure(std::string{wanted.figure});
             figure && figure->nominal()) {
    found = Given{*figure->nominal(), figure->unit, 0, std::nullopt, "family"};
  } else if (wanted.usual) {
    const Unit unit =
        wanted.unit.empty() ? model_unit(wanted.dimension) : find_unit(wanted.unit).value();
    found = with_uncertainty(wanted, Given{*wanted.usual, unit, 0, std::nullopt, "usual"});
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
  std::vector<Given> out;
  for (const Given& one : given->second) {
    out.push_back(with_uncertainty(need(name), one));
    note(need(name), out.back());
  }
  return out;
}

Given Worksheet::with_uncertainty(const Need& need, Given given) const {
  if (given.uncertainty) return given;
  const double standard = std::hypot(need.standard, need.standard_share / 100 * given.value);
  if (standard > 0) given.uncertainty = standard;
  return given;
}

void Worksheet::result(std::string name, double value, const Unit& unit, int decimals,
                       std::optional<double> expanded, int cylinder) {
  sum.results.push_back(Amount{std::move(name), value, unit, decimals, expanded, cylinder, ""});
}

void Worksheet::result(std::string name, const Estimate& estimate, const Unit& unit, int decimals,
                       int cylinder) {
  const std::optional<double> u =
      estimate.standard > 0 ? std::optional{expanded(estimate)} : std::nullopt;
  // An uncertainty is never printed as nothing.
  constexpr int most_more = 2;
  for (int more = 0; u && more < most_more; ++more)
    if (*u / unit.factor < 0.5 * std::pow(10.0, -decimals)) ++decimals;
  result(std::move(name), estimate.value, unit, decimals, u, cylinder);
}

void Worksheet::answer(int cylinder, const std::string& text) {
  auto same = std::find_if(said_.begin(), said_.end(), [&](const Said& said) {
    return cylinder != 0 && !said.cylinders.empty() && said.text == text;
  });
  if (same == said_.end()) {
    said_.push_back({text, {}, sum.answer.size()});
    sum.answer.emplace_back();
    same = said_.end() - 1;
  }
  if (cylinder != 0) same->cylinders.push_back(cylinder);
  sum.answer[same->at] = of_cylinders(same->cylinders) + text;
}

Estimate estimate(const Given& given) {
  return {given.value, given.uncertainty.value_or(0)};
}

std::string of_cylinders(const std::vector<int>& cylinders) {
  if (cylinders.empty()) return {};
  if (cylinders.size() == 1) return of_cylinder(cylinders.front());
  const std::vector<int> first(cylinders.begin(), cylinders.end() - 1);
  return fmt::format("cylinders {} and {}: ", fmt::join(first, ", "), cylinders.back());
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

std::string late_or_early(double late_deg, int decimals) {
  if (std::fabs(late_deg) < 0.5 * std::pow(10.0, -decimals)) return "on time";
  return fmt::format("{:.{}f} deg {}", std::fabs(late_deg), decimals,
                     late_deg < 0 ? "early" : "late");
}

std::string of_cylinder(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format("cylinder {}: ", cylinder);
}

}  // namespace soot::calc
