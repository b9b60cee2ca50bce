// done, prove, close, reopen, page, jobs: what is done about it, and the record.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/record.hpp"
#include "core/ledger/job_of.hpp"
#include "core/model/job_words.hpp"
#include "core/report/jobs_text.hpp"
#include "core/report/json.hpp"
#include "core/report/page.hpp"
#include "core/workbench/entry_check.hpp"
#include "core/workbench/inquiry.hpp"
#include "core/workbench/page_builder.hpp"
#include "core/workbench/rank.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>

namespace soot::cli {
namespace {

// "lifter-one" or "lifter-one:3".
Result<Truth> read_truth(const Engine& engine, const std::string& text) {
  Truth truth;
  const std::size_t colon = text.find(':');
  truth.cause = text.substr(0, colon);
  if (colon != std::string::npos) {
    const std::string number = text.substr(colon + 1);
    const auto [end, error] =
        std::from_chars(number.data(), number.data() + number.size(), truth.cylinder);
    if (error != std::errc{} || end != number.data() + number.size() || truth.cylinder < 1 ||
        truth.cylinder > engine.family.cylinders)
      return fail(Kind::use, "'{}' names no cylinder of {} (expected CAUSE:CYLINDER, 1 to {})",
                  text, engine.family.id, engine.family.cylinders);
  }
  if (find_id(engine.knowledge.causes, truth.cause) == nullptr)
    return fail(Kind::use, "'{}' is no cause of {}{}", truth.cause, engine.family.id,
                did_you_mean(truth.cause, ids_of(engine.knowledge.causes)));
  return truth;
}

}  // namespace

Result<void> run(Session& session, const Done& request) {
  const Result<Meant> meant = session.meant(request.job);
  if (!meant) return pass_on(meant);
  WorkDone work;
  work.correction = request.correction;
  work.cylinders = request.cylinders;
  Problems faults = faults_of(meant->engine, work);
  if (!faults.empty()) return tl::unexpected<Problems>(std::move(faults));
  std::string said = "done " + request.correction;
  if (!request.cylinders.empty()) said += fmt::format(" {}", fmt::join(request.cylinders, ", "));
  if (!request.note.empty()) said += ": " + request.note;
  return record(session, meant->header.number,
                {ledger::Done{request.correction, request.cylinders, request.note, request.parts,
                              request.minutes}},
                {said});
}

Result<void> run(Session& session, const Prove& request) {
  const std::optional<Proof> result = find_proof(request.result);
  if (!result)
    return fail(Kind::use, "'{}' is no result of a run (expected one of {})", request.result,
                fmt::join(proof_words, ", "));
  const Result<long> job = session.job_number(request.job);
  if (!job) return pass_on(job);
  std::string said = "proved: " + request.result;
  if (!request.note.empty()) said += ", " + request.note;
  return record(session, *job, {ledger::Proved{*result, request.note}}, {said});
}

Result<void> run(Session& session, const Close& request) {
  const Result<Meant> meant = session.meant(request.job);
  if (!meant) return pass_on(meant);
  ledger::Closed closed;
  closed.note = request.note;
  for (const std::string& text : request.causes) {
    const Result<Truth> truth = read_truth(meant->engine, text);
    if (!truth) return pass_on(truth);
    closed.causes.push_back(*truth);
  }
  std::string said = "closed";
  const bool is_proved =
      !meant->job.proofs.empty() && meant->job.proofs.back().result == Proof::cured;
  if (!is_proved) said += " (no run has shown the complaint cured; reopen takes it up again)";
  return record(session, meant->header.number, {closed}, {said});
}

Result<void> run(Session& session, const Reopen& request) {
  const Result<long> job = session.job_number(request.job);
  if (!job) return pass_on(job);
  return record(session, *job, {ledger::Reopened{request.why}},
                {request.why.empty() ? "reopened" : "reopened: " + request.why});
}

// The page must come even when the family's plugin is gone or the knowledge has moved on.
Result<void> run(Session& session, const Page& request) {
  const Result<ledger::Ledger*> ledger = session.ledger(ledger::Mode::read);
  if (!ledger) return pass_on(ledger);
  const Result<long> number = session.job_number(request.job);
  if (!number) return pass_on(number);
  const Result<ledger::Header> header = (*ledger)->job(*number);
  if (!header) return pass_on(header);
  const Result<std::vector<ledger::Entry>> entries = (*ledger)->entries(*number);
  if (!entries) return pass_on(entries);

  std::optional<Engine> engine;
  std::optional<RankAnswer> ranked;
  if (const Result<const Bench*> bench = session.bench())
    if (Result<Engine> found = (*bench)->engine(header->opened_with.family))
      engine = std::move(*found);
  const Job job = ledger::job_of(*header, *entries);
  const bool has_evidence = !job.observations.empty() || !job.readings.empty();
  if (engine && has_evidence)
    if (const Result<Inquiry> inquiry = inquire(*engine, job))
      if (Result<RankAnswer> answer = rank(*engine, *inquiry)) ranked = std::move(*answer);
  soot::Page page =
      build_page(*header, *entries, engine ? &*engine : nullptr, ranked ? &*ranked : nullptr);
  if (!engine)
    page.left_open.push_back(
        fmt::format("family {} is not at hand on this machine", header->opened_with.family));
  session.terminal().answer(to_text(page, session.look()));
  return {};
}

Result<void> run(Session& session, const Jobs& request) {
  const auto mode = request.take_up ? ledger::Mode::write : ledger::Mode::read;
  const Result<ledger::Ledger*> ledger = session.ledger(mode);
  if (!ledger) return pass_on(ledger);
  if (request.take_up) {
    const Result<void> set = (*ledger)->set_current(*request.take_up);
    if (!set) return set;
    session.terminal().answer(fmt::format("job {} is now the current one\n", *request.take_up));
    return {};
  }
  const auto jobs = (*ledger)->jobs(request.all ? ledger::Which::all : ledger::Which::open);
  if (!jobs) return pass_on(jobs);
  const Result<std::optional<long>> current = (*ledger)->current();
  if (!current) return pass_on(current);
  std::vector<JobLine> lines;
  for (const ledger::Summary& summary : *jobs)
    lines.push_back({summary.header.number, summary.header.opened_with.family,
                     summary.header.opened_with.engine, summary.header.opened_at, summary.last_at,
                     summary.header.is_open, *current == summary.header.number, summary.lines,
                     summary.words});
  session.terminal().answer(request.as_json ? to_json(lines) : to_text(lines, session.look()));
  return {};
}

}  // namespace soot::cli
