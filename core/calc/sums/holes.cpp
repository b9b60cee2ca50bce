#include "core/calc/ignition.hpp"
#include "core/calc/nozzle_hole.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/refusals.hpp"
#include "core/calc/worksheet.hpp"

#include <array>

namespace soot::calc {
namespace {

enum At : std::size_t { fuel, over, speed, before, behind, density, coefficient, count };

double area_mm2(std::span<const double> in) {
  return hole_area_mm2({in[fuel], ms_of_deg(in[over], in[speed]), in[before] - in[behind],
                        in[density], in[coefficient]});
}

Result<Sum> holes(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "Ganesan, Internal Combustion Engines, ch. 9, ex. 9.2 and 9.3; coefficient 0.62 "
                  "to 0.88: NACA Report 224; uncertainty: JCGM 100:2008"};
  std::array<Estimate, At::count> in;
  constexpr std::array<std::string_view, At::count> names{
      "fuel", "over", "speed", "pressure", "back", "density", "coefficient"};
  for (std::size_t i = 0; i < in.size(); ++i)
    in[i] = estimate(sheet.needed(names[i]));
  if (auto bad = refuse_speed(in[speed].value, "injection")) return tl::unexpected(Problems{*bad});
  if (!(in[before].value > in[behind].value && in[behind].value >= 0))
    return fail(Kind::use, "{:.0f} bar into {:.0f} (expected more in front than behind)",
                in[before].value, in[behind].value);
  if (!(in[fuel].value > 0 && in[over].value > 0 && in[density].value > 0 &&
        in[coefficient].value > 0 && in[coefficient].value <= 1))
    return fail(Kind::use,
                "no fuel, no time, no density or no coefficient (expected all above 0, the "
                "coefficient at most 1)");
  const double number = sheet.needed("count").value;
  if (!(number >= 1))
    return fail(Kind::use, "a nozzle of {:g} holes (expected one or more)", number);
  Sum& sum = sheet.sum;
  sum.formula = {
      "area of all holes = fuel / (time x coefficient x sqrt(2 x pressure difference / density))"};
  const Estimate area = propagate(in, area_mm2);
  const Estimate diameter =
      propagate(in, [&](auto at) { return hole_diameter_mm(area_mm2(at), number); });
  sum.lines.push_back(fmt::format("{:.1f} mm3 in {:.3f} ms through {:.0f} bar: {:.4f} mm2",
                                  in[fuel].value * 1000, ms_of_deg(in[over].value, in[speed].value),
                                  in[before].value - in[behind].value, area.value));
  sum.lines.push_back(fmt::format("{:g} of {:.3f} mm each", number, diameter.value));
  sheet.result("area, mm2", area, model_unit(Dimension::number), 4);
  sheet.result("diameter of one", diameter, model_unit(Dimension::length), 3);
  sheet.answer(0,
               fmt::format("{:g} round holes of {:.2f} mm would pass it", number, diameter.value));
  sum.assumptions = {
      "the pressure is the mean of the whole injection, the needle fully up; worn holes pass more, "
      "coked ones less"};
  return sum;
}

}  // namespace

SumForm holes_form() {
  using enum Dimension;
  return SumForm{"holes",
                 "nozzle holes for a quantity of fuel",
                 {{.name = "fuel",
                   .dimension = volume,
                   .meaning = "fuel of one injection",
                   .figure = "fuel-per-injection",
                   .standard_share = 2},
                  {.name = "over",
                   .dimension = angle,
                   .meaning = "crank degrees it takes",
                   .figure = "delivery-angle",
                   .standard_share = 3},
                  {.name = "speed",
                   .dimension = speed,
                   .meaning = "running speed",
                   .figure = "rated-speed",
                   .standard_share = 1},
                  {.name = "pressure",
                   .dimension = pressure,
                   .meaning = "mean pressure before the holes",
                   .figure = "nozzle-opening",
                   .standard_share = 5},
                  {.name = "back",
                   .dimension = pressure,
                   .meaning = "pressure in the cylinder",
                   .usual = 40,
                   .standard = 5},
                  {.name = "density",
                   .dimension = density,
                   .meaning = "of the fuel",
                   .usual = 0.845,
                   .standard = 0.01},
                  {.name = "coefficient",
                   .dimension = number,
                   .meaning = "share of the ideal flow that passes",
                   .usual = 0.7,
                   .standard = 0.04},
                  {.name = "count", .dimension = number, .meaning = "how many holes", .usual = 1}},
                 holes};
}

}  // namespace soot::calc
