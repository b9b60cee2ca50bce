// open, tell, saw, gauge, strike: what goes into a job's record while looking.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/record.hpp"
#include "core/cli/understanding.hpp"
#include "core/model/job_words.hpp"
#include "core/model/words.hpp"
#include "core/workbench/entry_check.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>

namespace soot::cli {
namespace {

std::string on_cylinder(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format(" {}", cylinder);
}

Result<CameUp> read_came_up(const std::string& word) {
  if (const std::optional<CameUp> found = find_came_up(word)) return *found;
  return fail(Kind::use, "--came-up is '{}' (expected yes, no or doubtful)", word);
}

struct Typed {
  int cylinder = 0;
  std::string measure;
};

// "3=29.41mm" or "15 psi".
Result<Typed> read_typed(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos) return Typed{0, text};
  Typed typed;
  typed.measure = text.substr(equals + 1);
  const std::string_view number = trim(std::string_view{text}.substr(0, equals));
  const auto [end, error] =
      std::from_chars(number.data(), number.data() + number.size(), typed.cylinder);
  if (error != std::errc{} || end != number.data() + number.size())
    return fail(Kind::use, "'{}' does not begin with a cylinder (expected one, as 3=29.41mm)",
                text);
  return typed;
}

// A person at the terminal may insist on a value that cannot be; nobody else.
Result<void> accept_absurd(Session& session, const Engine& engine, const ReadingTaken& reading,
                           bool as_typed) {
  const std::optional<std::string> why = absurdity_of(engine, reading);
  if (!why || as_typed) return {};
  const std::optional<std::string> said =
      session.terminal().ask(*why + "\nEnter it all the same? (yes, or no) ");
  if (said && trim(*said) == "yes") return {};
  return fail(Kind::use, "{}{}", *why, said ? "" : "; --as-typed insists on it");
}

Result<ReadingTaken> read_reading(Session& session, const Engine& engine, const Gauge& request,
                                  const std::string& text) {
  const Result<Typed> typed = read_typed(text);
  if (!typed) return pass_on(typed);
  const Result<Measure> value = read_measure(typed->measure);
  if (!value) return pass_on(value);
  const Result<CameUp> came_up = read_came_up(request.came_up);
  if (!came_up) return pass_on(came_up);
  ReadingTaken reading;
  reading.quantity = request.quantity;
  reading.cylinder = typed->cylinder;
  reading.value = *value;
  reading.came_up = *came_up;
  if (!request.uncertainty.empty()) {
    const Result<Measure> uncertainty = read_measure(request.uncertainty);
    if (!uncertainty) return pass_on(uncertainty);
    reading.uncertainty = *uncertainty;
  }
  Problems faults = faults_of(engine, reading);
  if (!faults.empty()) return tl::unexpected<Problems>(std::move(faults));
  const Result<void> accepted = accept_absurd(session, engine, reading, request.as_typed);
  if (!accepted) return tl::unexpected<Problems>(accepted.error());
  return reading;
}

std::string said_of(const ReadingTaken& reading) {
  std::string said = fmt::format("gauged {}{} = {}", reading.quantity,
                                 on_cylinder(reading.cylinder), reading.value.as_written);
  if (reading.came_up == CameUp::no) said += ", turned back onto the mark";
  if (reading.came_up == CameUp::doubtful) said += ", doubtful how the mark was reached";
  return said;
}

}  // namespace

Result<void> run(Session& session, const Open& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<Engine> engine = (*bench)->engine(request.family);
  if (!engine) return pass_on(engine);
  const Result<ledger::Ledger*> ledger =
      session.ledger(ledger::Mode::write, Session::Missing::make);
  if (!ledger) return pass_on(ledger);
  const Family& family = engine->family;
  const Result<long> number = (*ledger)->open_job(
      {family.id, family.version, family.plugin_id, family.plugin_version, request.engine});
  if (!number) return pass_on(number);
  session.terminal().answer(
      fmt::format("job {}: opened on {}{}, {} cylinder{}, now the current job\n", *number,
                  family.id, request.engine.empty() ? "" : " '" + request.engine + "'",
                  family.cylinders, family.cylinders == 1 ? "" : "s"));
  return {};
}

Result<void> run(Session& session, const Tell& request) {
  ledger::Told told;
  told.words = request.words;
  if (!request.history.empty()) {
    if (std::find(histories.begin(), histories.end(), request.history) == histories.end()) {
      const std::vector<std::string> known(histories.begin(), histories.end());
      return fail(Kind::use, "'{}' is no history (expected one of {})", request.history,
                  fmt::join(known, ", "));
    }
    told.history = request.history;
  }
  if (told.words.empty() && !told.history)
    return fail(Kind::use, "nothing is told (expected words, --history, or both)");
  const Result<long> job = session.job_number(request.job);
  if (!job) return pass_on(job);
  std::string said = "told";
  if (!told.words.empty()) said += fmt::format(" \"{}\"", told.words);
  if (told.history)
    said += fmt::format("{} history {}", told.words.empty() ? "" : ",", *told.history);
  const Result<void> recorded = record(session, *job, {told}, {said});
  if (!recorded || told.words.empty()) return recorded;
  const Result<Meant> meant = session.meant(*job);
  if (!meant) return tl::unexpected<Problems>(meant.error());
  offer_heard(session, meant->engine, told.words);
  return {};
}

Result<void> run(Session& session, const Saw& request) {
  const Result<Meant> meant = session.meant(request.job);
  if (!meant) return pass_on(meant);
  if (request.absent && request.complaint)
    return fail(Kind::use,
                "what is absent cannot be the complaint (expected --absent or --complaint)");
  const Result<std::string> symptom = understood_symptom(session, meant->engine, request.symptom);
  if (!symptom) return tl::unexpected<Problems>(symptom.error());
  std::vector<int> cylinders = request.cylinders;
  if (cylinders.empty()) cylinders.push_back(0);
  std::vector<ledger::Payload> payloads;
  std::vector<std::string> said;
  for (const int cylinder : cylinders) {
    Observation seen;
    seen.symptom = *symptom;
    seen.cylinder = cylinder;
    Problems faults = faults_of(meant->engine, seen);
    if (!faults.empty()) return tl::unexpected<Problems>(std::move(faults));
    payloads.emplace_back(
        ledger::Saw{*symptom, cylinder, !request.absent, request.unsure, request.complaint});
    said.push_back(fmt::format(
        "saw {}{}: {}{}{}", *symptom, on_cylinder(cylinder), request.absent ? "absent" : "present",
        request.unsure ? ", unsure" : "", request.complaint ? ", the complaint" : ""));
    for (const Observation& earlier : meant->job.observations)
      if (earlier.symptom == *symptom && earlier.cylinder == cylinder &&
          earlier.present == request.absent) {
        said.back() += fmt::format(
            " (line {} says the opposite; from now on this one counts, both "
            "stay in the record)",
            earlier.line);
        break;
      }
  }
  return record(session, meant->header.number, payloads, said);
}

Result<void> run(Session& session, const Gauge& request) {
  const Result<Meant> meant = session.meant(request.job);
  if (!meant) return pass_on(meant);
  std::vector<ledger::Payload> payloads;
  std::vector<std::string> said;
  for (const std::string& text : request.readings) {
    const Result<ReadingTaken> reading = read_reading(session, meant->engine, request, text);
    if (!reading) return pass_on(reading);
    payloads.emplace_back(ledger::Gauged{reading->quantity, reading->cylinder, reading->value,
                                         reading->uncertainty, reading->came_up});
    said.push_back(said_of(*reading));
  }
  return record(session, meant->header.number, payloads, said);
}

Result<void> run(Session& session, const Strike& request) {
  const Result<ledger::Ledger*> ledger = session.ledger(ledger::Mode::write);
  if (!ledger) return pass_on(ledger);
  const Result<long> job = session.job_number(request.job);
  if (!job) return pass_on(job);
  const Result<long> line = (*ledger)->strike(*job, request.line, request.why);
  if (!line) return pass_on(line);
  session.terminal().answer(fmt::format("job {}, line {}: struck line {}, because: {}\n", *job,
                                        *line, request.line, request.why));
  return {};
}

}  // namespace soot::cli
