#include "core/calc/fuel.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace soot::calc {
namespace {

constexpr double mm3_per_ml = 1000;
constexpr double longest_rack_mm = 60;

double area_mm2(double diameter_mm) {
  return std::numbers::pi * diameter_mm * diameter_mm / 4;
}

// Inputs of the formula, in this order.
enum At : std::size_t { rack, none, lead, radius, diameter, count };

/// At the position of no delivery and short of it the groove is open to the top all the way.
double stroke_mm(std::span<const double> in) {
  return std::max(0.0, in[rack] - in[none]) * in[lead] / (2 * std::numbers::pi * in[radius]);
}

class DeliverySum {
 public:
  DeliverySum(const SumForm& form, const Ask& ask)
      : sheet_(form, ask, "helix geometry, elementary; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    in_[none] = estimate(sheet_.needed("no-delivery"));
    in_[lead] = estimate(sheet_.needed("helix-lead"));
    in_[radius] = estimate(sheet_.needed("pinion-radius"));
    in_[diameter] = estimate(sheet_.needed("plunger-diameter"));
    for (const At at : {lead, radius, diameter})
      if (!(in_[at].value > 0))
        return fail(Kind::use, "a helix, pinion or plunger of size 0 (expected all above 0)");
    sheet_.sum.formula = {
        "effective stroke = (rack - rack at no delivery) x helix lead / (2 pi x pinion radius), "
        "never below 0",
        "fuel = plunger area x effective stroke"};
    for (const Given& position : sheet_.all("rack")) {
      if (!(position.value >= -1 && position.value <= longest_rack_mm))
        return fail(Kind::use, "{}a rack at {} from STOP (expected 0 to {:.0f} mm)",
                    of_cylinder(position.cylinder), print_in(position.value, position.unit, 1),
                    longest_rack_mm);
      write(position);
    }
    if (const auto wanted = sheet_.take("fuel")) {
      if (!(wanted->value > 0)) return fail(Kind::use, "no fuel is wanted (expected some)");
      invert(*wanted);
    }
    if (sheet_.sum.results.empty())
      return fail(Kind::use,
                  "no rack and no fuel is given (expected rack=MEASURE or fuel=MEASURE)");
    finish();
    return sheet_.sum;
  }

 private:
  void write(const Given& position) {
    in_[rack] = estimate(position);
    const Estimate stroke = propagate(in_, stroke_mm);
    const Estimate fuel =
        propagate(in_, [](auto at) { return area_mm2(at[diameter]) * stroke_mm(at) / mm3_per_ml; });
    sheet_.sum.lines.push_back(fmt::format(
        "{}({:.1f} - {:.1f}) mm x {:.1f} / (2 pi x {:.1f}) = {:.2f} mm of stroke; x {:.1f} mm2 = "
        "{:.0f} mm3",
        of_cylinder(position.cylinder), in_[rack].value, in_[none].value, in_[lead].value,
        in_[radius].value, stroke.value, area_mm2(in_[diameter].value), fuel.value * mm3_per_ml));
    const Unit mm = model_unit(Dimension::length);
    sheet_.result("effective stroke", stroke, mm, 2, position.cylinder);
    sheet_.result("fuel", fuel, find_unit("mm3").value(), 0, position.cylinder);
    sheet_.answer(position.cylinder,
                  stroke.value > 0
                      ? fmt::format("{:.0f} mm3 a stroke", fuel.value * mm3_per_ml)
                      : "nothing is delivered: the way to the top is open for the whole stroke");
  }

  void invert(const Given& wanted) {
    std::array<Estimate, At::count + 1> in;
    std::copy(in_.begin(), in_.end(), in.begin());
    in[At::count] = estimate(wanted);
    const Estimate position = propagate(in, [](auto at) {
      return at[none] + at[At::count] * mm3_per_ml / area_mm2(at[diameter]) * 2 * std::numbers::pi *
                            at[radius] / at[lead];
    });
    sheet_.result("rack", position, model_unit(Dimension::length), 1);
    sheet_.sum.lines.push_back(fmt::format("{:.0f} mm3: rack {:.1f} mm from STOP",
                                           wanted.value * mm3_per_ml, position.value));
    sheet_.answer(0, fmt::format("for {:.0f} mm3 a stroke: rack {:.1f} mm from STOP",
                                 wanted.value * mm3_per_ml, position.value));
  }

  void finish() {
    Sum& sum = sheet_.sum;
    sum.answer.emplace_back("a longer effective stroke is more fuel");
    sum.assumptions = {
        "rack counted from STOP; leakage and compression of the fuel left out: real racks stand "
        "somewhat further out (sum displacement)"};
  }

  Worksheet sheet_;
  std::array<Estimate, At::count> in_;
};

Result<Sum> delivery(const SumForm& form, const Ask& ask) {
  return DeliverySum{form, ask}.work();
}

Result<Sum> displacement(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "Ganesan, Internal Combustion Engines, ch. 9, ex. 9.6 and 9.7; uncertainty: JCGM "
                  "100:2008"};
  const Estimate fuel = estimate(sheet.needed("fuel"));
  const Estimate trapped = estimate(sheet.needed("trapped"));
  const Estimate high = estimate(sheet.needed("pressure"));
  const Estimate low = estimate(sheet.needed("from"));
  const Estimate stiff = estimate(sheet.needed("compressibility"));
  const auto diameter = sheet.take("plunger-diameter");
  if (!(fuel.value > 0 && trapped.value >= 0 && high.value > low.value && low.value >= 0))
    return fail(Kind::use,
                "no fuel, or a pressure that does not rise (expected fuel above 0 and "
                "pressure above from)");
  if (!(stiff.value >= 40 && stiff.value <= 150))
    return fail(Kind::use, "a compressibility of {:g} millionths a bar (expected 40 to 150)",
                stiff.value);
  Sum& sum = sheet.sum;
  sum.formula = {
      "displacement = fuel delivered + trapped fuel x rise of pressure x compressibility",
      "stroke = displacement / plunger area"};
  constexpr double millionth = 1e-6;
  const std::array in{fuel, trapped, high, low, stiff};
  const auto whole_ml = [](std::span<const double> at) {
    return at[0] + pressed_in(at[1], at[2] - at[3], at[4] * millionth);
  };
  const Estimate whole = propagate(in, whole_ml);
  sum.lines.push_back(
      fmt::format("{:.1f} mm3 + {:.2f} mL x {:.0f} bar x {:.0f} millionths = {:.1f} mm3",
                  fuel.value * mm3_per_ml, trapped.value, high.value - low.value, stiff.value,
                  whole.value * mm3_per_ml));
  sheet.result("displacement", whole, find_unit("mm3").value(), 1);
  sheet.answer(0, fmt::format("the plunger displaces {:.0f} mm3 to deliver {:.0f}",
                              whole.value * mm3_per_ml, fuel.value * mm3_per_ml));
  if (diameter && diameter->value > 0) {
    const double area = area_mm2(diameter->value);
    const Estimate stroke =
        propagate(in, [&](auto at) { return whole_ml(at) * mm3_per_ml / area; });
    sum.lines.push_back(fmt::format("/ {:.2f} mm2 = {:.2f} mm", area, stroke.value));
    sheet.result("effective stroke", stroke, model_unit(Dimension::length), 3);
  }
  sum.assumptions = {"no leakage; the trapped fuel is that of pump, valve, pipe and nozzle"};
  return sum;
}

}  // namespace

SumForm delivery_form() {
  using enum Dimension;
  return SumForm{"delivery",
                 "helix and rack to the fuel of a stroke, and back",
                 {{.name = "rack",
                   .dimension = length,
                   .meaning = "rack from STOP",
                   .quantity = "rack-at-load",
                   .needed = false,
                   .standard = 0.1},
                  {.name = "fuel",
                   .dimension = volume,
                   .meaning = "fuel wanted, to be told the rack",
                   .needed = false,
                   .standard_share = 2},
                  {.name = "no-delivery",
                   .dimension = length,
                   .meaning = "rack from STOP at which delivery begins",
                   .figure = "rack-no-delivery"},
                  {.name = "helix-lead",
                   .dimension = length,
                   .meaning = "lead of the plunger's helix a turn",
                   .figure = "helix-lead"},
                  {.name = "pinion-radius",
                   .dimension = length,
                   .meaning = "pitch radius of the plunger's pinion",
                   .figure = "pinion-radius"},
                  {.name = "plunger-diameter",
                   .dimension = length,
                   .meaning = "plunger diameter",
                   .figure = "plunger-diameter"}},
                 delivery};
}

SumForm displacement_form() {
  using enum Dimension;
  return SumForm{"displacement",
                 "plunger stroke for a delivery, the fuel's compression counted",
                 {{.name = "fuel",
                   .dimension = volume,
                   .meaning = "fuel delivered",
                   .figure = "fuel-per-injection",
                   .standard_share = 2},
                  {.name = "trapped",
                   .dimension = volume,
                   .meaning = "fuel between plunger and needle",
                   .standard_share = 5},
                  {.name = "pressure",
                   .dimension = pressure,
                   .meaning = "pressure it is raised to",
                   .figure = "nozzle-opening",
                   .standard_share = 3},
                  {.name = "from", .dimension = pressure, .meaning = "pressure before", .usual = 1},
                  {.name = "compressibility",
                   .dimension = number,
                   .meaning = "of the fuel, millionths a bar",
                   .usual = 75,
                   .standard = 3},
                  {.name = "plunger-diameter",
                   .dimension = length,
                   .meaning = "plunger diameter",
                   .figure = "plunger-diameter",
                   .needed = false}},
                 displacement};
}

}  // namespace soot::calc
