#include "core/calc/firing.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/train.hpp"
#include "core/calc/worksheet.hpp"

namespace soot::calc {
namespace {

std::string mark_words(const Setting& setting) {
  if (setting.same_mark.empty()) return "a mark of its own";
  return fmt::format("the mark it shares with {}", fmt::join(setting.same_mark, " and "));
}

Result<Sum> order(const SumForm& form, const Ask& ask) {
  const Result<std::vector<Setting>> settings = setting_order(ask.family);
  if (!settings) return pass_on(settings);
  Worksheet sheet{form, ask, "elementary; order of work: trade practice"};
  Sum& sum = sheet.sum;
  const double interval_deg = firing_interval_deg(ask.family.strokes, ask.family.cylinders);
  sum.formula = {fmt::format("from one firing top centre to the next = {} deg / {} cylinders",
                             ask.family.strokes == 2 ? 360 : 720, ask.family.cylinders)};
  sum.lines.push_back(fmt::format("firing order {}, {} deg apart",
                                  fmt::join(ask.family.firing_order, "-"), interval_deg));
  for (const Setting& setting : *settings) {
    sheet.result("firing top centre", setting.crank_deg, model_unit(Dimension::angle), 0,
                 std::nullopt, setting.cylinder);
    sum.answer.push_back(fmt::format("cylinder {} at {:.0f} deg, on {}", setting.cylinder,
                                     setting.crank_deg, mark_words(setting)));
  }
  if (ask.family.strokes != 2)
    sum.cautions.emplace_back(
        "both top centres look alike on the flywheel: prove the firing stroke of each in two ways");
  sum.assumptions = {
      "firing strokes evenly spaced; angles from the first cylinder's firing top "
      "centre, turning in the running direction"};
  if (!ask.family.rotation.empty()) sum.assumptions.push_back("rotation: " + ask.family.rotation);
  if (!ask.family.numbering.empty())
    sum.assumptions.push_back("numbering: " + ask.family.numbering);
  return sum;
}

}  // namespace

SumForm order_form() {
  return SumForm{"order", "setting order with the crank angle of each cylinder", {}, order};
}

}  // namespace soot::calc
