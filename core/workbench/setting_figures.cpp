#include "core/workbench/setting_figures.hpp"

#include "core/calc/firing.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/screw.hpp"
#include "core/calc/sum.hpp"
#include "core/calc/train.hpp"
#include "core/calc/worksheet.hpp"
#include "core/report/figure_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

constexpr int flats_a_turn = 6;

bool is_timing(const Engine& engine, std::string_view quantity) {
  const Quantity* found = find_id(engine.knowledge.quantities, quantity);
  return found != nullptr && (found->geometry == "depth" || found->geometry == "spill");
}

void add_order(const Family& family, std::vector<std::string>& out) {
  const Result<std::vector<calc::Setting>> settings = calc::setting_order(family);
  if (!settings || settings->size() < 2) return;
  std::vector<std::string> places;
  for (const calc::Setting& setting : *settings)
    places.push_back(fmt::format("No. {} at {:g} deg", setting.cylinder, setting.crank_deg));
  out.push_back(fmt::format("in firing order, coming up in the running direction: {}",
                            fmt::join(places, ", ")));
  out.push_back(fmt::format("counted from {} of No. {}, {:g} deg from one to the next",
                            family.strokes == 4 ? "firing top" : "top", settings->front().cylinder,
                            calc::firing_interval_deg(family.strokes, family.cylinders)));
  const Figure* timing = family.figure("static-timing");
  if (family.has("in-line-pump") && timing != nullptr)
    out.push_back(
        fmt::format("each port closes {} before its cylinder's top", print_figure(*timing)));
  std::vector<std::string> shared;
  for (const calc::Setting& setting : *settings)
    for (const int other : setting.same_mark)
      if (setting.cylinder < other)
        shared.push_back(fmt::format("{} with {}", setting.cylinder, other));
  if (!shared.empty())
    out.push_back(fmt::format("one mark serves two: {}; two proofs of the stroke for each",
                              fmt::join(shared, ", ")));
}

void add_screw(const Engine& engine, std::vector<std::string>& out) {
  // Only a lifter under a pump of its own is set by its depth.
  const bool by_depth = !engine.family.has("in-line-pump");
  const auto pitch_mm = engine.family.nominal("lifter-thread-pitch");
  const Result<calc::Flank> flank = calc::Flank::of(engine.family, engine.law.get());
  if (flank)
    out.push_back(fmt::format("0.10 mm of {} is {:.2f} deg, one degree {:.3f} mm",
                              by_depth ? "depth" : "tappet screw", 0.1 / flank->rate_at_closing(),
                              flank->rate_at_closing()));
  if (!pitch_mm) return;
  const double flat_mm = *pitch_mm / flats_a_turn;
  std::string line = fmt::format("one flat of the screw is {:.3f} mm", flat_mm);
  if (flank) line += fmt::format(", {:.1f} deg", flat_mm / flank->rate_at_closing());
  out.push_back(line + (by_depth ? "; out raises the lifter: less depth, earlier"
                                 : "; out raises the plunger: earlier"));
}

void add_slack(const Family& family, std::vector<std::string>& out) {
  const Figure* depth = family.figure("lifter-depth");
  const auto rise_mm = family.nominal("jam-rise");
  if (depth == nullptr || !depth->nominal() || !rise_mm) return;
  const int places = calc::length_decimals(depth->unit);
  out.push_back(fmt::format(
      "slack to {} ({} + {} that the jam nut draws up as a rule; find "
      "each lifter's own)",
      print_in(calc::slack_depth_mm(*depth->nominal(), *rise_mm), depth->unit, places),
      print_in(*depth->nominal(), depth->unit, places), print_in(*rise_mm, depth->unit, places)));
}

}  // namespace

bool concerns_timing(const Engine& engine, const Check& check) {
  return std::any_of(check.reads.begin(), check.reads.end(),
                     [&](const std::string& id) { return is_timing(engine, id); });
}

bool concerns_timing(const Engine& engine, const Correction& correction) {
  const calc::SumForm* form = calc::find_sum(correction.sum);
  return form != nullptr &&
         std::any_of(form->needs.begin(), form->needs.end(),
                     [&](const calc::Need& need) { return is_timing(engine, need.quantity); });
}

std::vector<std::string> setting_lines(const Engine& engine) {
  std::vector<std::string> out;
  add_order(engine.family, out);
  add_screw(engine, out);
  add_slack(engine.family, out);
  if (!out.empty())
    out.emplace_back(
        "come up over the last 45 deg in the running direction by the crank; passed it by a hair: "
        "back at least 60 deg and come up again");
  return out;
}

}  // namespace soot
