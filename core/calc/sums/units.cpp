#include "core/base/text.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>
#include <cmath>

namespace soot::calc {
namespace {

using Row = std::pair<std::string_view, Dimension>;

constexpr std::array rows{Row{"length", Dimension::length},
                          Row{"pressure", Dimension::pressure},
                          Row{"temperature", Dimension::temperature},
                          Row{"volume", Dimension::volume},
                          Row{"flow", Dimension::flow},
                          Row{"force", Dimension::force},
                          Row{"power", Dimension::power},
                          Row{"time", Dimension::time},
                          Row{"rate", Dimension::lift_rate}};

constexpr int figures_shown = 5;

/// So many places that about five figures show.
int places(double value) {
  if (value == 0) return 0;
  const int before = static_cast<int>(std::floor(std::log10(std::fabs(value)))) + 1;
  return std::max(0, figures_shown - before);
}

void write(Worksheet& sheet, const Given& given) {
  std::vector<std::string> same;
  for (const std::string& word : split(units_of(given.unit.dimension), ',')) {
    const Unit unit = find_unit(trim(word)).value();
    const double value = (given.value - unit.offset) / unit.factor;
    if (unit.name == given.unit.name) continue;
    sheet.result(std::string{unit.name}, given.value, unit, places(value));
    same.push_back(print_in(given.value, unit, places(value)));
  }
  const double typed = (given.value - given.unit.offset) / given.unit.factor;
  std::string line = print_in(given.value, given.unit, places(typed));
  for (const std::string& other : same)
    line += " = " + other;
  sheet.sum.lines.push_back(line);
  sheet.answer(0, line);
}

Result<Sum> units(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "NIST SP 811 (2008), appendix B.8; 1 in = 25.4 mm by definition"};
  sheet.sum.formula = {"the same measure in the other units of its kind"};
  for (const Need& need : form.needs)
    for (const Given& given : sheet.all(need.name))
      write(sheet, given);
  if (sheet.sum.results.empty())
    return fail(Kind::use, "nothing to convert (expected a measure, as pressure=1500psi)");
  sheet.sum.assumptions = {
      "pressures against the outside air, as a gauge shows them; five figures are shown"};
  return sheet.sum;
}

}  // namespace

SumForm units_form() {
  SumForm form{"units", "a measure in other units", {}, units};
  for (const auto& [name, dimension] : rows)
    form.needs.push_back({.name = name,
                          .dimension = dimension,
                          .meaning = "a measure to be told in other units",
                          .needed = false});
  return form;
}

}  // namespace soot::calc
