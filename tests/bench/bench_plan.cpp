// The planner measured: what following it costs against the exact optimum of the small problems and
// against simpler ways to choose, and how long one answer takes. Prints `figure NAME VALUE` lines;
// a word (ratios, scale, cases) picks a part.
#include "core/knowledge/job_reader.hpp"
#include "core/plan/planner.hpp"
#include "core/workbench/bench.hpp"
#include "core/workbench/case_run.hpp"
#include "core/workbench/next.hpp"
#include "core/workbench/rank.hpp"
#include "tests/bench/bench.hpp"
#include "tests/bench/habits.hpp"
#include "tests/places.hpp"
#include "tests/plan/fixture.hpp"
#include "tests/plan/small.hpp"

#include <fmt/format.h>

#include <numeric>
#include <stdexcept>

namespace soot::bench {

namespace {

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

template <class T>
T must(Result<T> result) {
  if (!result) throw std::runtime_error(to_string(result.error()));
  return *std::move(result);
}

/// Each way followed through every outcome of the 24 problems whose optimum is known exactly.
void print_ratios() {
  struct Way {
    std::string name;
    plan::test::Policy policy;
    std::vector<double> cost = {};
  };
  std::vector<Way> ways = {{"two-step", plan::test::planner(true)},
                           {"one-step", plan::test::planner(false)},
                           {"chance-over-cost", chance_over_cost},
                           {"most-told-for-cost", most_told_for_cost},
                           {"cheapest-first", cheapest_first}};
  std::vector<double> optimum;
  for (const plan::test::Fixture& problem : plan::test::all_fixtures()) {
    optimum.push_back(problem.answer.at("optimal_cost").get<double>());
    for (Way& way : ways)
      way.cost.push_back(plan::test::cost_of_following(problem.situation, way.policy));
  }
  for (const Way& way : ways) {
    std::vector<double> ratios, planned;
    for (std::size_t i = 0; i < optimum.size(); ++i) {
      ratios.push_back(way.cost[i] / optimum[i]);
      planned.push_back(ways[0].cost[i] / way.cost[i]);
    }
    figure("ratio-" + way.name + "-mean", mean(ratios));
    figure("ratio-" + way.name + "-worst", *std::max_element(ratios.begin(), ratios.end()));
    if (&way != &ways[0]) figure("two-step-over-" + way.name, mean(planned));
  }
}

/// Situations as large as a job of the whole knowledge makes them.
void print_scale() {
  std::vector<double> two_steps, one_step;
  plan::Options shallow;
  shallow.work = 0;
  for (unsigned seed = 1; seed <= 9; ++seed) {
    const plan::Situation situation = plan::test::product_size(seed);
    two_steps.push_back(typical_ms([&] { must(plan::next_move(situation)); }));
    one_step.push_back(typical_ms([&] { must(plan::next_move(situation, shallow)); }));
  }
  figure("plan-two-step-ms", median(two_steps));
  figure("plan-two-step-worst-ms", *std::max_element(two_steps.begin(), two_steps.end()));
  figure("plan-one-step-ms", median(one_step));
}

/// `next` as a person asks it, on every prepared case: posterior, tables and plan.
void print_cases() {
  const auto bench = must(Bench::open(Places{
      source_dir() + "/knowledge", source_dir() + "/cases", {binary_dir() + "/plugins"}, {}}));
  std::vector<double> times, to_rank;
  for (const CaseTitle& title : shelf_of(source_dir() + "/cases").titles) {
    const Job job = must(load_job(source_dir() + "/cases/" + title.name + ".toml"));
    const Engine engine = must(bench->engine(job.family));
    const Inquiry inquiry = must(inquire(engine, job));
    times.push_back(typical_ms([&] { must(next(engine, inquiry, {})); }, 3));
    to_rank.push_back(times.back() / typical_ms([&] { must(rank(engine, inquiry)); }, 3));
    fmt::print("{}: {:.0f} ms, {:.1f} times its rank\n", title.name, times.back(), to_rank.back());
  }
  figure("next-ms", median(times));
  figure("next-worst-ms", *std::max_element(times.begin(), times.end()));
  figure("ratio-next-rank", median(to_rank));
}

}  // namespace

}  // namespace soot::bench

int main(int argc, char** argv) {
  using namespace soot::bench;
  const Wanted wanted(argc, argv);
  if (wanted("ratios")) print_ratios();
  if (wanted("scale")) print_scale();
  if (wanted("cases")) print_cases();
}
