#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/train.hpp"
#include "core/calc/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

// What two readings of one lifter do not share: the gauge's scatter and how the crank was placed.
constexpr double scatter_mm = 0.02;
constexpr double placing_half_deg = 0.5;

class FlankSum {
 public:
  FlankSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(form, ask,
               "lash closed in the running direction, by the crank alone: TM 9-2815-225-34&P p. "
               "3-568; run-up of 45 deg: TM 6115-593; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    const Result<Flank> flank = needed_flank(sheet_, ask_);
    if (!flank) return pass_on(flank);
    if (const auto each = sheet_.take("backlash"))
      if (const auto lash = lash_deg(ask_.family, each->value)) set_lash(*flank, *lash);
    if (!lash_mm_)
      if (const auto lash = lash_limit_deg(ask_.family)) set_lash(*flank, *lash);
    const std::vector<Given> back = sheet_.all("back");
    const std::vector<Given> up = sheet_.all("up");
    for (const Given& first : back) {
      const auto again = std::find_if(up.begin(), up.end(), [&](const Given& given) {
        return given.cylinder == first.cylinder;
      });
      if (again == up.end())
        return fail(Kind::use, "{}no reading come up to (expected up=MEASURE of the same cylinder)",
                    of_cylinder(first.cylinder));
      write(first, *again, *flank);
    }
    finish(*flank);
    return sheet_.sum;
  }

 private:
  // Turned back, the cam stands ahead: the depth reads less by up to this.
  void set_lash(const Flank& flank, double lash) {
    lash_mm_ = -flank.depth_shift_mm(-lash);
    sheet_.sum.lines.push_back(
        fmt::format("whole lash {:.2f} deg: up to {:.2f} mm of depth", lash, *lash_mm_));
    sheet_.result("lash as depth", *lash_mm_, model_unit(Dimension::length), 2);
  }

  void write(const Given& first, const Given& again, const Flank& flank) {
    const double moved_mm = again.value - first.value;
    const double own =
        std::hypot(first.uncertainty.value_or(scatter_mm), again.uncertainty.value_or(scatter_mm));
    const double placed = std::sqrt(2.0) * rectangular(placing_half_deg) * flank.rate_at_top();
    const double u_mm = 2 * std::hypot(own, placed);
    const Unit unit = first.unit;
    const int places = length_decimals(unit);
    sheet_.sum.lines.push_back(
        fmt::format("{}{} come up, {} before: {} deeper", of_cylinder(first.cylinder),
                    print_in(again.value, unit, places), print_in(first.value, unit, places),
                    print_in(moved_mm, unit, places)));
    sheet_.result("moved by", moved_mm, unit, places, u_mm, first.cylinder);
    sheet_.answer(first.cylinder, verdict(moved_mm, u_mm));
  }

  std::string verdict(double moved_mm, double u_mm) const {
    if (std::fabs(moved_mm) <= u_mm)
      return "has not moved, as far as two readings can tell: no lash in it";
    if (moved_mm < 0) return "less deep come up than before: no lash does that; read both again";
    if (lash_mm_ && moved_mm > *lash_mm_ + u_mm)
      return "moved by more than the whole lash: mark, stroke or gauge, read both again";
    return "moved by lash: the first reading stood on the wrong flank, only the one come up counts";
  }

  void finish(const Flank& flank) {
    Sum& sum = sheet_.sum;
    sum.formula = {"moved = depth come up to in the running direction - depth read before",
                   "turned back, the cam may stand ahead by anything from nothing to the lash: the "
                   "lifter then reads high, set so it runs late"};
    if (sum.answer.empty())
      sum.answer.emplace_back(
          "read each lifter again, come up 45 deg in the running direction by the crank; after an "
          "overrun go back 60");
    sum.assumptions = {describe(flank),
                       "nothing was turned on the lifter between the two readings"};
  }

  const Ask& ask_;
  Worksheet sheet_;
  std::optional<double> lash_mm_;
};

Result<Sum> flank(const SumForm& form, const Ask& ask) {
  return FlankSum{form, ask}.work();
}

}  // namespace

SumForm flank_form() {
  using enum Dimension;
  return SumForm{"flank",
                 "which flank the gears stood on when a lifter was read",
                 {{.name = "back",
                   .dimension = length,
                   .meaning = "depth as first read, turned back onto the mark or in doubt",
                   .quantity = "lifter-depth",
                   .turned_back = true},
                  {.name = "up",
                   .dimension = length,
                   .meaning = "the same come up to over 45 deg in the running direction",
                   .quantity = "lifter-depth"},
                  {.name = "backlash",
                   .dimension = length,
                   .meaning = "lash of one mesh at the pitch line",
                   .quantity = "backlash",
                   .needed = false},
                  rate_need},
                 flank};
}

}  // namespace soot::calc
