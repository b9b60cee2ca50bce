#include "core/calc/screw.hpp"
#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/uncertainty.hpp"

#include <cmath>

namespace soot::calc {
namespace {

constexpr double micrometer_half_mm = 0.004;
constexpr double micrometer_step_mm = 0.01;
constexpr double absurd_share = 0.1;
constexpr double rounding_mm = 1e-9;

class PlungerSum {
 public:
  PlungerSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(
            form, ask,
            "shortfall through the lift at port closing, elementary; limit: the family's, discard "
            "when short of it: trade practice; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    const Result<std::optional<Flank>> flank = flank_of(sheet_, ask_);
    if (!flank) return pass_on(flank);
    flank_ = *flank;
    fresh_ = sheet_.needed("new");
    pitch_ = sheet_.take("pitch");
    const Figure* figure = ask_.family.figure("plunger-length");
    if (const auto typed = sheet_.take("limit"))
      limit_mm_ = typed->value;
    else if (figure && figure->least && fresh_.from == "family")
      limit_mm_ = figure->least;
    if (limit_mm_ && *limit_mm_ >= fresh_.value)
      return fail(Kind::use, "wear limit {} (expected less than the new length {})",
                  print(*limit_mm_), print(fresh_.value));
    for (const Given& length : sheet_.all("length")) {
      if (std::fabs(length.value - fresh_.value) > absurd_share * fresh_.value)
        return fail(Kind::use,
                    "{}length {} against {} new (expected within a tenth: look at the unit)",
                    of_cylinder(length.cylinder), print(length.value), print(fresh_.value));
      write(length);
    }
    finish();
    return sheet_.sum;
  }

 private:
  void write(const Given& length) {
    const double short_mm = fresh_.value - length.value;
    const double standard_mm = length.uncertainty.value_or(
        std::hypot(rectangular(micrometer_half_mm), resolution(micrometer_step_mm)));
    const std::string where = of_cylinder(length.cylinder);
    sheet_.sum.lines.push_back(fmt::format("{}{} - {} = {} {}", where, print(fresh_.value),
                                           print(length.value), print(std::fabs(short_mm)),
                                           short_mm < 0 ? "longer" : "short"));
    sheet_.result("short", short_mm, fresh_.unit, length_decimals(fresh_.unit, true),
                  2 * standard_mm, length.cylinder);
    const auto late_deg = flank_ ? flank_->late_for_low_deg(short_mm) : std::nullopt;
    if (late_deg) {
      sheet_.sum.lines.push_back(
          fmt::format("{}as much as a lifter low: {}", where, late_or_early(*late_deg)));
      sheet_.result("late", *late_deg, model_unit(Dimension::angle), 1,
                    2 * standard_mm / flank_->rate_at_closing(), length.cylinder);
    }
    std::string words = verdict(length.value, standard_mm);
    if (short_mm > 2 * standard_mm) words += "; " + lifter_words(length, short_mm, standard_mm);
    sheet_.answer(length.cylinder, words);
  }

  // What would bring the timing back.
  std::string lifter_words(const Given& length, double short_mm, double standard_mm) {
    std::string words = fmt::format("its lifter {} higher brings the timing back", print(short_mm));
    if (!pitch_ || !(pitch_->value > 0)) return words;
    const double flats = turn_for(short_mm, pitch_->value).flats;
    sheet_.result("flats out", flats, model_unit(Dimension::number), 1,
                  turn_for(2 * standard_mm, pitch_->value).flats, length.cylinder);
    return words + fmt::format(": screw out {:.1f} flats", flats);
  }

  std::string verdict(double length_mm, double standard_mm) const {
    if (!limit_mm_) return "no limit known: compare the cylinders";
    const double margin_mm = length_mm - *limit_mm_;
    std::string words = margin_mm > rounding_mm ? "passes" : "to be discarded";
    words += fmt::format(": limit {}", print(*limit_mm_));
    if (std::fabs(margin_mm) < 2 * standard_mm)
      words += ", too near it for this micrometer to say for certain";
    return words;
  }

  void finish() {
    Sum& sum = sheet_.sum;
    sum.formula = {"short = length new - length measured",
                   "a plunger short by so much closes its port as late as a lifter low by so much"};
    sum.cautions = {
        "raising the lifter by the shortfall brings the timing back and hides the wear: note both"};
    if (flank_) sum.assumptions.push_back(describe(*flank_));
    sum.assumptions.emplace_back("length from foot to top edge; the port's own wear is not in it");
    if (!flank_) sum.assumptions.emplace_back("no lift rate is known: no degrees");
  }

  std::string print(double value_mm) const {
    return print_in(value_mm, fresh_.unit, length_decimals(fresh_.unit, true));
  }

  const Ask& ask_;
  Worksheet sheet_;
  std::optional<Flank> flank_;
  Given fresh_;
  std::optional<Given> pitch_;
  std::optional<double> limit_mm_;
};

Result<Sum> plunger(const SumForm& form, const Ask& ask) {
  return PlungerSum{form, ask}.work();
}

}  // namespace

SumForm plunger_form() {
  return SumForm{
      "plunger",
      "plunger length to shortfall and degrees",
      {{"length", Dimension::length, "plunger, foot to top edge", "plunger-length", ""},
       {"new", Dimension::length, "its length when new", "", "plunger-length"},
       {"limit", Dimension::length, "length at which it is discarded", "", "", std::nullopt, false},
       {"pitch", Dimension::length, "pitch of the lifter's screw", "", "lifter-thread-pitch",
        std::nullopt, false},
       rate_need},
      plunger};
}

}  // namespace soot::calc
