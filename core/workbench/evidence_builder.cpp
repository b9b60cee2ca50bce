#include "core/workbench/evidence_builder.hpp"

#include "core/calc/train.hpp"
#include "core/model/words.hpp"
#include "core/workbench/coarse_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

// "I think so": one in ten is a mistake, either way. Judgement.
constexpr infer::Unsure unsure_report{0.1, 0.1};

std::string on_which(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format(" on cylinder {}", cylinder);
}

// The last standing line of each symptom and cylinder, in the order of the job.
std::vector<std::size_t> last_reports(const Job& job, const Standing& standing,
                                      std::vector<std::string>& remarks) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < job.observations.size(); ++i) {
    if (!standing.observations[i]) continue;
    const Observation& now = job.observations[i];
    const auto earlier = std::find_if(kept.begin(), kept.end(), [&](std::size_t k) {
      return job.observations[k].symptom == now.symptom &&
             job.observations[k].cylinder == now.cylinder;
    });
    if (earlier != kept.end()) {
      if (job.observations[*earlier].present != now.present)
        remarks.push_back(
            fmt::format("{}{} is reported both present and absent: the last line "
                        "counts ({})",
                        now.symptom, on_which(now.cylinder), now.present ? "present" : "absent"));
      kept.erase(earlier);
    }
    kept.push_back(i);
  }
  return kept;
}

// However many steps the special form is away from the general one.
bool is_special_form(const Engine& engine, const std::string& special, const std::string& general) {
  const std::size_t most_steps = engine.knowledge.symptoms.size();  // a ring must not hang us
  const Symptom* symptom = find_id(engine.knowledge.symptoms, special);
  for (std::size_t step = 0; step < most_steps; ++step) {
    if (symptom == nullptr || !symptom->special_of) return false;
    if (*symptom->special_of == general) return true;
    symptom = find_id(engine.knowledge.symptoms, *symptom->special_of);
  }
  return false;
}

// A general report says nothing more once a special form of it is reported, unless the general one
// is there and this special form is not.
bool is_silenced_by_special(const Engine& engine, const std::vector<Observation>& said,
                            const Observation& general) {
  return std::any_of(said.begin(), said.end(), [&](const Observation& other) {
    return is_special_form(engine, other.symptom, general.symptom) &&
           (general.cylinder == 0 || general.cylinder == other.cylinder) &&
           (other.present || !general.present);
  });
}

bool is_silenced_by_reading(const Engine& engine, const Job& job, const Standing& standing,
                            const Observation& finding) {
  const Symptom& symptom = get_id(engine.knowledge.symptoms, finding.symptom);
  for (std::size_t i = 0; i < job.readings.size(); ++i) {
    if (!standing.readings[i]) continue;
    const ReadingTaken& reading = job.readings[i];
    const bool measures = std::find(symptom.measured_by.begin(), symptom.measured_by.end(),
                                    reading.quantity) != symptom.measured_by.end();
    if (measures && (finding.cylinder == 0 || finding.cylinder == reading.cylinder)) return true;
  }
  return false;
}

struct Handling {
  double shift = 0;
  double sd = 0;
};

// Turned back onto the mark, the cam may stand ahead of its working place by anything from nothing
// to the whole lash, evenly: mean half of it, sd lash/sqrt(12). Doubtful: one chance in two of
// that.
Handling handling_of(const Engine& engine, const infer::Quantity& quantity,
                     const infer::Network& network, CameUp came_up) {
  if (came_up == CameUp::yes) return {};
  const std::optional<double> lash_deg = calc::lash_limit_deg(engine.family);
  if (!lash_deg) return {};
  double slope = 0;
  for (const infer::Response& response : quantity.responses)
    if (network.terms[response.term] == term::drive_late) slope += response.shift.slope_at(0);
  const double whole = -slope * *lash_deg;  // looks early
  if (came_up == CameUp::no) return {whole / 2, std::abs(whole) / std::sqrt(12.0)};
  const double second_moment = whole * whole / 3 / 2;
  return {whole / 4, std::sqrt(second_moment - whole * whole / 16)};
}

infer::Reading to_reading(const Engine& engine, const BuiltNetwork& built,
                          const ReadingTaken& taken) {
  infer::Reading reading;
  reading.quantity = built.quantity_index.find(taken.quantity)->second;
  reading.cylinder = taken.cylinder;
  const double value = taken.value.model();
  if (taken.value.bound != Bound::above) reading.upper = value;
  if (taken.value.bound != Bound::below) reading.lower = value;
  const Quantity& quantity = *built.quantities[reading.quantity];
  const double instrument =
      taken.uncertainty
          ? model_difference(*taken.uncertainty)
          : std::hypot(quantity.instrument, quantity.instrument_share / 100 * std::abs(value));
  const Handling handling =
      handling_of(engine, built.network.quantities[reading.quantity], built.network, taken.came_up);
  reading.sd = std::hypot(instrument, handling.sd);
  reading.shift = handling.shift;
  return reading;
}

void add_finding(const BuiltNetwork& built, const Observation& seen, const Trace& trace,
                 BuiltEvidence& out) {
  infer::Finding finding;
  finding.symptom = built.symptom_index.find(seen.symptom)->second;
  finding.cylinder = seen.cylinder;
  finding.present = seen.present;
  if (seen.unsure) finding.unsure = unsure_report;
  out.evidence.findings.push_back(finding);
  out.findings.push_back(trace);
}

}  // namespace

Standing all_standing(const Job& job) {
  return Standing{std::vector<bool>(job.observations.size(), true),
                  std::vector<bool>(job.readings.size(), true)};
}

BuiltEvidence build_evidence(const Engine& engine, const BuiltNetwork& built, const Job& job,
                             const Standing& standing) {
  BuiltEvidence out;
  if (job.history) {
    const auto found = std::find(histories.begin(), histories.end(), *job.history);
    out.evidence.history = static_cast<std::size_t>(found - histories.begin());
  }
  const std::vector<std::size_t> kept = last_reports(job, standing, out.remarks);
  const CoarseFindings coarse = coarse_findings(engine, job, standing.readings);
  out.remarks.insert(out.remarks.end(), coarse.remarks.begin(), coarse.remarks.end());
  std::vector<Observation> said;
  for (const std::size_t i : kept)
    said.push_back(job.observations[i]);
  for (const Shown& shown : coarse.shown)
    said.push_back(shown.finding);

  for (const std::size_t i : kept) {
    const Observation& seen = job.observations[i];
    if (is_silenced_by_special(engine, said, seen)) {
      out.remarks.push_back(
          fmt::format("{} is covered by the more exact report beside it", seen.symptom));
    } else if (is_silenced_by_reading(engine, job, standing, seen)) {
      out.remarks.push_back(fmt::format("{}{} is covered by the reading of it", seen.symptom,
                                        on_which(seen.cylinder)));
    } else {
      add_finding(built, seen, Trace{false, i}, out);
    }
  }
  for (const Shown& shown : coarse.shown)
    add_finding(built, shown.finding, Trace{true, shown.reading}, out);
  for (std::size_t i = 0; i < job.readings.size(); ++i) {
    const std::size_t quantity = built.quantity_index.find(job.readings[i].quantity)->second;
    if (!standing.readings[i] || built.quantities[quantity]->is_coarse()) continue;
    out.evidence.readings.push_back(to_reading(engine, built, job.readings[i]));
    out.readings.push_back(Trace{true, i});
  }
  return out;
}

}  // namespace soot
