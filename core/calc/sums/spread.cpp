#include "core/calc/sums/forms.hpp"
#include "core/calc/uncertainty.hpp"
#include "core/calc/worksheet.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

/// One value a cylinder: the mean of its readings.
std::vector<Given> by_cylinder(const std::vector<Given>& readings) {
  std::vector<Given> out;
  for (const Given& reading : readings) {
    const bool is_there = std::any_of(
        out.begin(), out.end(), [&](const Given& one) { return one.cylinder == reading.cylinder; });
    if (is_there) continue;
    std::vector<double> own;
    for (const Given& other : readings)
      if (other.cylinder == reading.cylinder) own.push_back(other.value);
    Given mean = reading;
    mean.value = repeats(own).mean;
    mean.uncertainty = estimate(reading).standard / std::sqrt(static_cast<double>(own.size()));
    out.push_back(mean);
  }
  return out;
}

std::string verdict(double off, double limit, double u) {
  const std::string suspect = off < 0 ? "low: suspect it" : "high: suspect it";
  if (std::fabs(off) > limit + u) return suspect;
  if (std::fabs(off) > limit) return suspect + ", by less than the readings scatter: read again";
  if (std::fabs(off) > limit - u)
    return "with the others, by less than the readings scatter: it cannot be told";
  return "with the others";
}

Result<Sum> spread(const SumForm& form, const Ask& ask) {
  Worksheet sheet{
      form, ask,
      "comparison of cylinders: TM 5-3895-359-14&P, table 2; uncertainty: JCGM 100:2008"};
  const double limit = sheet.needed("limit").value;
  if (!(limit > 0)) return fail(Kind::use, "a spread of {:g} bar (expected more than 0)", limit);
  const std::vector<Given> readings = by_cylinder(sheet.all("reading"));
  if (readings.size() < 2)
    return fail(Kind::use, "{} cylinder to compare (expected two or more, as 1:reading=28bar)",
                readings.size());
  Sum& sum = sheet.sum;
  sum.formula = {
      "spread = highest - lowest",
      "a cylinder is suspect when it stands off the middle of the others by more than the "
      "spread allowed"};
  const auto [low, high] =
      std::minmax_element(readings.begin(), readings.end(),
                          [](const Given& a, const Given& b) { return a.value < b.value; });
  const Unit unit = low->unit;
  const int decimals = unit.factor < 0.1 ? 0 : 1;
  const double between = high->value - low->value;
  sum.lines.push_back(fmt::format("{} - {} = {}", print_in(high->value, unit, decimals),
                                  print_in(low->value, unit, decimals),
                                  print_in(between, unit, decimals)));
  sheet.result("spread", between, unit, decimals,
               2 * std::hypot(estimate(*high).standard, estimate(*low).standard));
  for (const Given& one : readings) {
    std::vector<double> others;
    for (const Given& other : readings)
      if (other.cylinder != one.cylinder) others.push_back(other.value);
    const double off = one.value - median(others);
    const double scatter =
        std::hypot(estimate(one).standard,
                   estimate(one).standard / std::sqrt(static_cast<double>(others.size())));
    sheet.result("off the others", off, unit, decimals, 2 * scatter, one.cylinder);
    sheet.answer(one.cylinder, verdict(off, limit, 2 * scatter));
  }
  sum.assumptions = {
      "the same gauge, warmth and number of turns for each: what the gauge is out is common to all "
      "and cancels, only its scatter counts"};
  return sum;
}

}  // namespace

SumForm spread_form() {
  using enum Dimension;
  return SumForm{"spread",
                 "cylinders held against each other by the compression gauge",
                 {{.name = "reading",
                   .dimension = pressure,
                   .meaning = "gauge reading of each cylinder",
                   .quantity = "compression",
                   .standard = 0.3},
                  {.name = "limit",
                   .dimension = pressure,
                   .meaning = "spread allowed",
                   .figure = "compression-spread"}},
                 spread};
}

}  // namespace soot::calc
