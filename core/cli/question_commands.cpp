// rank, weigh, next, steps: what is asked of a job. On the ledger the answer at the time is noted
// in the record, once for each state of the evidence.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/report/json.hpp"
#include "core/report/rank_text.hpp"
#include "core/report/steps.hpp"
#include "core/workbench/form_builder.hpp"
#include "core/workbench/next.hpp"
#include "core/workbench/rank.hpp"
#include "core/workbench/steps_builder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot::cli {
namespace {

constexpr std::size_t causes_noted = 3;
constexpr std::size_t moves_noted = 3;

template <class Answer>
void give(Session& session, const Answer& answer, bool as_json, std::string text) {
  session.terminal().answer(as_json ? to_json(answer) : text);
}

// The last line of its kind that stands, if nothing that changes the answer came after it.
template <class Kind>
bool is_noted_already(const Meant& meant) {
  for (auto entry = meant.entries.rbegin(); entry != meant.entries.rend(); ++entry) {
    if (std::holds_alternative<Kind>(entry->payload)) return !entry->crossed_out;
    const bool is_advice = std::holds_alternative<ledger::Ranked>(entry->payload) ||
                           std::holds_alternative<ledger::Proposed>(entry->payload) ||
                           std::holds_alternative<ledger::Noted>(entry->payload);
    if (!is_advice) return false;
  }
  return false;
}

Result<void> note(Session& session, const Meant& meant, const ledger::Payload& payload) {
  const Result<ledger::Ledger*> ledger = session.ledger(ledger::Mode::write);
  if (!ledger) return pass_on(ledger);
  const Result<long> line = (*ledger)->append(meant.header.number, payload);
  if (!line) return pass_on(line);
  return {};
}

ledger::Ranked ranked_of(const RankAnswer& answer) {
  ledger::Ranked ranked;
  for (std::size_t i = 0; i < std::min(causes_noted, answer.by_cause.size()); ++i)
    ranked.causes.push_back(
        {answer.by_cause[i].id, answer.by_cause[i].cylinder, answer.by_cause[i].probability});
  return ranked;
}

ledger::Proposed proposed_of(const NextAnswer& answer) {
  ledger::Proposed proposed;
  proposed.verdict = name_of(answer.verdict);
  for (std::size_t i = 0; i < std::min(moves_noted, answer.proposals.size()); ++i) {
    const ProposalLine& line = answer.proposals[i];
    proposed.moves.push_back(
        {std::string{name_of(line.kind)}, line.id, line.cylinders, line.minutes});
  }
  return proposed;
}

std::vector<std::string> skipped_before(const std::optional<Meant>& meant) {
  std::vector<std::string> out;
  if (!meant) return out;
  for (const ledger::Entry& entry : meant->entries)
    if (const auto* skipped = std::get_if<ledger::Skipped>(&entry.payload);
        skipped != nullptr && !entry.crossed_out)
      out.push_back(skipped->check);
  return out;
}

}  // namespace

Result<void> run(Session& session, const Rank& request) {
  const Result<Subject> subject = subject_of(session, request.about);
  if (!subject) return pass_on(subject);
  const Result<Inquiry> inquiry = inquire(subject->engine, subject->job);
  if (!inquiry) return pass_on(inquiry);
  const Result<RankAnswer> answer =
      rank(subject->engine, *inquiry, request.fit ? Fit::judge : Fit::skip);
  if (!answer) return pass_on(answer);
  give(session, *answer, request.about.as_json, to_text(*answer, session.look(), request.shown));
  if (!subject->meant || !subject->meant->header.is_open || answer->by_cause.empty() ||
      is_noted_already<ledger::Ranked>(*subject->meant))
    return {};
  return note(session, *subject->meant, ranked_of(*answer));
}

Result<void> run(Session& session, const Weigh& request) {
  const Result<Subject> subject = subject_of(session, request.about);
  if (!subject) return pass_on(subject);
  const Result<Inquiry> inquiry = inquire(subject->engine, subject->job);
  if (!inquiry) return pass_on(inquiry);
  const Result<WeighAnswer> answer =
      weigh(subject->engine, *inquiry, request.cause, request.cylinder);
  if (!answer) return pass_on(answer);
  give(session, *answer, request.about.as_json, to_text(*answer, session.look()));
  return {};
}

Result<void> run(Session& session, const Next& request) {
  const Result<Subject> subject = subject_of(session, request.about);
  if (!subject) return pass_on(subject);
  std::vector<std::string> skipped = skipped_before(subject->meant);
  for (const std::string& id : request.skip) {
    if (find_id(subject->engine.knowledge.checks, id) == nullptr)
      return fail(Kind::use, "'{}' is no check of {}{}", id, subject->engine.family.id,
                  did_you_mean(id, ids_of(subject->engine.knowledge.checks)));
    if (subject->meant) {
      const Result<void> noted = note(session, *subject->meant, ledger::Skipped{id, request.why});
      if (!noted) return noted;
    }
    skipped.push_back(id);
  }
  const Result<Inquiry> inquiry = inquire(subject->engine, subject->job);
  if (!inquiry) return pass_on(inquiry);
  Result<NextAnswer> answer = next(subject->engine, *inquiry, skipped);
  if (!answer) return pass_on(answer);
  for (const std::string& id : skipped)
    answer->remarks.push_back(fmt::format("left out, since it cannot be done here: {}", id));
  give(session, *answer, request.about.as_json, to_text(*answer, session.look()));
  const bool is_new = !request.skip.empty() ||
                      (subject->meant && !is_noted_already<ledger::Proposed>(*subject->meant));
  if (!subject->meant || !subject->meant->header.is_open || !is_new) return {};
  return note(session, *subject->meant, proposed_of(*answer));
}

Result<void> run(Session& session, const Steps& request) {
  if (request.id.empty() && !request.as_form)
    return fail(Kind::use, "steps of what (expected a check, correction or procedure, or --sheet)");
  std::optional<Engine> engine;
  std::optional<Job> job;
  if (!request.family.empty()) {
    const Result<const Bench*> bench = session.bench();
    if (!bench) return pass_on(bench);
    const Result<Engine> found = (*bench)->engine(request.family);
    if (!found) return pass_on(found);
    engine = *found;
  } else {
    const Result<Subject> subject = subject_of(session, About{{}, request.job, false});
    if (!subject) return pass_on(subject);
    engine = subject->engine;
    job = subject->job;
  }
  if (request.as_form) {
    const Result<BenchForm> form = form_of(*engine, request.id);
    if (!form) return pass_on(form);
    session.terminal().answer(to_text(*form, session.look()));
    return {};
  }
  const Result<StepsSheet> sheet = steps_of(*engine, request.id, job ? &*job : nullptr);
  if (!sheet) return pass_on(sheet);
  session.terminal().answer(to_text(*sheet, session.look()));
  return {};
}

}  // namespace soot::cli
