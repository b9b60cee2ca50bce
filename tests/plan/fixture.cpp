#include "tests/plan/fixture.hpp"

#include "core/plan/mending.hpp"
#include "tests/places.hpp"

#include <fmt/format.h>

#include <fstream>
#include <map>
#include <stdexcept>

namespace soot::plan::test {

namespace {

using nlohmann::json;

struct Names {
  std::map<std::string, std::size_t> bit;

  std::vector<std::size_t> list(const json& names) const {
    std::vector<std::size_t> found;
    for (const json& name : names)
      found.push_back(bit.at(name.get<std::string>()));
    return found;
  }
  Work work(const json& from, const json& cost) const {
    Work made;
    made.cost = cost.get<double>();
    made.on = list(from.at("set"));
    made.off = list(from.at("clear"));
    return made;
  }
};

void read_hypotheses(const json& problem, Situation& situation) {
  std::map<CauseSet, double> weights;
  for (const json& entry : problem.at("prior"))
    weights[entry.at("present").get<CauseSet>()] = entry.at("p").get<double>();
  std::vector<CauseSet> sets;
  for (const auto& [causes, weight] : weights)
    sets.push_back(causes);
  for (const CauseSet& causes : sets_left_by(situation.corrections, sets))
    weights.emplace(causes, 0.0);
  for (const auto& [causes, weight] : weights)
    situation.hypotheses.push_back({causes, weight});
}

Check read_check(const json& from, const Names& names, const Situation& situation) {
  Check check{names.work(from, from.at("cost")), {}, {}};
  std::map<CauseSet, std::vector<double>> rows;
  for (const json& row : from.at("likelihood"))
    rows[ascending(row.at("present").get<CauseSet>())] = row.at("p").get<std::vector<double>>();
  for (const Hypothesis& hypothesis : situation.hypotheses)
    check.likelihood.push_back(rows.at(hypothesis.causes));
  return check;
}

}  // namespace

Fixture read_fixture(const json& problem) {
  Fixture fixture;
  fixture.name = problem.at("name").get<std::string>();
  if (problem.contains("answer")) fixture.answer = problem.at("answer");
  Situation& situation = fixture.situation;
  Names names;
  for (const json& bit : problem.at("bits")) {
    names.bit[bit.at("name").get<std::string>()] = situation.bits.size();
    situation.bits.push_back({bit.at("set_cost"), bit.at("clear_cost"), {}});
  }
  if (problem.at("cover_b_lies_under_cover_a").get<bool>())
    situation.bits[names.bit.at("cover-b")].under = {names.bit.at("cover-a")};
  situation.bits_on = names.list(problem.at("start_bits"));
  for (const json& from : problem.at("corrections")) {
    Correction correction{names.work(from, from.at("cost")), {}, 0};
    for (const json& cause : from.at("mends"))
      correction.mends.push_back({cause.get<std::size_t>(), from.at("success").get<double>()});
    situation.corrections.push_back(correction);
  }
  read_hypotheses(problem, situation);
  for (const json& from : problem.at("checks"))
    situation.checks.push_back(read_check(from, names, situation));
  situation.run = names.work(problem.at("test_needs"), problem.at("test_cost"));
  situation.hand_over_cost = problem.at("hand_over_cost").get<double>();
  return fixture;
}

std::vector<Fixture> all_fixtures() {
  std::vector<Fixture> all;
  for (const char* kind : {"single", "multi"})
    for (int number = 1; number <= 12; ++number) {
      const std::string path =
          fmt::format("{}/tests/data/plan/{}-{:02}.json", source_dir(), kind, number);
      std::ifstream file(path);
      if (!file) throw std::runtime_error("cannot read " + path);
      all.push_back(read_fixture(json::parse(file)));
    }
  return all;
}

std::string written(const Move& move) {
  switch (move.kind) {
    case MoveKind::run:
      return "test";
    case MoveKind::check:
      return fmt::format("check {}", move.index);
    case MoveKind::correction:
      return fmt::format("correction {}", move.index);
    case MoveKind::hand_over:
      break;
  }
  return "hand-over";
}

}  // namespace soot::plan::test
