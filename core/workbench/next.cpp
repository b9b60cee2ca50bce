#include "core/workbench/next.hpp"

#include "core/plan/planner.hpp"
#include "core/workbench/gates.hpp"
#include "core/workbench/move_list.hpp"
#include "core/workbench/short_list.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

// Asked for by every check that takes this reading: whoever took it had it.
bool was_used(const Engine& engine, const std::string& tool, const ReadingTaken& reading) {
  bool is_read = false;
  for (const Check& check : engine.knowledge.checks) {
    if (std::count(check.reads.begin(), check.reads.end(), reading.quantity) == 0) continue;
    if (std::count(check.tools.begin(), check.tools.end(), tool) == 0) return false;
    is_read = true;
  }
  return is_read;
}

std::vector<std::string> tools_of(const Engine& engine, const Job& job) {
  if (job.tools) return *job.tools;
  std::vector<std::string> out;
  for (const Tool& tool : engine.knowledge.tools)
    if (tool.at_hand ||
        std::any_of(job.readings.begin(), job.readings.end(), [&](const ReadingTaken& reading) {
          return was_used(engine, tool.id, reading);
        }))
      out.push_back(tool.id);
  return out;
}

Verdict verdict_of(plan::Verdict verdict) {
  switch (verdict) {
    case plan::Verdict::look:
      return Verdict::look;
    case plan::Verdict::correct:
      return Verdict::correct;
    case plan::Verdict::enough:
      return Verdict::enough;
    case plan::Verdict::prove:
      return Verdict::prove;
    case plan::Verdict::stuck:
      return Verdict::stuck;
    case plan::Verdict::hand_over:
      return Verdict::hand_over;
    case plan::Verdict::cured:
      return Verdict::cured;
  }
  return Verdict::hand_over;
}

class Namer {
 public:
  Namer(const Engine& engine, const Inquiry& inquiry, const Hypotheses& hypotheses,
        const MoveList& moves)
      : engine_(engine), inquiry_(inquiry), hypotheses_(hypotheses), moves_(moves) {}

  ProposalLine name(const plan::Proposal& proposal) const {
    ProposalLine line;
    line.cost = proposal.expected_cost;
    line.saving = std::max(0.0, proposal.saving);
    if (proposal.move.kind == plan::MoveKind::check)
      line.saving_over_not_looking = std::max(0.0, proposal.saving_over_not_looking);
    line.mends = proposal.mends;
    line.price = proposal.own_cost + proposal.change_cost;
    line.opening_minutes = proposal.change_cost;
    switch (proposal.move.kind) {
      case plan::MoveKind::check:
        name_check(proposal, line);
        break;
      case plan::MoveKind::correction:
        name_correction(proposal, line);
        break;
      case plan::MoveKind::run:
        name_run(line);
        line.minutes = proposal.own_cost;
        break;
      case plan::MoveKind::hand_over:
        line.kind = ProposalLine::Kind::hand_over;
        line.id = "hand-over";
        line.name = "Hand it over to a specialist, with the record (sootsayer page)";
        line.minutes = 0;
        break;
    }
    add_gates(proposal, line);
    return line;
  }

  ProposalLine::Suspect suspect(std::size_t index) const {
    const Suspect& s = hypotheses_.suspects[index];
    const Cause& cause = *inquiry_.built.causes[s.cause];
    return {cause.id, cause.name, s.cylinder};
  }

 private:
  void name_check(const plan::Proposal& proposal, ProposalLine& line) const {
    const CheckMove& move = moves_.checks[proposal.move.index];
    line.kind = ProposalLine::Kind::check;
    line.id = move.check->id;
    line.name = move.check->name;
    line.cylinders = move.cylinders;
    line.minutes = minutes_of(move.check->minutes, move.cylinders);
    line.tools = tool_names(move.check->tools);
    add_cautions(move.check->cautions, line);
    for (const plan::CauseSet* side : {&proposal.parts.one, &proposal.parts.other})
      if (!side->empty()) line.parts.push_back(suspect(side->front()));
  }

  void name_correction(const plan::Proposal& proposal, ProposalLine& line) const {
    const CorrectionMove& move = moves_.corrections[proposal.move.index];
    line.kind = ProposalLine::Kind::correction;
    line.id = move.correction->id;
    line.name = move.correction->name;
    line.cylinders = move.cylinders;
    line.minutes = minutes_of(move.correction->minutes, move.cylinders);
    line.tools = tool_names(move.correction->tools);
    add_cautions(move.correction->cautions, line);
  }

  void name_run(ProposalLine& line) const {
    line.kind = ProposalLine::Kind::run;
    if (complaints_of(inquiry_.job).empty()) {
      line.id = "measure-again";
      line.name = "Measure once more what was out, by the same way of coming up";
    } else {
      line.id = "proving-run";
      line.name = "Run it under the conditions of the complaint (then: sootsayer prove)";
    }
  }

  static double minutes_of(const Minutes& minutes, const std::vector<int>& cylinders) {
    const double count = cylinders.empty() ? 1.0 : static_cast<double>(cylinders.size());
    return minutes.set_up + minutes.each * count;
  }

  std::vector<std::string> tool_names(const std::vector<std::string>& ids) const {
    std::vector<std::string> out;
    for (const std::string& id : ids)
      out.push_back(get_id(engine_.knowledge.tools, id).name);
    return out;
  }

  void add_cautions(const std::vector<std::string>& ids, ProposalLine& line) const {
    for (const std::string& id : ids)
      line.cautions.push_back(get_id(engine_.knowledge.cautions, id).text);
  }

  // Nothing is turned or run before what guards it is proved.
  void add_gates(const plan::Proposal& proposal, ProposalLine& line) const {
    const auto& bits = proposal.put_on;
    std::vector<std::string> asked;
    for (const auto& [gate, bit] : moves_.bits.gates)
      if (std::find(bits.begin(), bits.end(), bit) != bits.end()) asked.push_back(ask_words(*gate));
    for (const Gate& gate : engine_.knowledge.gates)
      if (gate.prove.empty() && guards(gate, running_of(proposal.move)) &&
          !is_open(engine_, gate, inquiry_.job))
        asked.push_back(ask_words(gate));
    line.cautions.insert(line.cautions.begin(), asked.begin(), asked.end());
  }

  Running running_of(const plan::Move& move) const {
    switch (move.kind) {
      case plan::MoveKind::check:
        return moves_.checks[move.index].check->running;
      case plan::MoveKind::correction:
        return moves_.corrections[move.index].correction->running;
      case plan::MoveKind::run:
        return Running::running;
      case plan::MoveKind::hand_over:
        break;
    }
    return Running::stopped;
  }

  const Engine& engine_;
  const Inquiry& inquiry_;
  const Hypotheses& hypotheses_;
  const MoveList& moves_;
};

// Of at least one of these causes.
double mending_chance(const plan::Correction& correction, const plan::CauseSet& causes) {
  double most = 0;  // one draw decides for the whole job
  for (const plan::Mend& mend : correction.mends)
    if (std::count(causes.begin(), causes.end(), mend.cause) > 0)
      most = std::max(most, mend.chance);
  return most;
}

// The work that would most likely mend it, if only for want of a tool it cannot be done here.
void add_work_out_of_reach(const Engine& engine, const MoveList& moves,
                           std::vector<std::string>& remarks) {
  const plan::Situation& situation = moves.situation;
  double most = 0.5;
  std::string said;
  for (std::size_t i = 0; i < situation.corrections.size(); ++i) {
    if (situation.corrections[i].work.access != plan::Access::out_of_reach) continue;
    double mends = 0;
    for (const plan::Hypothesis& hypothesis : situation.hypotheses)
      mends += hypothesis.weight * mending_chance(situation.corrections[i], hypothesis.causes);
    if (mends <= most) continue;
    most = mends;
    const CorrectionMove& move = moves.corrections[i];
    std::vector<std::string> tools;
    for (const std::string& id : move.correction->tools)
      tools.push_back(get_id(engine.knowledge.tools, id).name);
    said = fmt::format(
        "{}{} would most likely mend it, but not all it asks for is here: {}", move.correction->id,
        move.cylinders.size() == 1 ? fmt::format(" on cylinder {}", move.cylinders.front()) : "",
        fmt::join(tools, "; "));
  }
  if (!said.empty()) remarks.push_back(said);
}

constexpr double much_not_listed = 0.2;  // judgement

std::string stuck_remark(const MoveList& moves, const plan::Stuck& stuck) {
  const auto name = [&](const plan::Group& group) {
    return moves.corrections[group.correction].correction->id;
  };
  std::string remark =
      fmt::format("two ways remain: {}, or {}", name(stuck.one), name(stuck.other));
  if (stuck.parted_by)
    remark += fmt::format("; only {} would part them, which cannot be made here",
                          moves.checks[*stuck.parted_by].check->id);
  return remark;
}

}  // namespace

Result<NextAnswer> next(const Engine& engine, const Inquiry& inquiry,
                        const std::vector<std::string>& skipped) {
  const std::vector<Observation> complaints = complaints_of(inquiry.job);
  if (complaints.empty() && inquiry.evidence.evidence.readings.empty())
    return fail(Kind::use, "no complaint is told yet (say what is seen: sootsayer saw SYMPTOM)");
  Result<Hypotheses> hypotheses = hypothesise(inquiry, complaints);
  if (!hypotheses) return pass_on(hypotheses);
  const MoveList moves =
      list_moves(engine, inquiry, *hypotheses, complaints, skipped, tools_of(engine, inquiry.job));
  const Result<plan::Answer> planned = plan::next_move(moves.situation);
  if (!planned) return pass_on(planned);

  NextAnswer out;
  out.family = engine.family.id;
  out.verdict = verdict_of(planned->verdict);
  out.not_listed = planned->something_else;
  out.remarks = inquiry.evidence.remarks;
  const Namer namer(engine, inquiry, *hypotheses, moves);
  for (const plan::Proposal& proposal : planned->proposals) {
    // One check may have been planned with in several parts (what it answers, what it reads).
    ProposalLine line = namer.name(proposal);
    const bool is_said =
        std::any_of(out.proposals.begin(), out.proposals.end(), [&](const ProposalLine& said) {
          return said.id == line.id && said.cylinders == line.cylinders;
        });
    if (!is_said) out.proposals.push_back(std::move(line));
  }
  shorten(out, planned->cost_without_looking);
  if (out.verdict == Verdict::hand_over) add_work_out_of_reach(engine, moves, out.remarks);
  if (out.not_listed > much_not_listed)
    out.remarks.push_back(
        "what does it may well be in no list: look wider first (history, a second "
        "gauge, another pair of eyes)");
  if (complaints.empty())
    out.remarks.push_back(
        "nothing is complained of: this goes by the readings alone (if it runs badly, say how: "
        "sootsayer saw SYMPTOM --complaint)");
  if (planned->stuck) out.remarks.push_back(stuck_remark(moves, *planned->stuck));
  return out;
}

}  // namespace soot
