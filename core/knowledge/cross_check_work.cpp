#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/references.hpp"

namespace soot {
namespace {

void check(const Place& place, const std::string& who, const WorkVariant& variant,
           References& refs) {
  refs.all_known(place, refs.covers, "cover", variant.covers.value_or(std::vector<std::string>{}),
                 who);
  refs.all_known(place, refs.tools, "tool", variant.tools.value_or(std::vector<std::string>{}),
                 who);
  if (variant.procedure) refs.known(place, refs.procedures, "procedure", *variant.procedure, who);
}

void check(const Check& entry, References& refs) {
  refs.all_known(entry.place, refs.covers, "cover", entry.covers, entry.id);
  refs.all_known(entry.place, refs.tools, "tool", entry.tools, entry.id);
  refs.all_known(entry.place, refs.symptoms, "symptom", entry.answers, entry.id);
  refs.all_known(entry.place, refs.quantities, "quantity", entry.reads, entry.id);
  refs.all_known(entry.place, refs.cautions, "caution", entry.cautions, entry.id);
  if (!entry.procedure.empty())
    refs.known(entry.place, refs.procedures, "procedure", entry.procedure, entry.id);
  for (const WorkVariant& variant : entry.variants)
    check(entry.place, entry.id, variant, refs);
  if (entry.answers.empty() && entry.reads.empty())
    refs.add(entry.place, entry.id + " answers no symptom and reads no quantity");
  refs.cited(entry.place, entry.source, entry.id);
}

void check(const Correction& entry, References& refs) {
  for (const Mend& mend : entry.mends)
    refs.known(entry.place, refs.causes, "cause", mend.cause, entry.id);
  refs.all_known(entry.place, refs.covers, "cover", entry.covers, entry.id);
  refs.all_known(entry.place, refs.tools, "tool", entry.tools, entry.id);
  refs.all_known(entry.place, refs.causes, "cause", entry.brings, entry.id);
  refs.all_known(entry.place, refs.cautions, "caution", entry.cautions, entry.id);
  if (!entry.procedure.empty())
    refs.known(entry.place, refs.procedures, "procedure", entry.procedure, entry.id);
  for (const WorkVariant& variant : entry.variants)
    check(entry.place, entry.id, variant, refs);
  for (const std::string& id : entry.touches)
    if (refs.symptoms.find(id) == nullptr)
      refs.known(entry.place, refs.quantities, "quantity or symptom", id, entry.id);
  refs.cited(entry.place, entry.source, entry.id);
}

void check(const Procedure& entry, References& refs) {
  for (const Step& step : entry.steps)
    refs.all_known(entry.place, refs.cautions, "caution", step.cautions, entry.id);
  refs.cited(entry.place, entry.source, entry.id);
}

}  // namespace

void cross_check_work(const Knowledge& own, References& refs) {
  for (const Check& entry : own.checks)
    check(entry, refs);
  for (const Correction& entry : own.corrections)
    check(entry, refs);
  for (const Procedure& entry : own.procedures)
    check(entry, refs);
  for (const Caution& entry : own.cautions)
    refs.cited(entry.place, entry.source, entry.id);
  for (const Cover& entry : own.covers)
    refs.all_known(entry.place, refs.covers, "cover", entry.under, entry.id);
}

}  // namespace soot
