#include "core/workbench/spec_builder.hpp"

#include "core/calc/derived.hpp"
#include "core/calc/ends.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/model/rotation.hpp"
#include "core/report/figure_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace soot {
namespace {

SpecSheet::Line line_of(const Figure& figure, std::string_view group, std::string_view words) {
  const calc::Derivation* rule =
      figure.source == "derived" ? calc::find_derivation(figure.key) : nullptr;
  return {std::string{group},   figure.key,    std::string{words},
          print_figure(figure), figure.source, std::string{rule ? rule->from : ""}};
}

std::string turning(const Family& family) {
  const std::optional<Rotation> seen = rotation_of(family.rotation);
  if (!seen) return fmt::format("turns {}", family.rotation);
  const Rotation other = from_other_end(*seen);
  return fmt::format("rotation: {}; that is {} seen from {}", family.rotation, sense_of(other),
                     other.end);
}

std::string other_end(const Family& family) {
  const std::vector<int> other = calc::order_from_other_end(family.firing_order);
  if (other == family.firing_order) return "";
  return fmt::format("counted from the wrong end the order would be {}", fmt::join(other, "-"));
}

}  // namespace

SpecSheet spec_of(const Engine& engine) {
  const Family& family = engine.family;
  SpecSheet sheet{family, turning(family), other_end(family), {}};
  for (const FigureKey& known : known_figures()) {
    const Figure* figure = family.figure(std::string{known.key});
    const bool applies = known.needs.empty() || family.has(known.needs);
    if (figure != nullptr)
      sheet.lines.push_back(line_of(*figure, known.group, known.words));
    else if (applies)
      sheet.lines.push_back(
          {std::string{known.group}, std::string{known.key}, std::string{known.words}, "", "", ""});
  }
  for (const auto& [key, figure] : family.figures)
    if (find_figure_key(key) == nullptr)
      sheet.lines.push_back(line_of(figure, "of this family alone", key));
  return sheet;
}

}  // namespace soot
