#include "core/calc/screw.hpp"
#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

constexpr double absurd_spill_deg = 40;
constexpr double spill_half_deg = 1;  // common between two people (trade practice)
constexpr double mark_deg = 0.15;

std::string turn_words(double raise_mm, const std::optional<Given>& pitch) {
  const Unit unit = model_unit(Dimension::length);
  std::string words = fmt::format("{} the lifter by {}", raise_mm >= 0 ? "raise" : "lower",
                                  print_in(std::fabs(raise_mm), unit, 2));
  if (!pitch) return words;
  const ScrewTurn turn = turn_for(raise_mm, pitch->value);
  return words + fmt::format(": screw {} {:.1f} flats ({:.2f} turn)", turn.out ? "out" : "in",
                             turn.flats, turn.turns);
}

Problems refuse_pitch(const std::optional<Given>& pitch) {
  if (!pitch || pitch->value > 0) return {};
  return {make_problem(Kind::use, "a thread of pitch 0 (expected more)")};
}

// Raising further than the room over the plunger is never a timing correction.
Problems refuse_raise(double raise_mm, const std::optional<Given>& room) {
  if (!room || raise_mm <= room->value) return {};
  return {
      make_problem(Kind::use,
                   "raising the lifter by {:.2f} mm may put the plunger through the head, which "
                   "leaves {:.2f} mm (expected less: look for a tooth or a wrong mark)",
                   raise_mm, room->value)};
}

// Spill timing by hand seldom sees what the book asks for.
std::string verdict(double late_deg, double expanded_deg, double tolerance_deg,
                    std::string_view better, const std::string& turn) {
  const double off_deg = std::fabs(late_deg);
  if (off_deg + expanded_deg <= tolerance_deg)
    return fmt::format("within the tolerance of {:.1f} deg: leave it", tolerance_deg);
  if (off_deg <= std::max(tolerance_deg, expanded_deg))
    return fmt::format(
        "right as far as this shows, which is to {:.1f} deg: leave it, or prove it by {}",
        expanded_deg, better);
  return turn;
}

Result<Sum> spill(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "lift at port closing, elementary; uncertainty: JCGM 100:2008"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const Given figure = sheet.needed("figure");
  const auto pitch = sheet.take("pitch");
  const auto room = sheet.take("head-clearance");
  if (auto bad = refuse_pitch(pitch); !bad.empty()) return tl::unexpected(bad);
  const double tolerance_deg = ask.family.nominal("timing-tolerance").value_or(0);
  // Under an in-line pump there is no depth to read.
  const std::string_view better =
      ask.family.has("in-line-pump") ? "more readings, each come up to anew" : "depth";
  Sum& sum = sheet.sum;
  for (const Given& angle : sheet.all("angle")) {
    const double late_deg = figure.value - angle.value;
    if (std::fabs(late_deg) > absurd_spill_deg)
      return fail(Kind::use,
                  "{}port closing {:.1f} deg before top is {:.0f} deg off the figure "
                  "(expected within {:.0f}: look at the stroke)",
                  of_cylinder(angle.cylinder), angle.value, std::fabs(late_deg), absurd_spill_deg);
    const double raise_mm = flank->low_for_late_mm(late_deg);
    if (auto bad = refuse_raise(raise_mm, room); !bad.empty()) return tl::unexpected(bad);
    const double standard_deg =
        std::hypot(angle.uncertainty.value_or(rectangular(spill_half_deg)), mark_deg);
    sum.lines.push_back(fmt::format("{}{:.1f} - {:.1f} deg before top = {}",
                                    of_cylinder(angle.cylinder), figure.value, angle.value,
                                    late_or_early(late_deg)));
    sheet.result("late", late_deg, model_unit(Dimension::angle), 1, 2 * standard_deg,
                 angle.cylinder);
    sheet.result("raise", raise_mm, model_unit(Dimension::length), 2,
                 2 * standard_deg * flank->rate_at_closing(), angle.cylinder);
    sheet.answer(angle.cylinder, verdict(late_deg, 2 * standard_deg, tolerance_deg, better,
                                         turn_words(raise_mm, pitch)));
  }
  sum.formula = {"late = figure - angle read, both before top",
                 "raise the lifter by what the cam lifts from the figure to the angle read"};
  sum.assumptions = {describe(*flank),
                     "the lifter is what is wrong: plunger length, gears and mark are proved"};
  return sum;
}

Result<Sum> advance(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "lift at port closing, elementary"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const double earlier_deg = sheet.needed("by").value;
  const auto pitch = sheet.take("pitch");
  if (auto bad = refuse_pitch(pitch); !bad.empty()) return tl::unexpected(bad);
  if (std::fabs(earlier_deg) > absurd_spill_deg)
    return fail(Kind::use, "{:.0f} deg (expected within {:.0f})", earlier_deg, absurd_spill_deg);
  const double raise_mm = -flank->low_for_late_mm(-earlier_deg);
  if (auto bad = refuse_raise(raise_mm, sheet.take("head-clearance")); !bad.empty())
    return tl::unexpected(bad);
  Sum& sum = sheet.sum;
  sum.formula = {"raise the lifter by what the cam lifts over those degrees at port closing",
                 "turns = height / pitch; flats = 6 x turns"};
  sum.lines.push_back(
      fmt::format("{} = {:.2f} mm of lift", late_or_early(-earlier_deg), std::fabs(raise_mm)));
  sheet.result("raise", raise_mm, model_unit(Dimension::length), 2);
  sum.answer.push_back(fmt::format("to be {:.1f} deg {}: {}", std::fabs(earlier_deg),
                                   earlier_deg < 0 ? "later" : "earlier",
                                   turn_words(raise_mm, pitch)));
  sum.assumptions = {describe(*flank), "the engine stands at its figure now"};
  return sum;
}

constexpr Need pitch_need{"pitch", Dimension::length,     "pitch of the lifter's screw",
                          "",      "lifter-thread-pitch", std::nullopt,
                          false};
constexpr Need room_need{"head-clearance",
                         Dimension::length,
                         "room over the plunger at the top of its lift",
                         "",
                         "head-clearance",
                         std::nullopt,
                         false};

}  // namespace

SumForm spill_form() {
  return SumForm{"spill",
                 "spill angle to lifter height and turns of its screw",
                 {{"angle", Dimension::angle, "crank degrees before top at which the port closes",
                   "spill-angle", ""},
                  {"figure", Dimension::angle, "what the angle should be", "", "static-timing"},
                  pitch_need,
                  room_need,
                  rate_need},
                 spill};
}

SumForm advance_form() {
  return SumForm{"advance",
                 "what to turn to be so many degrees earlier",
                 {{"by", Dimension::angle, "crank degrees earlier (less than 0: later)", "", ""},
                  pitch_need,
                  room_need,
                  rate_need},
                 advance};
}

}  // namespace soot::calc
