#include "core/guide/review_parts.hpp"
#include "core/model/words.hpp"

namespace soot {
namespace {

// Grades that are a matter of degree have a gross one by name: "gross", "late-gross".
bool is_gross(const std::string& grade) {
  return grade == "gross" || grade.ends_with("-gross");
}

}  // namespace

Result<void> review_priors(const Bench& bench, KnowledgeReview& review) {
  for (const Bench::Served& served : bench.families()) {
    const Result<Engine> engine = bench.engine(served.family.id);
    if (!engine) return pass_on(engine);
    for (std::size_t h = 0; h < histories.size(); ++h) {
      double all = 0, gross = 0;
      for (const Cause& cause : engine->knowledge.causes) {
        if (cause.id == instrument_cause) continue;  // one a quantity that was read
        const int instances = cause.scope == Scope::cylinder ? engine->family.cylinders : 1;
        for (std::size_t g = 0; g < cause.grades.size(); ++g) {
          all += instances * cause.prior[h][g];
          if (is_gross(cause.grades[g])) gross += instances * cause.prior[h][g];
        }
      }
      review.expected.push_back(
          {served.family.id, std::string{histories[h]}, all, all > 0 ? gross / all : 0});
    }
  }
  return {};
}

}  // namespace soot
