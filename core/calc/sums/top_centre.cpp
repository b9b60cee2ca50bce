#include "core/calc/crank.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/uncertainty.hpp"
#include "core/calc/worksheet.hpp"

#include <cmath>

namespace soot::calc {
namespace {

// Stops nearer the top than this are in the dwell, further than that the piston is past half
// stroke.
constexpr double least_half_deg = 5;
constexpr double most_half_deg = 90;

struct Stops {
  double half_deg = 0;     ///< from each stop to true top
  double pointer_deg = 0;  ///< standard uncertainty of one line read
  double stop_deg = 0;     ///< the same of the piston at a stop
};

/// Of the middle between the stops.
double of_middle_deg(const Stops& stops) {
  return std::hypot(stops.pointer_deg, stops.stop_deg) / std::sqrt(2.0);
}

/// Of the middle against a third line.
double of_mark_deg(const Stops& stops) {
  return std::hypot(of_middle_deg(stops), stops.pointer_deg);
}

Problems refuse(double half_deg) {
  if (half_deg >= least_half_deg && half_deg <= most_half_deg) return {};
  return {make_problem(Kind::use,
                       "stops {:.1f} deg from top (expected {:.0f} to {:.0f}: nearer the piston "
                       "hardly moves)",
                       half_deg, least_half_deg, most_half_deg)};
}

std::optional<double> stop_deg(Worksheet& sheet, double half_deg) {
  const auto stroke = sheet.take("stroke");
  const auto rod = sheet.take("rod");
  const double indicator_mm = rectangular(sheet.needed("indicator").value);
  if (!stroke || !rod || !(stroke->value > 0 && rod->value > stroke->value / 2))
    return std::nullopt;
  return indicator_mm / piston_slope_mm_per_deg({stroke->value, rod->value}, half_deg);
}

void finish(Sum& sum, bool has_slope) {
  sum.source =
      "halving between two equal piston positions: finding top centre, worked examples of workshop "
      "practice; piston slope: Heywood (1988) eq. 2.4-2.6, as quoted; uncertainty: JCGM 100:2008";
  sum.assumptions = {
      "the same piston height at both marks, both reached in the running direction; slack of the "
      "rod is not in the uncertainty: repeat turning the other way and take the mean"};
  if (!has_slope)
    sum.assumptions.emplace_back("stroke or rod not known: the indicator's share is left out");
}

void write_error(Worksheet& sheet, double late_deg, double expanded_deg) {
  sheet.result("readings against the mark look late", late_deg, model_unit(Dimension::angle), 1,
               expanded_deg);
  if (std::fabs(late_deg) <= expanded_deg)
    sheet.sum.answer.push_back(fmt::format("the mark is right as far as this shows ({} +/- {:.1f})",
                                           late_or_early(late_deg), expanded_deg));
  else
    sheet.sum.answer.push_back(fmt::format(
        "the mark comes {:.1f} deg {} true top: readings against it look {}", std::fabs(late_deg),
        late_deg < 0 ? "after" : "before", late_or_early(late_deg)));
}

Result<Sum> top_centre(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, ""};
  const Given arc = sheet.needed("arc");
  const double diameter_mm = sheet.needed("diameter").value;
  if (!(diameter_mm > 0)) return fail(Kind::use, "a rim of diameter 0 (expected more)");
  Stops stops;
  stops.half_deg = angle_of_arc_deg(diameter_mm, arc.value / 2);
  if (auto bad = refuse(stops.half_deg); !bad.empty()) return tl::unexpected(bad);
  stops.pointer_deg = angle_of_arc_deg(diameter_mm, rectangular(sheet.needed("line").value));
  const auto stop = stop_deg(sheet, stops.half_deg);
  stops.stop_deg = stop.value_or(0);

  Sum& sum = sheet.sum;
  const int decimals = length_decimals(arc.unit) - 1;
  sum.formula = {"true top is half the rim arc between the two marks",
                 "degrees = arc x 360 / (pi x rim diameter)"};
  sum.lines.push_back(fmt::format("{} / 2 = {} from the first mark ({:.1f} deg)",
                                  print_in(arc.value, arc.unit, decimals),
                                  print_in(arc.value / 2, arc.unit, decimals), stops.half_deg));
  sheet.result("true top from the first mark", arc.value / 2, arc.unit, decimals,
               rim_arc_mm(diameter_mm, 2 * of_middle_deg(stops)));
  sum.answer.push_back(fmt::format("true top: {} along the rim from the first mark",
                                   print_in(arc.value / 2, arc.unit, decimals)));
  if (const auto mark = sheet.take("mark")) {
    const double late_deg = angle_of_arc_deg(diameter_mm, arc.value / 2 - mark->value);
    sum.lines.push_back(fmt::format("({} - {}) x 360 / (pi x {:.0f} mm) = {:+.1f} deg",
                                    print_in(arc.value / 2, arc.unit, decimals),
                                    print_in(mark->value, arc.unit, decimals), diameter_mm,
                                    late_deg));
    write_error(sheet, late_deg, 2 * of_mark_deg(stops));
  }
  finish(sum, stop.has_value());
  return sum;
}

Result<Sum> two_stops(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, ""};
  const double before_deg = sheet.needed("before").value;
  const double after_deg = sheet.needed("after").value;
  Stops stops;
  stops.half_deg = (before_deg + after_deg) / 2;
  if (auto bad = refuse(stops.half_deg); !bad.empty()) return tl::unexpected(bad);
  stops.pointer_deg = rectangular(sheet.needed("pointer").value);
  const auto stop = stop_deg(sheet, stops.half_deg);
  stops.stop_deg = stop.value_or(0);
  const double late_deg = (after_deg - before_deg) / 2;

  Sum& sum = sheet.sum;
  sum.formula = {"true top is halfway between two equal piston positions"};
  sum.lines = {
      fmt::format("({:g} + {:g}) / 2 = {:g} deg each side", before_deg, after_deg, stops.half_deg),
      fmt::format("wheel out by {:g} - {:g} = {:g} deg", before_deg, stops.half_deg,
                  before_deg - stops.half_deg)};
  sheet.result("each side", stops.half_deg, model_unit(Dimension::angle), 2);
  write_error(sheet, late_deg, 2 * of_middle_deg(stops));
  finish(sum, stop.has_value());
  return sum;
}

const std::vector<Need> piston_needs{
    {"stroke", Dimension::length, "stroke", "", "stroke", std::nullopt, false},
    {"rod", Dimension::length, "connecting rod, centre to centre", "", "rod-length", std::nullopt,
     false},
    {"indicator", Dimension::length, "how well the two piston heights agree (half width)", "", "",
     0.0127}};

}  // namespace

SumForm top_centre_form() {
  SumForm form{
      "top-centre",
      "true top centre from two marks on the rim",
      {{"arc", Dimension::length, "rim arc between the two marks of equal piston height", "", ""},
       {"diameter", Dimension::length, "rim diameter", "", "flywheel-diameter"},
       {"mark", Dimension::length, "arc from the first mark to the engine's own top mark", "", "",
        std::nullopt, false},
       {"line", Dimension::length, "how well a line on the rim is read (half width)", "", "", 0.5}},
      top_centre};
  form.needs.insert(form.needs.end(), piston_needs.begin(), piston_needs.end());
  return form;
}

SumForm two_stops_form() {
  SumForm form{
      "two-stops",
      "true top centre from two readings of a degree wheel",
      {{"before", Dimension::angle, "reading at the stop before top", "", ""},
       {"after", Dimension::angle, "reading at the stop after top", "", ""},
       {"pointer", Dimension::angle, "how well the wheel is read (half width)", "", "", 0.25}},
      two_stops};
  form.needs.insert(form.needs.end(), piston_needs.begin(), piston_needs.end());
  return form;
}

}  // namespace soot::calc
