#include "core/calc/fuel.hpp"
#include "core/calc/ignition.hpp"
#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/refusals.hpp"

#include <array>
#include <numbers>

namespace soot::calc {
namespace {

constexpr double longest_mm = 10000;
constexpr double millionth = 1e-6;

double wave_ms(double length_mm, double density_kg_l, double compressibility) {
  return length_mm / fuel_sound_m_s(density_kg_l, compressibility);
}

class LineSum {
 public:
  LineSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(
            form, ask,
            "delay = length / speed of sound, volume lag = what must be pressed in: Ganesan, "
            "Internal Combustion Engines, ch. 9 (data), elementary; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    const Given length = sheet_.needed("length");
    if (!(length.value > 0 && length.value <= longest_mm))
      return fail(Kind::use, "a pipe of {} (expected above 0 and at most 10 m)",
                  print_in(length.value, length.unit, 1));
    const Given stiffness = sheet_.needed("compressibility");
    if (!(stiffness.value >= 40 && stiffness.value <= 150))
      return fail(Kind::use, "a compressibility of {:g} millionths a bar (expected 40 to 150)",
                  stiffness.value);
    compressibility_ = estimate(stiffness);
    write_wave(estimate(length));
    for (const char* name : {"cranking", "speed"})
      if (const auto rpm = sheet_.take(name)) {
        if (auto bad = refuse_speed(rpm->value, "turning")) return tl::unexpected(Problems{*bad});
        write_degrees(estimate(length), *rpm);
      }
    if (auto bad = write_volumes(); !bad.empty()) return tl::unexpected(std::move(bad));
    finish();
    return sheet_.sum;
  }

 private:
  Estimate wave(const Estimate& length, double times) const {
    const std::array in{length, Estimate{fuel_density_kg_l(20), 0.01}, compressibility_};
    return propagate(in,
                     [times](auto at) { return times * wave_ms(at[0], at[1], at[2] * millionth); });
  }

  void write_wave(const Estimate& length) {
    const Estimate ms = wave(length, 1);
    sheet_.sum.lines.push_back(fmt::format(
        "{:.0f} mm / {:.0f} m/s = {:.2f} ms", length.value,
        fuel_sound_m_s(fuel_density_kg_l(20), compressibility_.value * millionth), ms.value));
    sheet_.result("wave, ms", ms, model_unit(Dimension::number), 2);
  }

  void write_degrees(const Estimate& length, const Given& rpm) {
    const Estimate deg = wave(length, deg_of_ms(1, rpm.value));
    sheet_.result(fmt::format("wave at {:.0f} rpm", rpm.value), deg, model_unit(Dimension::angle),
                  1);
    sheet_.answer(0, fmt::format("at {:.0f} rpm the pipe makes {:.1f} deg", rpm.value, deg.value));
  }

  // Both are so many degrees of plunger travel, at any speed.
  Problems write_volumes() {
    const auto trapped = sheet_.take("trapped");
    const auto air = sheet_.take("air");
    if (!trapped && !air) return {};
    const Result<Flank> flank = needed_flank(sheet_, ask_);
    if (!flank) return flank.error();
    const auto diameter = sheet_.take("diameter");
    if (!diameter || !(diameter->value > 0))
      return {make_problem(Kind::use,
                           "the plunger's diameter is not known (expected diameter=MEASURE)")};
    const double ml_per_deg =
        std::numbers::pi * diameter->value * diameter->value / 4 * flank->rate_at_closing() / 1000;
    if (trapped)
      if (auto bad = write_trapped(*trapped, ml_per_deg); !bad.empty()) return bad;
    if (!air) return {};
    if (!(air->value >= 0))
      return {make_problem(Kind::use, "air of {:g} mL (expected 0 or more)", air->value)};
    const Estimate deg{air->value / ml_per_deg, estimate(*air).standard / ml_per_deg};
    sheet_.result("lag of the air", deg, model_unit(Dimension::angle), 1);
    sheet_.answer(0, fmt::format("{:.0f} mm3 of air are swept out in {:.1f} deg, and as much fuel "
                                 "is lost",
                                 air->value * 1000, deg.value));
    return {};
  }

  Problems write_trapped(const Given& trapped, double ml_per_deg) {
    const Given opening = sheet_.needed("opening");
    const Given residual = sheet_.needed("residual");
    if (!(trapped.value > 0 && residual.value >= 0 && opening.value > residual.value))
      return {make_problem(Kind::use,
                           "{:g} mL from {:g} to {:g} bar (expected a volume, and a rise)",
                           trapped.value, residual.value, opening.value)};
    const std::array in{estimate(trapped), estimate(opening), estimate(residual), compressibility_};
    const Estimate deg = propagate(in, [&](auto at) {
      return pressed_in(at[0], at[1] - at[2], at[3] * millionth) / ml_per_deg;
    });
    sheet_.sum.lines.push_back(
        fmt::format("{:.2f} mL x {:.0f} bar x {:.0f} millionths = {:.0f} mm3 = {:.1f} deg",
                    trapped.value, opening.value - residual.value, compressibility_.value,
                    1000 * pressed_in(trapped.value, opening.value - residual.value,
                                      compressibility_.value * millionth),
                    deg.value));
    sheet_.result("lag of the volume", deg, model_unit(Dimension::angle), 1);
    sheet_.answer(0, fmt::format("pressing the fuel up takes {:.1f} deg at any speed", deg.value));
    return {};
  }

  void finish() {
    Sum& sum = sheet_.sum;
    sum.formula = {
        "wave (ms) = pipe length / speed of sound; degrees = 0.006 x speed x ms",
        "lag of the volume = trapped fuel x rise x compressibility / (plunger area x lift "
        "rate)"};
    if (sum.answer.empty())
      sum.answer.push_back("no speed is known: give cranking= or speed= for degrees");
    sum.assumptions.emplace_back(
        "both add to the static spill angle; equal pipes make equal delays, so an odd pipe is an "
        "odd cylinder");
  }

  const Ask& ask_;
  Worksheet sheet_;
  Estimate compressibility_;
};

Result<Sum> line_delay(const SumForm& form, const Ask& ask) {
  return LineSum{form, ask}.work();
}

}  // namespace

SumForm line_delay_form() {
  using enum Dimension;
  return SumForm{"line-delay",
                 "what the pipe and the trapped fuel add to the spill angle",
                 {{.name = "length",
                   .dimension = length,
                   .meaning = "pipe from pump to nozzle",
                   .standard = 5},
                  {.name = "compressibility",
                   .dimension = number,
                   .meaning = "of the fuel, millionths a bar",
                   .usual = 75,
                   .standard = 3},
                  {.name = "cranking",
                   .dimension = speed,
                   .meaning = "cranking speed",
                   .quantity = "cranking-speed",
                   .figure = "cranking-speed",
                   .needed = false},
                  {.name = "speed",
                   .dimension = speed,
                   .meaning = "running speed",
                   .figure = "rated-speed",
                   .needed = false},
                  {.name = "trapped",
                   .dimension = volume,
                   .meaning = "fuel between plunger and needle",
                   .needed = false,
                   .standard_share = 5},
                  {.name = "opening",
                   .dimension = pressure,
                   .meaning = "nozzle opening pressure",
                   .figure = "nozzle-opening",
                   .usual = 250,
                   .needed = false,
                   .standard_share = 3},
                  {.name = "residual",
                   .dimension = pressure,
                   .meaning = "pressure left in the pipe between strokes",
                   .usual = 0,
                   .needed = false},
                  {.name = "air",
                   .dimension = volume,
                   .meaning = "air in the pump",
                   .needed = false,
                   .standard_share = 10},
                  {.name = "diameter",
                   .dimension = length,
                   .meaning = "plunger diameter",
                   .figure = "plunger-diameter",
                   .needed = false},
                  rate_need},
                 line_delay};
}

}  // namespace soot::calc
