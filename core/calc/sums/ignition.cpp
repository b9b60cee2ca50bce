#include "core/calc/ignition.hpp"

#include "core/calc/air.hpp"
#include "core/calc/compression.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>
#include <cmath>

namespace soot::calc {
namespace {

constexpr double mm_in_m = 1000;
constexpr double latest_deg = 17.5;  // 15 to 20 after top, fuel that waits longer is lost
constexpr double hardenberg_least_bar = 18;
constexpr double slowest_rpm = 20, fastest_rpm_here = 2000;

enum At : std::size_t { gauge, outside, air_c, ratio, rpm, rule, count };

double end_k(std::span<const double> in) {
  return end_temperature_k(in[air_c] + kelvin, (in[gauge] + in[outside]) / in[outside], in[ratio]);
}

double delay_ms(std::span<const double> in) {
  return in[rule] * wolfer_ms(in[gauge] + in[outside], end_k(in));
}

// Its uncertainty is a factor either way: it is that of the logarithm.
struct Delay {
  double value = 0;
  double low = 0, high = 0;  ///< k = 2
};

Delay spread_of(std::span<const Estimate> inputs, const Formula& formula) {
  const Estimate log = propagate(inputs, [&](auto at) { return std::log(formula(at)); });
  return {std::exp(log.value), std::exp(log.value - expanded(log)),
          std::exp(log.value + expanded(log))};
}

class IgnitionSum {
 public:
  IgnitionSum(const SumForm& form, const Ask& ask)
      : sheet_(form, ask,
               "Wolfer (1938) and Hardenberg and Hase, SAE 790493, as quoted in Heywood (1988); "
               "constants from memory; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    in_[gauge] = estimate(sheet_.needed("compression"));
    in_[air_c] = estimate(sheet_.needed("air"));
    in_[ratio] = estimate(sheet_.needed("ratio"));
    in_[rpm] = estimate(sheet_.needed("speed"));
    in_[rule] = estimate(sheet_.needed("rule"));
    const double height_m = sheet_.needed("altitude").value / mm_in_m;
    in_[outside] = {air_pressure_bar(height_m), 0};
    if (Problems bad = refuse(height_m); !bad.empty()) return tl::unexpected(std::move(bad));
    const Estimate hot = propagate(in_, end_k);
    const double bar = in_[gauge].value + in_[outside].value;
    if (!(bar / air_pressure_bar(0) >= wolfer_least_atm &&
          bar / air_pressure_bar(0) <= wolfer_most_atm))
      return fail(Kind::use,
                  "a compression of {:.1f} bar absolute (expected {:g} to {:g}, where the "
                  "delay was measured)",
                  bar, wolfer_least_atm, wolfer_most_atm);
    if (!(hot.value > 350 && hot.value < 1000))
      return fail(Kind::use,
                  "{:.0f} C at the end of compression (expected 80 to 730: look at ratio "
                  "and compression)",
                  hot.value - kelvin);
    write(hot, spread_of(in_, delay_ms));
    write_hardenberg(hot.value, bar);
    finish(hot.value);
    return sheet_.sum;
  }

 private:
  Problems refuse(double height_m) const {
    Problems out;
    if (!(in_[rpm].value >= slowest_rpm && in_[rpm].value <= fastest_rpm_here))
      out.push_back(make_problem(Kind::use, "turning at {:g} rpm (expected {:g} to {:g})",
                                 in_[rpm].value, slowest_rpm, fastest_rpm_here));
    if (!(height_m >= least_height_m && height_m <= most_height_m))
      out.push_back(make_problem(Kind::use, "an altitude of {:.0f} m (expected {:.0f} to {:.0f})",
                                 height_m, least_height_m, most_height_m));
    if (!(in_[air_c].value > -50 && in_[air_c].value < 150))
      out.push_back(
          make_problem(Kind::use, "air of {:g} C (expected -50 to 150)", in_[air_c].value));
    if (!(in_[ratio].value > 6 && in_[ratio].value < 30))
      out.push_back(make_problem(Kind::use, "a compression ratio of {:g} (expected 6 to 30)",
                                 in_[ratio].value));
    return out;
  }

  void write(const Estimate& hot, const Delay& delay) {
    const double start_deg = sheet_.needed("start").value;
    const double room_ms = ms_of_deg(start_deg + latest_deg, in_[rpm].value);
    Sum& sum = sheet_.sum;
    sum.lines.push_back(fmt::format(
        "({:.0f} + 273) K x {:.1f} / {:.1f} = {:.0f} K", in_[air_c].value,
        (in_[gauge].value + in_[outside].value) / in_[outside].value, in_[ratio].value, hot.value));
    sum.lines.push_back(
        fmt::format("waits {:.1f} ms = {:.1f} deg at {:.0f} rpm; from {:.0f} deg before top to "
                    "{:g} after there "
                    "are {:.1f} ms",
                    delay.value, deg_of_ms(delay.value, in_[rpm].value), in_[rpm].value, start_deg,
                    latest_deg, room_ms));
    const Unit celsius = model_unit(Dimension::temperature);
    sheet_.result("end of compression", hot.value - kelvin, celsius, 0, expanded(hot));
    add_delay("delay, ms", delay, model_unit(Dimension::number));
    add_delay("delay", spread_of(in_, [](auto at) { return deg_of_ms(delay_ms(at), at[rpm]); }),
              model_unit(Dimension::angle));
    sheet_.answer(0, verdict(delay, room_ms));
  }

  void add_delay(const std::string& name, const Delay& delay, const Unit& unit) {
    sheet_.result(name, delay.value, unit, 1);
    sheet_.result(name + ", at least", delay.low, unit, 1);
    sheet_.result(name + ", at most", delay.high, unit, 1);
  }

  static std::string verdict(const Delay& delay, double room_ms) {
    if (delay.high < room_ms) return "should light";
    if (delay.low > room_ms)
      return "will not light: warmer air, faster turning or more compression first";
    return "on the edge: it cannot be told; may fire after long turning, white smoke till then";
  }

  void write_hardenberg(double temperature_k, double bar) {
    const auto cetane = sheet_.take("cetane");
    const auto stroke = sheet_.take("stroke");
    if (!cetane || !stroke || bar < hardenberg_least_bar || !(cetane->value > 0)) return;
    constexpr double two_strokes_a_turn = 2, seconds_a_minute = 60;
    const Charge charge{
        temperature_k, bar, cetane->value,
        two_strokes_a_turn * stroke->value / mm_in_m * in_[rpm].value / seconds_a_minute};
    for (const auto& [form, words] :
         {std::pair{HardenbergForm::sum, "delay by the other formula, terms added"},
          std::pair{HardenbergForm::product, "delay by the other formula, terms multiplied"}})
      sheet_.result(words, hardenberg_deg(charge, form), model_unit(Dimension::angle), 1);
    sheet_.sum.assumptions.emplace_back(
        "the other formula stands in books in two forms; the added one keeps near the first");
  }

  void finish(double temperature_k) {
    Sum& sum = sheet_.sum;
    sum.formula = {"temperature at the end = air (K) x pressure ratio / compression ratio",
                   "delay (ms) = 0.44 x (pressure in atm)^-1.19 x e^(4650 / K)",
                   "lights if the delay is shorter than from the start of injection to some 17 deg "
                   "after top"};
    sum.assumptions.emplace_back(
        "at least and at most are k = 2 of the delay's logarithm: it is uncertain by a factor");
    sum.assumptions.emplace_back(
        "open chamber, nothing heated by plug, wick or hot walls, little blow-by: a prechamber's "
        "cold walls ask for more, a heater for less");
    if (temperature_k < wolfer_least_k || temperature_k > wolfer_most_k)
      sum.cautions.push_back(fmt::format(
          "{:.0f} K is outside the {:g} to {:g} in which the delay was measured: an extrapolation",
          temperature_k, wolfer_least_k, wolfer_most_k));
  }

  Worksheet sheet_;
  std::array<Estimate, At::count> in_;
};

Result<Sum> ignition(const SumForm& form, const Ask& ask) {
  return IgnitionSum{form, ask}.work();
}

}  // namespace

SumForm ignition_form() {
  using enum Dimension;
  return SumForm{"ignition",
                 "ignition delay: can it light",
                 {{.name = "compression",
                   .dimension = pressure,
                   .meaning = "compression on the gauge",
                   .quantity = "compression",
                   .figure = "compression-cranking",
                   .standard = 1.3},
                  {.name = "air",
                   .dimension = temperature,
                   .meaning = "air that the engine draws",
                   .quantity = "air-temperature",
                   .standard = 1},
                  {.name = "ratio",
                   .dimension = number,
                   .meaning = "compression ratio from the moment the inlet shuts",
                   .figure = "effective-ratio"},
                  {.name = "speed",
                   .dimension = speed,
                   .meaning = "speed at which it turns",
                   .quantity = "cranking-speed",
                   .figure = "cranking-speed",
                   .standard_share = 2},
                  {.name = "start",
                   .dimension = angle,
                   .meaning = "crank degrees before top at which injection begins",
                   .figure = "static-timing"},
                  {.name = "altitude",
                   .dimension = length,
                   .meaning = "height above the sea",
                   .usual = 0,
                   .unit = "m"},
                  {.name = "rule",
                   .dimension = number,
                   .meaning = "factor on the formula's delay, by own experience",
                   .usual = 1,
                   .standard = 0.3},
                  {.name = "cetane",
                   .dimension = number,
                   .meaning = "cetane number of the fuel",
                   .usual = 45,
                   .needed = false},
                  {.name = "stroke",
                   .dimension = length,
                   .meaning = "stroke",
                   .figure = "stroke",
                   .needed = false}},
                 ignition};
}

}  // namespace soot::calc
