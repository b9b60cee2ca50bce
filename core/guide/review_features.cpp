#include "core/base/text.hpp"
#include "core/guide/review_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

constexpr std::string_view topic = "Features outside the vocabulary (knowledge/features.toml)";

class FeatureReview {
 public:
  FeatureReview(const Knowledge& knowledge, KnowledgeReview& review)
      : knowledge_(knowledge), known_(ids_of(knowledge.features)), review_(review) {}

  void look(const Place& place, const std::string& who, const std::vector<std::string>& features) {
    for (const std::string& feature : features)
      if (find_id(knowledge_.features, feature) == nullptr)
        review_.notes.push_back({std::string{topic}, place,
                                 fmt::format("{} names feature '{}', which is not there{}", who,
                                             feature, did_you_mean(feature, known_))});
  }

  void look(const Knowledge& entries) {
    for (const Cause& cause : entries.causes) {
      look(cause.place, cause.id, cause.needs);
      look(cause.place, cause.id, cause.without);
    }
    for (const Symptom& symptom : entries.symptoms)
      look(symptom.place, symptom.id, symptom.needs);
    for (const Check& check : entries.checks) {
      look_at_work(check);
      look(check.place, check.id, check.without);
    }
    for (const Correction& correction : entries.corrections)
      look_at_work(correction);
    for (const Cover& cover : entries.covers)
      for (const CoverVariant& variant : cover.variants)
        look(cover.place, cover.id, {variant.feature});
    for (const Procedure& procedure : entries.procedures) {
      for (const Step& step : procedure.steps)
        look(procedure, step.saying);
      for (const Saying& saying : procedure.means)
        look(procedure, saying);
    }
  }

 private:
  template <class Work>
  void look_at_work(const Work& work) {
    look(work.place, work.id, work.needs);
    for (const WorkVariant& variant : work.variants)
      look(work.place, work.id, {variant.feature});
  }

  void look(const Procedure& procedure, const Saying& saying) {
    look(procedure.place, procedure.id, saying.needs);
    look(procedure.place, procedure.id, saying.without);
  }

  const Knowledge& knowledge_;
  std::vector<std::string> known_;
  KnowledgeReview& review_;
};

}  // namespace

void review_features(const Bench& bench, KnowledgeReview& review) {
  FeatureReview features(bench.knowledge(), review);
  features.look(bench.knowledge());
  for (const Bench::Served& served : bench.families()) {
    features.look(served.own);
    features.look(served.family.place, "family " + served.family.id, served.family.features);
  }
  for (const Quantity& quantity : bench.knowledge().quantities) {
    if (quantity.figure.empty() || quantity.usual) continue;
    const bool given = std::any_of(bench.families().begin(), bench.families().end(),
                                   [&](const Bench::Served& served) {
                                     return served.family.figure(quantity.figure) != nullptr;
                                   });
    if (!given)
      review.notes.push_back({"Figures that no family gives", quantity.place,
                              fmt::format("{} asks for {}: its cylinders can only be compared",
                                          quantity.id, quantity.figure)});
  }
}

}  // namespace soot
