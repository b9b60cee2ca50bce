#include "core/workbench/gates.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

constexpr long never = -1;
constexpr long before_the_job = 0;

bool names(const std::vector<std::string>& ids, std::string_view id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// Line of the last thing that shut it.
long shut_at(const Engine& engine, const Gate& gate, const Job& job) {
  long at = never;
  if (job.history && names(gate.after_history, *job.history)) at = before_the_job;
  for (const WorkDone& work : job.work)
    if (shuts(gate, get_id(engine.knowledge.corrections, work.correction)))
      at = std::max(at, work.line);
  for (const Observation& seen : job.observations)
    if (seen.present && names(gate.after_found, seen.symptom)) at = std::max(at, seen.line);
  return at;
}

bool is_within(const Engine& engine, const Gate& gate, const ReadingTaken& reading) {
  const auto figure = gate.within.empty() ? std::nullopt : engine.family.nominal(gate.within);
  return !figure || reading.value.model() <= *figure;
}

/// Of a cylinder's sign: holds on every one of them; of the engine's: on it.
template <class Holds>
bool on_all(const Engine& engine, Scope scope, const Holds& holds) {
  if (scope == Scope::engine) return holds(0);
  for (int cylinder = 1; cylinder <= engine.family.cylinders; ++cylinder)
    if (!holds(cylinder)) return false;
  return true;
}

/// Read on every cylinder that it has after that line, the last reading of each within.
bool is_read(const Engine& engine, const Gate& gate, const Job& job, const std::string& quantity,
             long after) {
  return on_all(engine, get_id(engine.knowledge.quantities, quantity).scope, [&](int cylinder) {
    const auto found =
        std::find_if(job.readings.rbegin(), job.readings.rend(), [&](const ReadingTaken& reading) {
          return reading.quantity == quantity && reading.cylinder == cylinder;
        });
    return found != job.readings.rend() && found->line > after && is_within(engine, gate, *found);
  });
}

/// Looked for after that line, and absent.
bool is_absent(const Engine& engine, const Job& job, const std::string& symptom, long after) {
  return on_all(engine, get_id(engine.knowledge.symptoms, symptom).scope, [&](int cylinder) {
    const auto found = std::find_if(job.observations.rbegin(), job.observations.rend(),
                                    [&](const Observation& seen) {
                                      return seen.symptom == symptom && seen.cylinder == cylinder;
                                    });
    return found != job.observations.rend() && found->line > after && !found->present &&
           !found->unsure;
  });
}

/// What the proof must find absent: the findings that shut the gate, else all that it answers.
std::vector<std::string> findings(const Gate& gate, const Check& proof) {
  std::vector<std::string> own;
  for (const std::string& symptom : proof.answers)
    if (names(gate.after_found, symptom)) own.push_back(symptom);
  return own.empty() ? proof.answers : own;
}

}  // namespace

bool is_open(const Engine& engine, const Gate& gate, const Job& job) {
  const long shut = shut_at(engine, gate, job);
  if (shut == never) return true;
  const Check* proof = find_id(engine.knowledge.checks, gate.prove);
  if (proof == nullptr) return false;
  const auto all = [](const std::vector<std::string>& ids, const auto& holds) {
    return !ids.empty() && std::all_of(ids.begin(), ids.end(), holds);
  };
  if (!proof->answers.empty())
    return all(findings(gate, *proof),
               [&](const std::string& symptom) { return is_absent(engine, job, symptom, shut); });
  return all(proof->reads, [&](const std::string& quantity) {
    return is_read(engine, gate, job, quantity, shut);
  });
}

bool guards(const Gate& gate, Running running) {
  return running != Running::stopped && running >= gate.before;
}

bool shuts(const Gate& gate, const Correction& correction) {
  return std::any_of(
      correction.cautions.begin(), correction.cautions.end(),
      [&](const std::string& caution) { return names(gate.after_caution, caution); });
}

std::string ask_words(const Gate& gate) {
  std::string words = gate.ask;
  if (!gate.prove.empty())
    words += fmt::format(": {} (sootsayer steps {})", gate.prove, gate.prove);
  if (!gate.also.empty()) words += ", " + gate.also;
  return words;
}

}  // namespace soot
