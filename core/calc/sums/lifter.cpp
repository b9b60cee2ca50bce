#include "core/calc/depth_budget.hpp"
#include "core/calc/screw.hpp"
#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/lifter_limits.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

constexpr double most_rise_mm = 0.5;  // 0.02 to 0.08 is usual (trade practice)

constexpr double most_between_mm = 0.05;  // two steps of a micrometer in thousandths of an inch

class LifterSum {
 public:
  LifterSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(
            form, ask,
            "depth through the lift law and screw pitch, elementary; order of work and jam nut's "
            "rise: trade practice; uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    const Result<std::optional<Flank>> flank = flank_of(sheet_, ask_);
    if (!flank) return pass_on(flank);
    flank_ = *flank;
    Result<LifterLimits> limits = LifterLimits::read(sheet_, ask_);
    if (!limits) return pass_on(limits);
    limits_ = *limits;
    if (auto problem = read_rises()) return tl::unexpected(Problems{*problem});
    budget_.placing_half_deg = sheet_.needed("placing").value;
    budget_.mark_deg = sheet_.needed("mark").value;

    const std::vector<Given> depths = sheet_.all("depth");
    Problems problems;
    for (int cylinder = 0; cylinder <= highest_cylinder(depths); ++cylinder) {
      std::vector<Given> own;
      std::copy_if(depths.begin(), depths.end(), std::back_inserter(own),
                   [&](const Given& given) { return given.cylinder == cylinder; });
      if (own.empty()) continue;
      const LifterFound found = judge(own);
      if (auto refused = limits_.refuse(found, flank_)) {
        problems.push_back(*refused);
        continue;
      }
      write(found);
      found_.push_back(found);
    }
    if (!problems.empty()) return tl::unexpected(problems);
    warn_of_pattern();
    finish();
    return sheet_.sum;
  }

 private:
  static int highest_cylinder(const std::vector<Given>& depths) {
    int highest = 0;
    for (const Given& depth : depths)
      highest = std::max(highest, depth.cylinder);
    return highest;
  }

  // A rise found on one lifter stands for that one, the family's for the others.
  std::optional<Problem> read_rises() {
    rises_ = sheet_.all("jam-rise");
    if (rises_.empty()) {
      if (const auto usual = sheet_.take("jam-rise")) rises_.push_back(*usual);
    } else if (const auto usual_mm = ask_.family.nominal("jam-rise")) {
      rises_.insert(rises_.begin(),
                    Given{*usual_mm, model_unit(Dimension::length), 0, std::nullopt, "family"});
    }
    for (const Given& rise : rises_)
      if (!(rise.value >= 0 && rise.value <= most_rise_mm))
        return make_problem(Kind::use,
                            "{}a jam nut that draws the screw up by {} (expected 0 to {})",
                            of_cylinder(rise.cylinder), depth_words(rise.value, rise.unit),
                            depth_words(most_rise_mm, rise.unit));
    return std::nullopt;
  }

  LifterFound judge(const std::vector<Given>& readings) {
    std::vector<double> values;
    for (const Given& reading : readings)
      values.push_back(reading.value);
    budget_.reading_mm = readings.front().uncertainty;
    const double rate_at_top = flank_ ? flank_->rate_at_top() : 0;
    LifterFound found;
    found.cylinder = readings.front().cylinder;
    found.unit = readings.front().unit;
    found.depth_mm = repeats(values).mean;
    found.readings = values.size();
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    found.between_mm = *most - *least;
    found.error_mm = found.depth_mm - limits_.figure.value;
    const std::vector<Component> components = depth_components(budget_, values, rate_at_top);
    found.expanded_mm = expanded(components);
    std::vector<Component> lasting = components;
    std::erase_if(lasting, [](const Component& one) {
      return one.shared == Shared::reading || one.name == placing_the_crank;
    });
    found.best_mm = expanded(lasting);
    found.mostly = std::max_element(components.begin(), components.end(),
                                    [](const Component& a, const Component& b) {
                                      return a.standard < b.standard;
                                    })
                       ->name;
    return found;
  }

  void write(const LifterFound& found) {
    const std::string where = of_cylinder(found.cylinder);
    const std::string off = depth_words(std::fabs(found.error_mm), found.unit);
    const bool is_deep = found.error_mm >= 0;
    if (found.readings > 1)
      line("{}mean of {} readings, {} between them", where, found.readings,
           depth_words(found.between_mm, found.unit));
    const bool shows = off != depth_words(0, found.unit);
    line("{}{} - {} = {}{}", where, depth_words(found.depth_mm, found.unit),
         depth_words(limits_.figure.value, found.unit), off,
         !shows    ? ", right"
         : is_deep ? " too deep (lifter low)"
                   : " too shallow (lifter high)");
    result("depth error", found.error_mm, found, found.expanded_mm);
    if (flank_) write_degrees(found, shows ? off : std::string{});
    warn(found);
    if (limits_.tolerance_mm && std::fabs(found.error_mm) <= *limits_.tolerance_mm)
      sheet_.answer(found.cylinder, leave_words(found));
    else
      write_turn(found);
  }

  std::string leave_words(const LifterFound& found) const {
    const std::string tolerance = depth_words(*limits_.tolerance_mm, found.unit);
    if (std::fabs(found.error_mm) + found.expanded_mm <= *limits_.tolerance_mm)
      return fmt::format("within the tolerance of {}: leave it", tolerance);
    // Too little to prove it either way (ISO 14253-1), and no reason to turn a screw.
    return fmt::format(
        "within the tolerance of {} as read: leave it; no proof, for so read it is known to {}, "
        "mostly by {}; more readings, each come up to anew, make that {} at best",
        tolerance, depth_words(found.expanded_mm, found.unit), found.mostly,
        depth_words(found.best_mm, found.unit));
  }

  void warn(const LifterFound& found) {
    const std::string where = of_cylinder(found.cylinder);
    if (found.between_mm > most_between_mm)
      sheet_.sum.cautions.push_back(
          where + "readings differ: dirt, a burr or a rocking base; clean and repeat");
    const double off_mm = std::fabs(found.error_mm);
    if (limits_.head_clearance_mm && -found.error_mm > *limits_.head_clearance_mm)
      sheet_.sum.cautions.push_back(fmt::format(
          "{}do not turn the engine with this pump on: the lifter is {} too high, the plunger has "
          "{} to the head",
          where, depth_words(off_mm, found.unit),
          depth_words(*limits_.head_clearance_mm, found.unit)));
    const bool matters = off_mm > limits_.tolerance_mm.value_or(0);
    if (matters && off_mm < found.expanded_mm)
      sheet_.sum.cautions.push_back(fmt::format(
          "{}the error is no more than this reading can tell ({}): prove top centre and read again "
          "before turning anything",
          where, depth_words(found.expanded_mm, found.unit)));
  }

  void write_degrees(const LifterFound& found, const std::string& off) {
    const double late_deg = flank_->late_for_low_deg(found.error_mm).value();
    const double expanded_deg = found.expanded_mm / flank_->rate_at_closing();
    sheet_.result("late", late_deg, model_unit(Dimension::angle), 1, expanded_deg, found.cylinder);
    if (off.empty()) return;  // right: nothing to divide
    if (flank_->is_straight())
      line("{}{} / {:.4g} mm a degree = {}", of_cylinder(found.cylinder), off,
           flank_->rate_at_closing(), late_or_early(late_deg));
    else
      line("{}{} through the lift law = {}", of_cylinder(found.cylinder), off,
           late_or_early(late_deg));
  }

  void write_turn(const LifterFound& found) {
    const std::string where = of_cylinder(found.cylinder);
    std::string turn_text = found.error_mm >= 0 ? "screw out (up)" : "screw in (down)";
    if (limits_.pitch_mm) {
      const ScrewTurn turn = turn_for(found.error_mm, *limits_.pitch_mm);
      line("{}{} / pitch {:.3g} mm = {:.2f} turn; x 6 = {:.1f} flats", where,
           depth_words(std::fabs(found.error_mm), found.unit), *limits_.pitch_mm, turn.turns,
           turn.flats);
      turn_text += fmt::format(" {:.1f} flats ({:.2f} turn)", turn.flats, turn.turns);
      sheet_.result("flats", turn.out ? turn.flats : -turn.flats, model_unit(Dimension::number), 1,
                    6 * found.expanded_mm / *limits_.pitch_mm, found.cylinder);
    }
    const auto rise = rise_of(found.cylinder);
    if (!rise) {
      sheet_.answer(found.cylinder, turn_text + ", then read again with the nut tight");
      return;
    }
    const double slack_mm = slack_depth_mm(limits_.figure.value, rise->value);
    line("{}{} + {} that the jam nut draws it up = {} slack", where,
         depth_words(limits_.figure.value, found.unit), depth_words(rise->value, found.unit),
         depth_words(slack_mm, found.unit));
    result("set slack to", slack_mm, found, std::nullopt);
    sheet_.answer(found.cylinder,
                  fmt::format("{}; set to {} with the jam nut slack, to read {} tight", turn_text,
                              depth_words(slack_mm, found.unit),
                              depth_words(limits_.figure.value, found.unit)));
  }

  std::optional<Given> rise_of(int cylinder) const {
    std::optional<Given> common, own;
    for (const Given& rise : rises_) {
      if (rise.cylinder == 0) common = rise;
      if (rise.cylinder == cylinder) own = rise;
    }
    return own ? own : common;
  }

  // All off the same way by the same amount is no lifter's doing.
  void warn_of_pattern() {
    const bool all_read =
        found_.size() >= 2 && static_cast<int>(found_.size()) == ask_.family.cylinders;
    if (!all_read || !limits_.tolerance_mm) return;
    const auto [low, high] = std::minmax_element(
        found_.begin(), found_.end(),
        [](const LifterFound& a, const LifterFound& b) { return a.error_mm < b.error_mm; });
    const bool same_side =
        low->error_mm > *limits_.tolerance_mm || high->error_mm < -*limits_.tolerance_mm;
    if (same_side && high->error_mm - low->error_mm <= 2 * *limits_.tolerance_mm)
      sheet_.sum.cautions.emplace_back(
          "all are off by the same: prove gears, mark and gaskets before any screw is turned");
  }

  void finish() {
    Sum& sum = sheet_.sum;
    sum.formula = {"error = depth read - figure (deeper: lifter low, port closes late)",
                   "degrees = error through the lift of the cam at port closing",
                   "turns = error / pitch of the screw; flats = 6 x turns",
                   "set slack to the figure + what the jam nut draws the screw up"};
    if (flank_) sum.assumptions.push_back(describe(*flank_));
    sum.assumptions.emplace_back(
        "the lifter alone is wrong: gears, top-centre mark and stroke are proved, the reading was "
        "taken coming up in the running direction");
    if (!limits_.head_clearance_mm)
      sum.assumptions.emplace_back(
          "room over the plunger is not known: turn two turns by hand before the nuts are tight");
    if (!flank_)
      sum.assumptions.emplace_back(
          "no lift rate is known: no degrees, and the uncertainty leaves out how the crank was "
          "placed");
  }

  void result(std::string name, double value_mm, const LifterFound& found,
              std::optional<double> expanded_mm) {
    sheet_.result(std::move(name), value_mm, found.unit, length_decimals(found.unit), expanded_mm,
                  found.cylinder);
  }

  template <class... Args>
  void line(fmt::format_string<Args...> text, Args&&... args) {
    sheet_.sum.lines.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  const Ask& ask_;
  Worksheet sheet_;
  std::optional<Flank> flank_;
  LifterLimits limits_;
  DepthBudget budget_;
  std::vector<Given> rises_;
  std::vector<LifterFound> found_;
};

Result<Sum> lifter(const SumForm& form, const Ask& ask) {
  return LifterSum{form, ask}.work();
}

}  // namespace

SumForm lifter_form() {
  return SumForm{
      "lifter",
      "lifter depth to degrees and to turns of its screw",
      {{"depth", Dimension::length, "depth from the pump's mounting face at top centre",
        "lifter-depth", ""},
       {"figure", Dimension::length, "what the depth should be", "", "lifter-depth"},
       {"tolerance", Dimension::length, "what may be left", "", "", std::nullopt, false},
       {"pitch", Dimension::length, "pitch of the lifter's screw", "", "lifter-thread-pitch",
        std::nullopt, false},
       {"jam-rise", Dimension::length, "what tightening the jam nut draws the screw up",
        "jam-rise-found", "jam-rise", std::nullopt, false},
       {"base", Dimension::length, "depth on the base circle", "lifter-base-depth", "",
        std::nullopt, false},
       {"head-clearance", Dimension::length, "room over the plunger at the top of its lift", "",
        "head-clearance", std::nullopt, false},
       {"placing", Dimension::angle, "how closely the crank is set to the mark (half width)", "",
        "", DepthBudget{}.placing_half_deg},
       {"mark", Dimension::angle, "standard uncertainty of the top-centre mark", "", "",
        DepthBudget{}.mark_deg},
       rate_need},
      lifter};
}

}  // namespace soot::calc
