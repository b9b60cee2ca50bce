#include "tests/solved/solved.hpp"

#include "tests/judges/ranking.hpp"
#include "tests/solved/told_job.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot::judges {
namespace {

Problem about(const ToldCase& told, const Problem& problem) {
  Problem out = problem;
  out.text = fmt::format("case {}: {}", told.id, problem.text);
  return out;
}

Problems about(const ToldCase& told, const Problems& problems) {
  Problems out;
  for (const Problem& problem : problems)
    out.push_back(about(told, problem));
  return out;
}

void place_truth(const CodeTable& causes, const ToldCase& told, const Engine& engine,
                 const std::vector<CauseLine>& list, SolvedCase& out) {
  const Mapped& truth = causes.at(told.cause);
  out.in_scope = std::any_of(truth.ids.begin(), truth.ids.end(), [&](const MappedId& id) {
    return find_id(engine.knowledge.causes, id.id) != nullptr;
  });
  if (!out.in_scope)
    out.out_of_scope =
        truth.left_out.empty() ? "not in the knowledge of this engine" : truth.left_out;
  out.place = directed_place_of(list, truth.ids);
  for (const std::string& other : told.other_causes) {
    if (!causes.contains(other)) continue;
    const std::size_t place = directed_place_of(list, causes.at(other).ids);
    if (place != 0 && (out.other == 0 || place < out.other)) out.other = place;
  }
}

Result<SolvedCase> solve(PlainEngines& engines, const CodeMap& map, const ToldCase& told) {
  const auto causes = map.find("cause");
  if (causes == map.end() || !causes->second.contains(told.cause))
    return fail(Kind::data, "the map has no cause {}", told.cause);
  const Result<const Engine*> engine =
      engines.engine(cylinders_of(told), features_of(engines, told));
  if (!engine) return pass_on(engine);
  const Result<Job> job = job_of(**engine, map, told);
  if (!job) return pass_on(job);
  const Result<std::vector<CauseLine>> list = ranked_causes(**engine, *job);
  if (!list) return pass_on(list);

  SolvedCase out;
  out.id = told.id;
  out.cause = told.cause;
  out.first = list->empty() ? "" : list->front().id;
  out.history = job->history.value_or("");
  out.signs = job->observations.size() + job->readings.size();
  out.causes = list->size();
  place_truth(causes->second, told, **engine, *list, out);
  return out;
}

double score(const SolvedCase& solved, std::size_t places) {
  if (solved.place != 0 && solved.place <= places) return 1;
  return solved.other != 0 && solved.other <= places ? 0.5 : 0;
}

double mean(double sum, std::size_t count) {
  return count == 0 ? 0 : sum / static_cast<double>(count);
}

}  // namespace

double Solved::top(std::size_t places) const {
  double sum = 0;
  for (const SolvedCase& solved : cases)
    sum += score(solved, places);
  return mean(sum, cases.size());
}

double Solved::top_in_scope(std::size_t places) const {
  double sum = 0;
  for (const SolvedCase& solved : cases)
    if (solved.in_scope) sum += score(solved, places);
  return mean(sum, in_scope());
}

std::size_t Solved::in_scope() const {
  return static_cast<std::size_t>(std::count_if(
      cases.begin(), cases.end(), [](const SolvedCase& solved) { return solved.in_scope; }));
}

double Solved::median_place() const {
  if (cases.empty()) return 0;
  std::vector<double> places;
  for (const SolvedCase& solved : cases)
    places.push_back(static_cast<double>(solved.place != 0 ? solved.place : solved.causes + 1));
  std::sort(places.begin(), places.end());
  const std::size_t half = places.size() / 2;
  return places.size() % 2 == 1 ? places[half] : (places[half - 1] + places[half]) / 2;
}

Result<Solved> solve(PlainEngines& engines, const CodeMap& map,
                     const std::vector<ToldCase>& cases) {
  Solved out;
  Problems problems;
  for (const ToldCase& told : cases) {
    Result<SolvedCase> solved = solve(engines, map, told);
    if (solved) {
      out.cases.push_back(std::move(*solved));
      continue;
    }
    const Problems mine = about(told, solved.error());
    problems.insert(problems.end(), mine.begin(), mine.end());
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return out;
}

}  // namespace soot::judges
