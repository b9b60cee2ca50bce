#include "core/workbench/page_builder.hpp"

#include "core/report/look.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

constexpr std::size_t causes_on_page = 3;
constexpr double worth_a_line = 0.05;

std::string on_cylinder(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format(" {}", cylinder);
}

std::string likeliest_on(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format(" (likeliest on {})", cylinder);
}

std::string on_cylinders(const std::vector<int>& cylinders) {
  return cylinders.empty() ? std::string{} : fmt::format(" {}", fmt::join(cylinders, ", "));
}

std::string with_note(std::string text, const std::string& note) {
  return note.empty() ? text : text + ": " + note;
}

std::string_view name_of(Proof proof) {
  constexpr std::string_view names[] = {"cured", "improved, not cured", "unchanged", "worse",
                                        "not tested"};
  return names[static_cast<std::size_t>(proof)];
}

struct LineWords {
  std::string operator()(const ledger::Told& told) const {
    std::string out = told.words.empty() ? "" : fmt::format("\"{}\"", told.words);
    if (told.history) out += fmt::format("{}history {}", out.empty() ? "" : "; ", *told.history);
    return out;
  }
  std::string operator()(const ledger::Saw& saw) const {
    return fmt::format("{}{}: {}{}{}", saw.symptom, on_cylinder(saw.cylinder),
                       saw.present ? "present" : "absent", saw.unsure ? ", unsure" : "",
                       saw.complaint ? ", the complaint" : "");
  }
  std::string operator()(const ledger::Gauged& gauged) const {
    std::string out = fmt::format("{}{} = {}", gauged.quantity, on_cylinder(gauged.cylinder),
                                  gauged.value.as_written);
    if (gauged.uncertainty) out += fmt::format(", uncertainty {}", gauged.uncertainty->as_written);
    if (gauged.came_up == CameUp::no) out += ", turned back onto the mark";
    if (gauged.came_up == CameUp::doubtful) out += ", doubtful how the mark was reached";
    return out;
  }
  std::string operator()(const ledger::Skipped& skipped) const {
    return with_note("cannot be done here: " + skipped.check, skipped.why);
  }
  std::string operator()(const ledger::Ranked& ranked) const {
    std::string out = "ranked";
    for (const ledger::RankedCause& cause : ranked.causes)
      out += fmt::format("{} {}{} {}", &cause == &ranked.causes.front() ? "" : ",", cause.cause,
                         likeliest_on(cause.cylinder), percent(cause.probability));
    return out;
  }
  std::string operator()(const ledger::Proposed& proposed) const {
    std::string out = fmt::format("advised ({})", proposed.verdict);
    for (const ledger::Move& move : proposed.moves)
      out += fmt::format("{} {}{}, {}", &move == &proposed.moves.front() ? ":" : ";", move.id,
                         on_cylinders(move.cylinders), duration(move.minutes));
    return out;
  }
  std::string operator()(const ledger::Done& done) const {
    std::string out = with_note(done.correction + on_cylinders(done.cylinders), done.note);
    if (!done.parts.empty()) out += "; parts: " + done.parts;
    if (done.minutes) out += "; took " + duration(*done.minutes);
    return out;
  }
  std::string operator()(const ledger::Proved& proved) const {
    return with_note(std::string{name_of(proved.result)}, proved.note);
  }
  std::string operator()(const ledger::Closed& closed) const {
    std::string out = "closed";
    for (const Truth& truth : closed.causes)
      out += fmt::format("{} {}{}", &truth == &closed.causes.front() ? ", it was" : " and",
                         truth.cause, on_cylinder(truth.cylinder));
    return with_note(out, closed.note);
  }
  std::string operator()(const ledger::Reopened& reopened) const {
    return with_note("reopened", reopened.why);
  }
  std::string operator()(const ledger::Noted& noted) const { return noted.words; }
  std::string operator()(const ledger::Struck& struck_line) const {
    return with_note(fmt::format("struck line {}", struck_line.line), struck_line.reason);
  }
};

std::vector<PageLine>& section_of(Page& page, const ledger::Payload& payload) {
  if (std::holds_alternative<ledger::Told>(payload)) return page.complaint;
  if (const auto* saw = std::get_if<ledger::Saw>(&payload); saw != nullptr && saw->complaint)
    return page.complaint;
  if (std::holds_alternative<ledger::Saw>(payload) ||
      std::holds_alternative<ledger::Gauged>(payload))
    return page.evidence;
  if (std::holds_alternative<ledger::Skipped>(payload)) return page.evidence;
  if (std::holds_alternative<ledger::Ranked>(payload) ||
      std::holds_alternative<ledger::Proposed>(payload))
    return page.advice;
  if (std::holds_alternative<ledger::Done>(payload)) return page.correction;
  if (std::holds_alternative<ledger::Proved>(payload)) return page.confirmation;
  return page.other;
}

// What the standing closing line says it was.
std::vector<Truth> closed_causes(const std::vector<ledger::Entry>& entries) {
  std::vector<Truth> out;
  for (const ledger::Entry& entry : entries)
    if (const auto* closed = std::get_if<ledger::Closed>(&entry.payload);
        closed != nullptr && !entry.crossed_out)
      out = closed->causes;
  return out;
}

std::string cause_words(const Engine* engine, const std::string& id, int cylinder,
                        const std::string& standing) {
  const Cause* cause = engine != nullptr ? find_id(engine->knowledge.causes, id) : nullptr;
  return fmt::format("{}{}, {}{}", id, on_cylinder(cylinder), standing,
                     cause != nullptr ? ": " + cause->name : "");
}

bool mends(const Correction& correction, const ledger::Done& done,
           const ledger::RankedCause& cause) {
  const bool here = correction.scope == Scope::engine || cause.cylinder == 0 ||
                    std::count(done.cylinders.begin(), done.cylinders.end(), cause.cylinder) > 0;
  return here && std::any_of(correction.mends.begin(), correction.mends.end(),
                             [&](const Mend& mend) { return mend.cause == cause.cause; });
}

// For each piece of work that stands: the cause it was done for, by the ranking before it.
std::vector<std::string> worked_on(const std::vector<ledger::Entry>& entries,
                                   const Engine& engine) {
  std::vector<std::string> out;
  const ledger::Ranked* ranked = nullptr;
  for (const ledger::Entry& entry : entries) {
    if (const auto* found = std::get_if<ledger::Ranked>(&entry.payload)) ranked = found;
    const auto* done = std::get_if<ledger::Done>(&entry.payload);
    if (done == nullptr || entry.crossed_out || ranked == nullptr) continue;
    const Correction* correction = find_id(engine.knowledge.corrections, done->correction);
    if (correction == nullptr) continue;
    const auto cause = std::find_if(
        ranked->causes.begin(), ranked->causes.end(),
        [&](const ledger::RankedCause& one) { return mends(*correction, *done, one); });
    if (cause != ranked->causes.end())
      out.push_back(cause_words(
          &engine, cause->cause, cause->cylinder,
          fmt::format("{} before the work of line {}", percent(cause->probability), entry.line)));
  }
  return out;
}

bool is_cured(const std::vector<ledger::Entry>& entries) {
  bool cured = false;
  for (const ledger::Entry& entry : entries)
    if (const auto* proved = std::get_if<ledger::Proved>(&entry.payload);
        proved != nullptr && !entry.crossed_out)
      cured = proved->result == Proof::cured;
  return cured;
}

void add_left_open(Page& page, const std::vector<ledger::Entry>& entries) {
  const ledger::Entry* last_proof = nullptr;
  const ledger::Entry* last_work = nullptr;
  for (const ledger::Entry& entry : entries) {
    if (entry.crossed_out) continue;
    if (std::holds_alternative<ledger::Proved>(entry.payload)) last_proof = &entry;
    if (std::holds_alternative<ledger::Done>(entry.payload)) last_work = &entry;
  }
  if (last_work != nullptr && (last_proof == nullptr || last_proof->line < last_work->line))
    page.left_open.push_back("the last correction is not proved yet");
  if (last_proof != nullptr && std::get<ledger::Proved>(last_proof->payload).result != Proof::cured)
    page.left_open.push_back("the complaint is not cured: the last run says " +
                             words_of(last_proof->payload));
}

}  // namespace

std::string words_of(const ledger::Payload& payload) {
  return std::visit(LineWords{}, payload);
}

Page build_page(const ledger::Header& header, const std::vector<ledger::Entry>& entries,
                const Engine* engine, const RankAnswer* rank) {
  Page page;
  page.job = header.number;
  page.engine_name = header.opened_with.engine;
  page.family = header.opened_with.family;
  page.family_name = engine != nullptr ? engine->family.name : header.opened_with.family;
  page.served_by =
      fmt::format("plugin {} {}, family version {}", header.opened_with.plugin,
                  header.opened_with.plugin_version, header.opened_with.family_version);
  page.opened_at = header.opened_at;
  page.is_open = header.is_open;
  for (const ledger::Entry& entry : entries) {
    PageLine line{entry.line, entry.at, words_of(entry.payload), entry.crossed_out.has_value(),
                  entry.crossed_out ? entry.crossed_out->reason : ""};
    if (const auto* told = std::get_if<ledger::Told>(&entry.payload))
      if (told->history && !entry.crossed_out) page.history = *told->history;
    section_of(page, entry.payload).push_back(std::move(line));
  }
  for (const Truth& truth : closed_causes(entries)) {
    page.causes.push_back(
        cause_words(engine, truth.cause, truth.cylinder, "as the job was closed"));
  }
  // What the engine was mended of is the cause; what is left afterwards is none.
  if (engine != nullptr && page.causes.empty() && is_cured(entries))
    page.causes = worked_on(entries, *engine);
  if (page.causes.empty() && is_cured(entries))
    page.causes.emplace_back("not named (sootsayer close --cause CAUSE says it)");
  if (rank != nullptr && page.causes.empty()) {
    for (std::size_t i = 0; i < std::min(causes_on_page, rank->by_cause.size()); ++i) {
      const CauseLine& cause = rank->by_cause[i];
      if (i > 0 && cause.probability < worth_a_line) break;
      page.causes.push_back(
          cause_words(engine, cause.id, cause.cylinder, percent(cause.probability)));
    }
  }
  add_left_open(page, entries);
  return page;
}

}  // namespace soot
