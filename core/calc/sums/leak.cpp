#include "core/calc/fuel.hpp"
#include "core/calc/leakage.hpp"
#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/refusals.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace soot::calc {
namespace {

constexpr double thickest_wear_mm = 0.2;

// Inputs of the formula, in this order.
enum At : std::size_t { clearance, diameter, seal, pressure, fuel_c, rate, speed, count };

double percent_lost(std::span<const double> in) {
  const PlungerGap gap{in[diameter], in[clearance] / 2, in[seal], 1};
  const double leak = gap_leak_mm3_s(gap, in[pressure], fuel_viscosity_mpa_s(in[fuel_c]));
  constexpr double deg_per_s_per_rpm = 6;
  const double flow =
      std::numbers::pi * in[diameter] * in[diameter] / 4 * in[rate] * deg_per_s_per_rpm * in[speed];
  return 100 * leak / flow;
}

/// Loss goes with the cube of the clearance.
double swallowing_mm(std::span<const double> in) {
  return in[clearance] * std::cbrt(100 / percent_lost(in));
}

class LeakSum {
 public:
  LeakSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(form, ask,
               "ring gap: Rabie, Fluid Power Engineering, eq. 2.19, up to 2.5 times with the "
               "plunger on one side; viscosity: ASTM D341; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    const Result<Flank> flank = needed_flank(sheet_, ask_);
    if (!flank) return pass_on(flank);
    in_[clearance] = estimate(sheet_.needed("clearance"));
    in_[diameter] = estimate(sheet_.needed("diameter"));
    in_[seal] = estimate(sheet_.needed("seal"));
    in_[pressure] = estimate(sheet_.needed("pressure"));
    in_[fuel_c] = estimate(sheet_.needed("fuel"));
    in_[rate] = {flank->rate_at_closing(), 0};
    if (Problems bad = refuse(); !bad.empty()) return tl::unexpected(std::move(bad));
    sheet_.sum.formula = {
        "leak = pi x diameter x (clearance on the radius)^3 x pressure / (12 x viscosity x "
        "sealing length) x 2.5, the plunger lying on one side",
        "share lost = leak / (plunger area x lift rate x 6 x speed)"};
    for (const auto& [name, need] :
         {std::pair{"cranking", "cranking"}, std::pair{"at speed", "speed"}})
      if (const auto given = sheet_.take(need)) {
        if (auto bad = refuse_speed(given->value, name)) return tl::unexpected(Problems{*bad});
        write(name, estimate(*given));
      }
    if (sheet_.sum.results.empty())
      return fail(Kind::use, "no speed is known (expected cranking=MEASURE or speed=MEASURE)");
    finish(*flank);
    return sheet_.sum;
  }

 private:
  Problems refuse() const {
    Problems out;
    const double gap_mm = in_[clearance].value;
    if (!(gap_mm > 0 && gap_mm <= thickest_wear_mm))
      out.push_back(make_problem(Kind::use,
                                 "a clearance of {:g} mm on the diameter (expected above 0 and at "
                                 "most {:g}: a few thousandths when new)",
                                 gap_mm, thickest_wear_mm));
    if (!(in_[diameter].value > 0 && in_[seal].value > 0 && in_[pressure].value > 0))
      out.push_back(make_problem(Kind::use,
                                 "a plunger without diameter, sealing length or pressure "
                                 "(expected all three above 0)"));
    const double warm_c = in_[fuel_c].value;
    if (!(warm_c >= least_fuel_c && warm_c <= most_fuel_c))
      out.push_back(make_problem(Kind::use, "fuel at {:.0f} C (expected {:.0f} to {:.0f})", warm_c,
                                 least_fuel_c, most_fuel_c));
    return out;
  }

  void write(const std::string& when, const Estimate& rpm) {
    in_[speed] = rpm;
    const Estimate lost = propagate(in_, percent_lost);
    const Estimate whole = propagate(in_, swallowing_mm);
    sheet_.sum.lines.push_back(
        fmt::format("{}, {:.0f} rpm, fuel of {:.1f} mPa s: {:.3g} % of what the plunger moves",
                    when, rpm.value, fuel_viscosity_mpa_s(in_[fuel_c].value), lost.value));
    sheet_.result("lost " + when, lost, model_unit(Dimension::share), lost.value < 1 ? 3 : 1);
    sheet_.result("clearance that takes all " + when, whole, find_unit("um").value(), 0);
    sheet_.answer(0, fmt::format("{}: {:.2g} % leaks past the plunger; all of it at a clearance of "
                                 "{:.0f} um on the diameter",
                                 when, lost.value, whole.value * 1000));
  }

  void finish(const Flank& flank) {
    Sum& sum = sheet_.sum;
    sum.answer.emplace_back(
        "hot fuel leaks several times more than cold: fails hot and starts cold points to pumps, "
        "the reverse to compression");
    sum.assumptions = {
        describe(flank),
        "laminar flow; the pressure of the whole stroke is the nozzle's opening pressure; wear at "
        "the edge of the port, which makes it late, is not in it",
        "no home shop measures this clearance: the drop test and the line hold stand in for it"};
  }

  const Ask& ask_;
  Worksheet sheet_;
  std::array<Estimate, At::count> in_;
};

Result<Sum> leak(const SumForm& form, const Ask& ask) {
  return LeakSum{form, ask}.work();
}

}  // namespace

SumForm leak_form() {
  using enum Dimension;
  return SumForm{"leak",
                 "what leaks past a plunger, cranking and at speed",
                 {{.name = "clearance",
                   .dimension = length,
                   .meaning = "clearance of the plunger on its diameter",
                   .figure = "plunger-clearance",
                   .standard_share = 10},
                  {.name = "diameter",
                   .dimension = length,
                   .meaning = "plunger diameter",
                   .figure = "plunger-diameter"},
                  {.name = "seal",
                   .dimension = length,
                   .meaning = "length of plunger that seals",
                   .usual = 20,
                   .standard = 1.5},
                  {.name = "pressure",
                   .dimension = pressure,
                   .meaning = "pressure it holds",
                   .figure = "nozzle-opening",
                   .standard_share = 3},
                  {.name = "fuel",
                   .dimension = temperature,
                   .meaning = "temperature of the fuel in the pump",
                   .usual = 20,
                   .standard = 2},
                  {.name = "cranking",
                   .dimension = speed,
                   .meaning = "cranking speed",
                   .quantity = "cranking-speed",
                   .figure = "cranking-speed",
                   .needed = false,
                   .standard_share = 2},
                  {.name = "speed",
                   .dimension = speed,
                   .meaning = "running speed",
                   .figure = "rated-speed",
                   .needed = false,
                   .standard_share = 1},
                  rate_need},
                 leak};
}

}  // namespace soot::calc
