#include "tests/signatures/simulate.hpp"

#include "core/calc/train.hpp"
#include "core/workbench/network_builder.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace soot::test {
namespace {

constexpr double least_uncertainties = 3;
constexpr double most_uncertainties = 6;
constexpr double past_nose_deg = 100;

const Quantity& quantity(const Engine& engine, const char* id) {
  return get_id(engine.knowledge.quantities, id);
}

/// Of one reading of one sound cylinder.
double uncertainty(const Engine& engine, const char* id) {
  return std::hypot(quantity(engine, id).instrument,
                    reading_spread_of(engine, quantity(engine, id)));
}

double draw_size(double standard, std::mt19937_64& random) {
  return standard *
         std::uniform_real_distribution<double>{least_uncertainties, most_uncertainties}(random);
}

double either_way(std::mt19937_64& random) {
  return std::bernoulli_distribution{0.5}(random) ? 1 : -1;
}

bool has_depth(const Engine& engine) {
  return engine.family.has("individual-pumps");
}

/// What shows a lifter: its depth, in an in-line pump the spill angle alone.
double lifter_uncertainty_mm(const Engine& engine) {
  if (has_depth(engine)) return uncertainty(engine, "lifter-depth");
  const double closing_deg = -engine.family.nominal("static-timing").value();
  return uncertainty(engine, "spill-angle") * engine.law->rate_mm_per_deg(closing_deg);
}

class Reader {
 public:
  Reader(const Engine& engine, const Truth& truth, std::mt19937_64& random)
      : engine_(engine), truth_(truth), random_(random) {
    job_.family = engine.family.id;
  }

  Job read() {
    for (int cylinder = 1; cylinder <= engine_.family.cylinders; ++cylinder)
      read_cylinder(cylinder);
    take("top-centre-error", 0, truth_.mark_before_top_deg);
    take("backlash", 0, engine_.family.nominal("backlash").value());
    return std::move(job_);
  }

 private:
  double figure(const char* key) const { return engine_.family.nominal(key).value(); }

  void read_cylinder(int cylinder) {
    const auto at = static_cast<std::size_t>(cylinder - 1);
    const double low_mm = truth_.lifter_low_mm[at];
    const double worn_mm = truth_.lobe_worn_mm[at];
    const double short_mm = truth_.plunger_short_mm[at];
    // At the mark the crank stands so long before true top; one timed by it was put right there.
    const double mark_deg = truth_.set_by_the_mark ? 0 : truth_.mark_before_top_deg;
    const double cam_deg = -mark_deg - truth_.drive_late_deg;
    if (has_depth(engine_)) {
      const double base_mm = figure("lifter-depth-base") + low_mm;
      take("lifter-depth", cylinder, base_mm - (engine_.law->lift_mm(cam_deg) - worn_mm));
      take("lifter-base-depth", cylinder, base_mm);
    }
    // The port closes when the plunger's edge has come up to it, all shortfalls made good.
    const double closing_cam_deg =
        engine_.law->angle_deg(figure("pre-stroke") + low_mm + worn_mm + short_mm).value();
    take("spill-angle", cylinder, -(closing_cam_deg + truth_.drive_late_deg) - mark_deg);
    take("plunger-length", cylinder, figure("plunger-length") - short_mm);
    take("pump-lobe-lift", cylinder, engine_.law->lift_mm(past_nose_deg) - worn_mm);
  }

  void take(const char* id, int cylinder, double exact) {
    const Quantity& read = quantity(engine_, id);
    const double own =
        std::normal_distribution<double>{0, reading_spread_of(engine_, read)}(random_);
    const double scatter = std::normal_distribution<double>{0, read.instrument}(random_);
    ReadingTaken taken;
    taken.quantity = id;
    taken.cylinder = cylinder;
    taken.value.unit = model_unit(read.dimension);
    taken.value.value = exact + own + scatter;
    taken.value.as_written = fmt::format("{} {}", taken.value.value, taken.value.unit.name);
    taken.line = static_cast<long>(job_.readings.size()) + 1;
    job_.readings.push_back(std::move(taken));
  }

  const Engine& engine_;
  const Truth& truth_;
  std::mt19937_64& random_;
  Job job_;
};

}  // namespace

const std::vector<std::string>& six_causes() {
  static const std::vector<std::string> causes{"gear-tooth-out",    "tc-mark-wrong",
                                               "wrong-flank",       "lifter-one",
                                               "plunger-foot-worn", "cam-lobe-worn"};
  return causes;
}

Truth draw_truth(const Engine& engine, const std::string& cause, std::mt19937_64& random) {
  const auto cylinders = static_cast<std::size_t>(engine.family.cylinders);
  Truth truth;
  truth.lifter_low_mm.assign(cylinders, 0);
  truth.lobe_worn_mm.assign(cylinders, 0);
  truth.plunger_short_mm.assign(cylinders, 0);
  const std::size_t at = std::uniform_int_distribution<std::size_t>{0, cylinders - 1}(random);
  if (cause == "gear-tooth-out") {
    truth.drive_late_deg = either_way(random) * calc::tooth_deg(engine.family).value();
  } else if (cause == "tc-mark-wrong") {
    truth.mark_before_top_deg =
        either_way(random) * draw_size(uncertainty(engine, "top-centre-error"), random);
    truth.set_by_the_mark = std::bernoulli_distribution{0.5}(random);
  } else if (cause == "wrong-flank") {
    // The cam stood ahead by the lash while the lifters were screwed down to their figure.
    const double ahead_deg = calc::lash_limit_deg(engine.family).value();
    truth.lifter_low_mm.assign(cylinders, engine.law->lift_mm(ahead_deg) - engine.law->lift_mm(0));
  } else if (cause == "lifter-one") {
    truth.lifter_low_mm[at] = either_way(random) * draw_size(lifter_uncertainty_mm(engine), random);
  } else if (cause == "plunger-foot-worn") {
    truth.plunger_short_mm[at] = draw_size(uncertainty(engine, "plunger-length"), random);
  } else if (cause == "cam-lobe-worn") {
    truth.lobe_worn_mm[at] = draw_size(uncertainty(engine, "pump-lobe-lift"), random);
  } else {
    throw std::invalid_argument(cause);
  }
  return truth;
}

Job read_engine(const Engine& engine, const Truth& truth, std::mt19937_64& random) {
  return Reader{engine, truth, random}.read();
}

}  // namespace soot::test
