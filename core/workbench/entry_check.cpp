#include "core/workbench/entry_check.hpp"

#include "core/base/append.hpp"
#include "core/base/text.hpp"
#include "core/model/words.hpp"
#include "core/workbench/left_out.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

Problem at(const Place& place, std::string words) {
  Problem problem = make_problem(place.file.empty() ? Kind::use : Kind::data, "{}", words);
  problem.place = place;
  return problem;
}

template <class Entry>
Problem unknown(const Place& place, std::string_view kind, const std::string& id,
                const Entries<Entry>& list, const Engine& engine) {
  if (const std::string other = what_else(engine.knowledge, id); !other.empty())
    return at(place, fmt::format("'{}' is no {} but {}", id, kind, other));
  const std::string reason = why_left_out(engine, id);
  if (!reason.empty())
    return at(place, fmt::format("'{}' is not for {} ({})", id, engine.family.id, reason));
  const std::string near = did_you_mean(id, ids_of(list));
  return at(place, near.empty()
                       ? fmt::format("'{}' is no {} of {} (list them: sootsayer knowledge "
                                     "list {})",
                                     id, kind, engine.family.id, kind)
                       : fmt::format("'{}' is no {} of {}{}", id, kind, engine.family.id, near));
}

void check_cylinder(const Engine& engine, const Place& place, Scope scope, int cylinder,
                    const std::string& id, Problems& out) {
  const int most = engine.family.cylinders;
  if (scope == Scope::engine && cylinder != 0)
    out.push_back(
        at(place, fmt::format("{} belongs to the whole engine (expected no cylinder)", id)));
  if (scope == Scope::cylinder && cylinder == 0)
    out.push_back(
        at(place, fmt::format("{} belongs to a cylinder (expected which, 1 to {})", id, most)));
  if (scope == Scope::cylinder && (cylinder < 0 || cylinder > most))
    out.push_back(at(place, fmt::format("cylinder {} of {}: {} has cylinders 1 to {}", cylinder, id,
                                        engine.family.id, most)));
}

void check_truth(const Engine& engine, const Truth& truth, Problems& out) {
  if (truth.cause == not_listed_cause) return;
  const Cause* cause = find_id(engine.knowledge.causes, truth.cause);
  if (cause == nullptr) {
    out.push_back(unknown(Place{}, "cause", truth.cause, engine.knowledge.causes, engine));
    return;
  }
  check_cylinder(engine, Place{}, cause->scope, truth.cylinder, truth.cause, out);
  if (!truth.grade.empty() &&
      std::find(cause->grades.begin(), cause->grades.end(), truth.grade) == cause->grades.end())
    out.push_back(at(Place{}, fmt::format("{} has no grade '{}' (it has {})", truth.cause,
                                          truth.grade, fmt::join(cause->grades, ", "))));
}

}  // namespace

Problems faults_of(const Engine& engine, const Observation& observation) {
  Problems out;
  const Symptom* symptom = find_id(engine.knowledge.symptoms, observation.symptom);
  if (symptom == nullptr) {
    out.push_back(unknown(observation.place, "symptom", observation.symptom,
                          engine.knowledge.symptoms, engine));
  } else {
    check_cylinder(engine, observation.place, symptom->scope, observation.cylinder, symptom->id,
                   out);
  }
  return out;
}

Problems faults_of(const Engine& engine, const ReadingTaken& reading) {
  Problems out;
  const Quantity* quantity = find_id(engine.knowledge.quantities, reading.quantity);
  if (quantity == nullptr) {
    out.push_back(
        unknown(reading.place, "quantity", reading.quantity, engine.knowledge.quantities, engine));
    return out;
  }
  check_cylinder(engine, reading.place, quantity->scope, reading.cylinder, quantity->id, out);
  const auto check_unit = [&](const Measure& measure) {
    if (measure.unit.dimension == quantity->dimension) return;
    const bool bare = measure.unit.dimension == Dimension::number;
    out.push_back(
        at(reading.place,
           fmt::format("{}: '{}' {} (expected {} in {})", quantity->id, measure.as_written,
                       bare ? "has no unit" : "is " + std::string{name_of(measure.unit.dimension)},
                       name_of(quantity->dimension), units_of(quantity->dimension))));
  };
  check_unit(reading.value);
  if (reading.uncertainty) {
    check_unit(*reading.uncertainty);
    if (!(model_difference(*reading.uncertainty) > 0))
      out.push_back(at(reading.place, fmt::format("{}: uncertainty {} is not above 0", quantity->id,
                                                  reading.uncertainty->as_written)));
  }
  return out;
}

Problems faults_of(const Engine& engine, const WorkDone& work) {
  Problems out;
  const Correction* correction = find_id(engine.knowledge.corrections, work.correction);
  if (correction == nullptr) {
    out.push_back(
        unknown(work.place, "correction", work.correction, engine.knowledge.corrections, engine));
    return out;
  }
  if (correction->scope == Scope::engine && !work.cylinders.empty())
    check_cylinder(engine, work.place, Scope::engine, work.cylinders.front(), correction->id, out);
  if (correction->scope == Scope::cylinder && work.cylinders.empty())
    check_cylinder(engine, work.place, Scope::cylinder, 0, correction->id, out);
  for (const int cylinder : work.cylinders)
    if (correction->scope == Scope::cylinder)
      check_cylinder(engine, work.place, Scope::cylinder, cylinder, correction->id, out);
  return out;
}

Problems faults_of(const Engine& engine, const Job& job) {
  Problems out;
  for (const Observation& observation : job.observations)
    append(out, faults_of(engine, observation));
  for (const ReadingTaken& reading : job.readings) {
    append(out, faults_of(engine, reading));
    if (const std::optional<std::string> why = absurdity_of(engine, reading))
      out.push_back(at(reading.place, *why));
  }
  for (const WorkDone& work : job.work)
    append(out, faults_of(engine, work));
  if (job.history && std::find(histories.begin(), histories.end(), *job.history) == histories.end())
    out.push_back(at(Place{}, fmt::format("'{}' is no history (expected one of {})", *job.history,
                                          fmt::join(histories, ", "))));
  for (const std::string& tool : job.tools.value_or(std::vector<std::string>{}))
    if (find_id(engine.knowledge.tools, tool) == nullptr)
      out.push_back(unknown(Place{}, "tool", tool, engine.knowledge.tools, engine));
  for (const std::string& cover : job.state.covers_off)
    if (find_id(engine.knowledge.covers, cover) == nullptr)
      out.push_back(unknown(Place{}, "cover", cover, engine.knowledge.covers, engine));
  if (job.sheet)
    for (const Truth& truth : job.sheet->truth)
      check_truth(engine, truth, out);
  return out;
}

std::optional<std::string> absurdity_of(const Engine& engine, const ReadingTaken& reading) {
  const Quantity* quantity = find_id(engine.knowledge.quantities, reading.quantity);
  if (quantity == nullptr || reading.value.unit.dimension != quantity->dimension)
    return std::nullopt;
  const double value = reading.value.model();
  if (value >= quantity->least && value <= quantity->most) return std::nullopt;
  return fmt::format("{}: {} is {}, which no engine of this kind has (expected {} to {})",
                     quantity->id, reading.value.as_written,
                     print_in(value, quantity->unit, quantity->decimals),
                     print_in(quantity->least, quantity->unit, quantity->decimals),
                     print_in(quantity->most, quantity->unit, quantity->decimals));
}

}  // namespace soot
