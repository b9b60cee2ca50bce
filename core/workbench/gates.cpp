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

/// One quantity of the proof, read on every cylinder that it has after that line, all within.
bool is_read(const Engine& engine, const Gate& gate, const Job& job, const std::string& quantity,
             long after) {
  const bool each = get_id(engine.knowledge.quantities, quantity).scope == Scope::cylinder;
  const int last = each ? engine.family.cylinders : 0;
  for (int cylinder = each ? 1 : 0; cylinder <= last; ++cylinder) {
    const auto found =
        std::find_if(job.readings.rbegin(), job.readings.rend(), [&](const ReadingTaken& reading) {
          return reading.quantity == quantity && reading.cylinder == cylinder &&
                 reading.line > after;
        });
    if (found == job.readings.rend() || !is_within(engine, gate, *found)) return false;
  }
  return true;
}

}  // namespace

bool is_open(const Engine& engine, const Gate& gate, const Job& job) {
  const long shut = shut_at(engine, gate, job);
  if (shut == never) return true;
  const Check* proof = find_id(engine.knowledge.checks, gate.prove);
  if (proof == nullptr) return false;
  const bool is_looked_at =
      std::any_of(job.observations.begin(), job.observations.end(), [&](const Observation& seen) {
        return !seen.present && !seen.unsure && seen.line > shut &&
               names(proof->answers, seen.symptom);
      });
  return is_looked_at ||
         (!proof->reads.empty() &&
          std::all_of(proof->reads.begin(), proof->reads.end(), [&](const std::string& quantity) {
            return is_read(engine, gate, job, quantity, shut);
          }));
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
