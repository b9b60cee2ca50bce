#include "core/plan/planner.hpp"

#include "core/plan/faults.hpp"
#include "core/plan/parting.hpp"
#include "core/plan/search.hpp"
#include "core/plan/stuck.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace soot::plan {

namespace {

template <class List>
Left open_ones(const List& list) {
  Left left;
  for (const auto& entry : list)
    left.push_back(entry.work.access == Access::open ? 1 : 0);
  return left;
}

const Need* need_of(const Move& move, const Tables& tables) {
  switch (move.kind) {
    case MoveKind::run:
      return &tables.run;
    case MoveKind::check:
      return &tables.checks[move.index].need;
    case MoveKind::correction:
      return &tables.corrections[move.index].need;
    case MoveKind::hand_over:
      break;
  }
  return nullptr;
}

Proposal make_proposal(const Found& plan, const Situation& situation, const Tables& tables) {
  Proposal made;
  made.move = plan.first;
  made.expected_cost = plan.cost;
  made.own_cost = tables.hand_over;
  if (const Need* need = need_of(plan.first, tables)) {
    made.own_cost = need->cost;
    made.change_cost = tables.change_cost(*need, tables.start_on);
    for (const std::size_t bit : need->on)
      if (!tables.start_on[bit]) made.put_on.push_back(bit);
    for (const std::size_t bit : need->off)
      if (tables.start_on[bit]) made.take_off.push_back(bit);
  }
  if (plan.first.kind == MoveKind::check)
    made.parts = parted_by(situation.checks[plan.first.index], situation, tables.start);
  if (plan.first.kind == MoveKind::correction) {
    const CorrectionTable& correction = tables.corrections[plan.first.index];
    Belief after = tables.start;
    correct(correction, after);
    made.mends = chance_to_mend(correction, tables.start);
    made.cures = after[tables.sound];
  }
  return made;
}

/// What decides between proposals, first to last; planner.hpp states it in words.
auto rank_of(const Proposal& proposal, const Situation& situation) {
  const Move& move = proposal.move;
  const int order = move.kind == MoveKind::correction ? situation.corrections[move.index].order : 0;
  return std::tuple(std::round(proposal.expected_cost / no_saving), move.kind, order,
                    proposal.own_cost + proposal.change_cost,
                    proposal.put_on.size() + proposal.take_off.size(), move.index);
}

void set_savings(std::vector<Proposal>& proposals, double without_looking) {
  for (std::size_t place = 0; place < proposals.size(); ++place) {
    Proposal& proposal = proposals[place];
    const std::size_t rival = place == 0 ? 1 : 0;
    if (rival < proposals.size())
      proposal.saving = proposals[rival].expected_cost - proposal.expected_cost;
    proposal.saving_over_not_looking = without_looking - proposal.expected_cost;
  }
}

Verdict verdict_of(const Move& best, bool looking_pays) {
  switch (best.kind) {
    case MoveKind::run:
      return Verdict::prove;
    case MoveKind::check:
      return Verdict::look;
    case MoveKind::hand_over:
      return Verdict::hand_over;
    case MoveKind::correction:
      break;
  }
  return looking_pays ? Verdict::correct : Verdict::enough;
}

/// The best plan that never looks was searched more widely: its first move may be worth more.
void take_in(std::vector<Found>& plans, const Found& blind) {
  for (Found& plan : plans)
    if (plan.first == blind.first) {
      plan.cost = std::min(plan.cost, blind.cost);
      return;
    }
  plans.push_back(blind);
}

}  // namespace

Result<Answer> next_move(const Situation& situation, const Options& options) {
  Problems faults = faults_of(situation);
  if (!faults.empty()) return tl::unexpected<Problems>(std::move(faults));

  Answer answer;
  const Tables tables = make_tables(situation);
  answer.something_else = tables.start[tables.rest];
  if (situation.proved) {
    answer.verdict = Verdict::cured;
    return answer;
  }
  const Left corrections = open_ones(situation.corrections);
  const bool one_step = options.work == 0;
  const std::size_t budget = one_step ? std::numeric_limits<std::size_t>::max() : options.work;
  Search search(tables, open_ones(situation.checks), corrections, budget);
  Search::Survey survey = search.survey(tables.start, tables.start_on, one_step ? 1 : 2);
  answer.deep = survey.deep;
  Search blind(tables, Left(tables.checks.size(), 0), corrections, budget);
  const Found without_looking = blind.look(tables.start, tables.start_on, survey.deep);
  answer.cost_without_looking = without_looking.cost;
  take_in(survey.plans, without_looking);

  bool looking_pays = false;
  for (const Found& plan : survey.plans) {
    const bool is_check = plan.first.kind == MoveKind::check;
    const bool pays = is_check && plan.cost < answer.cost_without_looking - no_saving;
    looking_pays = looking_pays || pays;
    if (!is_check || (pays && plan.forks))
      answer.proposals.push_back(make_proposal(plan, situation, tables));
  }
  std::sort(answer.proposals.begin(), answer.proposals.end(),
            [&](const Proposal& a, const Proposal& b) {
              return rank_of(a, situation) < rank_of(b, situation);
            });
  set_savings(answer.proposals, answer.cost_without_looking);
  answer.verdict = verdict_of(answer.proposals.front().move, looking_pays);

  if (answer.verdict == Verdict::enough ||
      (answer.verdict == Verdict::hand_over && !looking_pays)) {
    const double best = answer.proposals.front().expected_cost;
    answer.stuck = stuck_between(situation, tables, search, best, options);
    // Handing over is an end by itself: only a check that would change that makes it "stuck".
    if (answer.verdict == Verdict::hand_over && answer.stuck && !answer.stuck->parted_by)
      answer.stuck.reset();
    if (answer.stuck) answer.verdict = Verdict::stuck;
  }
  answer.work = search.work() + blind.work();
  return answer;
}

}  // namespace soot::plan
