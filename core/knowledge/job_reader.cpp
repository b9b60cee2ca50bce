#include "core/knowledge/job_reader.hpp"

#include "core/base/text.hpp"
#include "core/knowledge/fields.hpp"
#include "core/model/job_words.hpp"
#include "core/model/words.hpp"
#include "core/table/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace soot {
namespace {

constexpr long greatest_cylinder = 99;
constexpr int most_within = 999;

/// One thing that happened, with the number that shall tell its place in time.
struct Event {
  Place place;
  long* line;
};

int checked_cylinder(Reader& table, std::string_view key, long cylinder) {
  if (cylinder >= 1 && cylinder <= greatest_cylinder) return static_cast<int>(cylinder);
  table.complain(key, fmt::format("{} is no cylinder (expected a number from 1, left out for the "
                                  "engine as a whole)",
                                  cylinder));
  return 0;
}

int read_cylinder(Reader& table) {
  const std::optional<long> cylinder = table.integer("cylinder");
  return cylinder ? checked_cylinder(table, "cylinder", *cylinder) : 0;
}

template <class Words>
void complain_of_word(Reader& table, std::string_view key, std::string_view word,
                      const Words& words) {
  const std::vector<std::string> known(words.begin(), words.end());
  table.complain(key, fmt::format("{} is '{}' (expected {}){}", key, word, fmt::join(words, ", "),
                                  did_you_mean(word, known)));
}

std::optional<std::string> read_history(Reader& root) {
  const std::optional<std::string> history = root.text("history");
  if (history && std::find(histories.begin(), histories.end(), *history) == histories.end())
    complain_of_word(root, "history", *history, histories);
  return history;
}

/// Every 0 of the pattern stands for a digit.
bool has_form(std::string_view text, std::string_view pattern) {
  return std::equal(
      text.begin(), text.end(), pattern.begin(), pattern.end(),
      [](char c, char form) { return form == '0' ? c >= '0' && c <= '9' : c == form; });
}

std::string read_time(Reader& root) {
  const std::string at = root.text("at").value_or("");
  if (!at.empty() && !has_form(at, "0000-00-00T00:00:00Z") && !has_form(at, "0000-00-00"))
    root.complain("at",
                  fmt::format("at is '{}' (expected a time in UTC, as 2031-04-02T09:10:00Z)", at));
  return at;
}

Observation read_observation(Reader table) {
  Observation seen;
  seen.symptom = table.needed_text("id");
  seen.cylinder = read_cylinder(table);
  seen.present = table.boolean("present").value_or(true);
  seen.unsure = table.boolean("unsure").value_or(false);
  seen.complaint = table.boolean("complaint").value_or(false);
  seen.place = table.place();
  if (seen.complaint && !seen.present)
    table.complain("complaint", "an absent symptom is no complaint (expected present = true)");
  table.done();
  return seen;
}

void check_uncertainty(Reader& table, const Measure& uncertainty) {
  if (uncertainty.bound != Bound::none)
    table.complain("uncertainty", fmt::format("uncertainty '{}' is a bound (expected a figure)",
                                              uncertainty.as_written));
}

ReadingTaken read_reading(Reader table) {
  ReadingTaken taken;
  taken.quantity = table.needed_text("quantity");
  taken.cylinder = read_cylinder(table);
  if (!table.has("value"))
    table.complain("value", "value is missing (expected a number with its unit, as \"29.41 mm\")");
  const std::optional<Measure> value = table.measure("value");
  taken.uncertainty = table.measure("uncertainty");
  if (taken.uncertainty) check_uncertainty(table, *taken.uncertainty);
  taken.value = value.value_or(Measure{});
  if (const std::optional<std::string> word = table.text("came-up")) {
    if (const std::optional<CameUp> came_up = find_came_up(*word))
      taken.came_up = *came_up;
    else
      complain_of_word(table, "came-up", *word, came_up_words);
  }
  taken.place = table.place();
  table.done();
  return taken;
}

WorkDone read_work(Reader table) {
  WorkDone work;
  work.correction = table.needed_text("correction");
  for (const long cylinder : table.integers("cylinders"))
    work.cylinders.push_back(checked_cylinder(table, "cylinders", cylinder));
  work.note = table.text("note").value_or("");
  work.place = table.place();
  table.done();
  return work;
}

ProvingRun read_proof(Reader table) {
  ProvingRun run;
  const std::string word = table.needed_text("result");
  if (const std::optional<Proof> result = find_proof(word))
    run.result = *result;
  else if (!word.empty())
    complain_of_word(table, "result", word, proof_words);
  run.note = table.text("note").value_or("");
  table.done();
  return run;
}

EngineState read_state(Reader table) {
  EngineState state;
  state.covers_off = table.texts("covers");
  const bool head_is_off = table.boolean("head-off").value_or(false);
  const bool is_listed = std::find(state.covers_off.begin(), state.covers_off.end(), head_cover) !=
                         state.covers_off.end();
  if (head_is_off && !is_listed) state.covers_off.emplace_back(head_cover);
  state.running = table.boolean("running").value_or(false);
  state.hot = table.boolean("hot").value_or(false);
  table.done();
  return state;
}

CaseSheet read_sheet(Reader table) {
  CaseSheet sheet;
  sheet.title = table.needed_text("title");
  sheet.story = table.text("story").value_or("");
  sheet.route = table.text("route").value_or("");
  sheet.source = table.text("source").value_or("");
  for (Reader& cause : table.tables("cause")) {
    Truth truth;
    truth.cause = cause.needed_text("id");
    truth.cylinder = read_cylinder(cause);
    truth.grade = cause.text("grade").value_or(std::string{only_grade});
    truth.within = read_whole(cause, "within", 1, most_within, 0);
    cause.done();
    sheet.truth.push_back(truth);
  }
  table.done();
  return sheet;
}

void number_events(std::vector<Event> events) {
  std::sort(events.begin(), events.end(), [](const Event& a, const Event& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  long position = 0;
  for (const Event& event : events)
    *event.line = ++position;
}

/// Fills in what happened, each kind in the order of the file, and numbers it all through.
void read_events(Reader& root, Job& job) {
  std::vector<Place> proof_places;
  for (const Reader& table : root.tables("symptom"))
    job.observations.push_back(read_observation(table));
  for (const Reader& table : root.tables("reading"))
    job.readings.push_back(read_reading(table));
  for (const Reader& table : root.tables("work"))
    job.work.push_back(read_work(table));
  for (const Reader& table : root.tables("proof")) {
    job.proofs.push_back(read_proof(table));
    proof_places.push_back(table.place());
  }
  std::vector<Event> events;
  for (Observation& seen : job.observations)
    events.push_back({seen.place, &seen.line});
  for (ReadingTaken& taken : job.readings)
    events.push_back({taken.place, &taken.line});
  for (WorkDone& work : job.work)
    events.push_back({work.place, &work.line});
  for (std::size_t i = 0; i < job.proofs.size(); ++i)
    events.push_back({proof_places[i], &job.proofs[i].line});
  number_events(std::move(events));
}

Result<Job> job_in(Document document) {
  Reader root = document.root();
  Job job;
  job.family = root.needed_text("family");
  job.history = read_history(root);
  job.at = read_time(root);
  if (root.has("tools")) job.tools = root.texts("tools");
  if (const std::optional<Reader> state = root.table("state")) job.state = read_state(*state);
  read_events(root, job);
  if (const std::optional<Reader> sheet = root.table("case")) job.sheet = read_sheet(*sheet);
  root.done();
  Problems problems = document.problems();
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  return job;
}

}  // namespace

Result<Job> read_job(std::string name, std::string text) {
  Result<Document> document = Document::parse(std::move(name), std::move(text));
  if (!document) return pass_on(document);
  return job_in(std::move(*document));
}

Result<Job> load_job(const std::filesystem::path& path) {
  Result<Document> document = Document::load(path);
  if (!document) return pass_on(document);
  return job_in(std::move(*document));
}

}  // namespace soot
