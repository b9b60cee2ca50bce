#include "core/workbench/inquiry.hpp"

#include "core/model/words.hpp"
#include "core/workbench/entry_check.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

constexpr std::size_t just_rebuilt = 0;  // index into `histories`

bool concerns(int cylinder, const std::vector<int>& cylinders) {
  return cylinders.empty() || cylinder == 0 ||
         std::find(cylinders.begin(), cylinders.end(), cylinder) != cylinders.end();
}

bool names(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

// Whether a correction of this cause can change what a symptom or quantity shows.
bool reaches_symptom(const Cause& cause, const std::string& symptom) {
  return std::any_of(cause.links.begin(), cause.links.end(), [&](const Link& link) {
    return link.symptom == symptom &&
           std::any_of(link.strength.begin(), link.strength.end(), [](double s) { return s > 0; });
  });
}

bool reaches_quantity(const BuiltNetwork& built, const std::string& cause,
                      const std::string& quantity) {
  const infer::Cause& c = built.network.causes[built.cause_index.find(cause)->second];
  const infer::Quantity& q = built.network.quantities[built.quantity_index.find(quantity)->second];
  return std::any_of(c.effects.begin(), c.effects.end(), [&](const infer::Effect& effect) {
    return std::any_of(q.responses.begin(), q.responses.end(),
                       [&](const infer::Response& r) { return r.term == effect.term; });
  });
}

// A job's lines up to one of them.
Job until(const Job& job, long line) {
  Job part = job;
  std::erase_if(part.observations, [&](const Observation& o) { return o.line >= line; });
  std::erase_if(part.readings, [&](const ReadingTaken& r) { return r.line >= line; });
  return part;
}

class Aftermath {
 public:
  Aftermath(const Engine& engine, const Job& job, BuiltNetwork& built, Standing& standing)
      : engine_(engine), job_(job), built_(built), standing_(standing) {}

  Result<void> follow(const WorkDone& work) {
    const Correction& correction = get_id(engine_.knowledge.corrections, work.correction);
    const BuiltEvidence before = evidence_before(work.line);
    const Result<infer::Posterior> posterior =
        infer::posterior(built_.network, before.evidence, asked_limits);
    if (!posterior) return pass_on(posterior);
    for (const Mend& mend : correction.mends)
      if (built_.cause_index.contains(mend.cause)) keep_rest(*posterior, mend, work);
    for (const std::string& brought : correction.brings)
      bring(brought, work);
    overtake(correction, work);
    return {};
  }

 private:
  BuiltEvidence evidence_before(long line) const {
    const Job part = until(job_, line);
    Standing standing;
    for (std::size_t i = 0; i < job_.observations.size(); ++i)
      if (job_.observations[i].line < line)
        standing.observations.push_back(standing_.observations[i]);
    for (std::size_t i = 0; i < job_.readings.size(); ++i)
      if (job_.readings[i].line < line) standing.readings.push_back(standing_.readings[i]);
    return build_evidence(engine_, built_, part, standing);
  }

  void set_prior(std::size_t cause, int cylinder, std::vector<double> grade) {
    auto& priors = built_.network.instance_priors;
    std::erase_if(priors, [&](const infer::InstancePrior& prior) {
      return prior.cause == cause && prior.cylinder == cylinder;
    });
    priors.push_back({cause, cylinder, std::move(grade)});
  }

  void keep_rest(const infer::Posterior& posterior, const Mend& mend, const WorkDone& work) {
    const std::size_t cause = built_.cause_index.find(mend.cause)->second;
    for (const infer::Instance& instance : posterior.instances) {
      if (instance.cause != cause || !concerns(instance.cylinder, work.cylinders)) continue;
      std::vector<double> grade(instance.grade.begin() + 1, instance.grade.end());
      for (double& p : grade)
        p *= 1 - mend.cure;
      set_prior(cause, instance.cylinder, std::move(grade));
    }
  }

  void bring(const std::string& id, const WorkDone& work) {
    const auto found = built_.cause_index.find(id);
    if (found == built_.cause_index.end()) return;
    const infer::Cause& cause = built_.network.causes[found->second];
    if (cause.scope == infer::Scope::engine) {
      set_prior(found->second, 0, cause.prior[just_rebuilt]);
      return;
    }
    for (int cylinder = 1; cylinder <= engine_.family.cylinders; ++cylinder)
      if (concerns(cylinder, work.cylinders))
        set_prior(found->second, cylinder, cause.prior[just_rebuilt]);
  }

  void overtake(const Correction& correction, const WorkDone& work) {
    const auto mended = [&](const auto& reaches) {
      return std::any_of(correction.mends.begin(), correction.mends.end(), [&](const Mend& mend) {
        return built_.cause_index.contains(mend.cause) && reaches(mend.cause);
      });
    };
    for (std::size_t i = 0; i < job_.observations.size(); ++i) {
      const Observation& seen = job_.observations[i];
      if (seen.line >= work.line || !concerns(seen.cylinder, work.cylinders)) continue;
      const bool touched =
          names(correction.touches, seen.symptom) || mended([&](const auto& id) {
            return reaches_symptom(get_id(engine_.knowledge.causes, id), seen.symptom);
          });
      if (touched) standing_.observations[i] = false;
    }
    for (std::size_t i = 0; i < job_.readings.size(); ++i) {
      const ReadingTaken& taken = job_.readings[i];
      if (taken.line >= work.line || !concerns(taken.cylinder, work.cylinders)) continue;
      const bool touched =
          names(correction.touches, taken.quantity) ||
          mended([&](const std::string& id) { return reaches(id, taken.quantity); });
      if (touched) standing_.readings[i] = false;
    }
  }

  // A coarse quantity is reached through the symptoms that it shows.
  bool reaches(const std::string& cause, const std::string& id) const {
    const Quantity& quantity = get_id(engine_.knowledge.quantities, id);
    return reaches_quantity(built_, cause, id) ||
           std::any_of(quantity.shows.begin(), quantity.shows.end(), [&](const Showing& showing) {
             return reaches_symptom(get_id(engine_.knowledge.causes, cause), showing.symptom);
           });
  }

  const Engine& engine_;
  const Job& job_;
  BuiltNetwork& built_;
  Standing& standing_;
};

// A proving run reports on the complaint again: gone when cured, there when not, perhaps when
// improved.
void add_proofs(Job& job) {
  const std::vector<Observation> complaints = complaints_of(job);
  for (const ProvingRun& proof : job.proofs) {
    if (proof.result == Proof::not_tested) continue;
    for (Observation seen : complaints) {
      seen.line = proof.line;
      seen.present = proof.result != Proof::cured;
      seen.unsure = proof.result == Proof::improved;
      job.observations.push_back(seen);
    }
  }
}

bool is_cured(const Job& job) {
  if (job.proofs.empty() || job.proofs.back().result != Proof::cured) return false;
  const long line = job.proofs.back().line;
  return std::none_of(job.observations.begin(), job.observations.end(),
                      [&](const Observation& o) { return o.present && o.line > line; });
}

}  // namespace

std::vector<Observation> complaints_of(const Job& job) {
  std::vector<Observation> marked, present;
  for (const Observation& observation : job.observations) {
    if (!observation.present) continue;
    present.push_back(observation);
    if (observation.complaint) marked.push_back(observation);
  }
  return marked.empty() ? present : marked;
}

Result<Inquiry> inquire(const Engine& engine, const Job& given) {
  Problems faults = faults_of(engine, given);
  if (!faults.empty()) return tl::unexpected<Problems>(std::move(faults));
  Job job = given;
  add_proofs(job);
  std::optional<std::size_t> history;
  if (job.history)
    history = static_cast<std::size_t>(std::find(histories.begin(), histories.end(), *job.history) -
                                       histories.begin());
  Result<BuiltNetwork> built = build_network(engine, history);
  if (!built) return pass_on(built);
  const Standing standing = all_standing(job);
  Inquiry inquiry{std::move(job), std::move(*built), {}, standing, false};
  inquiry.is_cured = is_cured(inquiry.job);
  Aftermath aftermath(engine, inquiry.job, inquiry.built, inquiry.standing);
  for (const WorkDone& work : inquiry.job.work) {
    const Result<void> followed = aftermath.follow(work);
    if (!followed) return tl::unexpected<Problems>(followed.error());
  }
  inquiry.evidence = build_evidence(engine, inquiry.built, inquiry.job, inquiry.standing);
  return inquiry;
}

}  // namespace soot
