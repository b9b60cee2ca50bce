#include "core/workbench/next.hpp"

#include "core/plan/planner.hpp"
#include "core/workbench/gates.hpp"
#include "core/workbench/move_list.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

std::vector<std::string> tools_of(const Engine& engine, const Job& job) {
  if (job.tools) return *job.tools;
  std::vector<std::string> out;
  for (const Tool& tool : engine.knowledge.tools)
    if (tool.at_hand) out.push_back(tool.id);
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
    line.mends = proposal.mends;
    line.opening_minutes = proposal.change_cost;
    switch (proposal.move.kind) {
      case plan::MoveKind::check:
        name_check(proposal, line);
        break;
      case plan::MoveKind::correction:
        name_correction(proposal, line);
        break;
      case plan::MoveKind::run:
        line.kind = ProposalLine::Kind::run;
        line.id = "proving-run";
        line.name = "Run it under the conditions of the complaint (then: sootsayer prove)";
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

// A look that saves less than this is not worth a man's attention while there is work that will
// more likely than not mend something.
constexpr double trifle_minutes = 5;
constexpr double likely = 0.5;

void prefer_work_to_trifles(NextAnswer& answer) {
  if (answer.verdict != Verdict::look || answer.proposals.front().saving >= trifle_minutes) return;
  const auto work =
      std::find_if(answer.proposals.begin(), answer.proposals.end(), [](const ProposalLine& line) {
        return line.kind == ProposalLine::Kind::correction && line.mends >= likely;
      });
  if (work == answer.proposals.end()) return;
  std::rotate(answer.proposals.begin(), work, work + 1);
  answer.verdict = Verdict::correct;
}

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
  if (complaints.empty())
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
  prefer_work_to_trifles(out);
  if (planned->stuck) out.remarks.push_back(stuck_remark(moves, *planned->stuck));
  return out;
}

}  // namespace soot
