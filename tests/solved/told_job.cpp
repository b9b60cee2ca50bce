#include "tests/solved/told_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace soot::judges {
namespace {

constexpr int usual_cylinders = 4;

// The nearer to the engine's inside, the more it says.
constexpr std::array<std::string_view, 5> weightiest_first{
    "just-rebuilt", "just-serviced", "long-storage", "long-service", "ordinary"};

class JobBuilder {
 public:
  JobBuilder(const Engine& engine, const CodeMap& map) : engine_(engine), map_(map) {
    job_.family = engine.family.id;
  }

  void take(const std::string& kind, const ToldFinding& told, bool is_complaint) {
    const auto table = map_.find(kind);
    if (table == map_.end() || !table->second.contains(told.code)) {
      problems_.push_back(make_problem(Kind::data, "the map has no {} {}", kind, told.code));
      return;
    }
    const Mapped& mapped = table->second.at(told.code);
    if (!mapped.history.empty() && told.present) histories_.push_back(mapped.history);
    for (const MappedId& id : mapped.ids)
      observe(id.id, told.present != id.denied, is_complaint);
    if (!mapped.reading.empty()) measure(mapped, told);
  }

  Result<Job> finish() {
    if (!problems_.empty()) return tl::unexpected(std::move(problems_));
    for (const std::string_view history : weightiest_first)
      if (!job_.history && std::count(histories_.begin(), histories_.end(), history) > 0)
        job_.history = std::string{history};
    return std::move(job_);
  }

 private:
  static int where(Scope scope) { return scope == Scope::cylinder ? 1 : 0; }

  void observe(const std::string& id, bool present, bool is_complaint) {
    const Symptom* symptom = find_id(engine_.knowledge.symptoms, id);
    if (symptom == nullptr) return;
    Observation seen;
    seen.symptom = id;
    seen.cylinder = where(symptom->scope);
    seen.present = present;
    seen.complaint = is_complaint && present;
    seen.line = ++line_;
    job_.observations.push_back(std::move(seen));
  }

  void measure(const Mapped& mapped, const ToldFinding& told) {
    const Quantity* quantity = find_id(engine_.knowledge.quantities, mapped.reading);
    const bool has_value = !mapped.value.empty() || told.value.has_value();
    if (quantity == nullptr || !told.present || !has_value) return;
    const std::string text =
        mapped.value.empty() ? fmt::format("{} {}", *told.value, told.unit) : mapped.value;
    const Result<Measure> value = read_measure(text, quantity->dimension);
    if (!value) {
      problems_.push_back(make_problem(Kind::data, "{}: '{}' is no reading of {}", told.code, text,
                                       mapped.reading));
      return;
    }
    ReadingTaken taken;
    taken.quantity = quantity->id;
    taken.cylinder = where(quantity->scope);
    taken.value = *value;
    taken.line = ++line_;
    job_.readings.push_back(std::move(taken));
  }

  const Engine& engine_;
  const CodeMap& map_;
  Job job_;
  std::vector<std::string> histories_;
  Problems problems_;
  long line_ = 0;
};

}  // namespace

int cylinders_of(const ToldCase& told) {
  return told.cylinders.value_or(usual_cylinders);
}

std::set<std::string> features_of(const PlainEngines& engines, const ToldCase& told) {
  std::vector<std::string> needs{"oil-cooler"};  // these are engines of boats, tractors, cars
  if (told.strokes == 2) needs.emplace_back("two-stroke");
  if (told.chamber == "precombustion") {
    needs.emplace_back("prechamber");
    needs.emplace_back("heater-plugs");
  }
  if (told.use.find("hand-cranked") != std::string::npos) needs.emplace_back("hand-start");
  if (told.pump == "in-line") needs.emplace_back("in-line-pump");
  std::set<std::string> features = engines.with(engines.plain(cylinders_of(told)), needs);
  const bool single_pumps = told.pump == "individual" || told.pump == "unknown";
  if (!single_pumps)
    for (const std::string part : {"individual-pumps", "lifters", "jam-nut"})
      features.erase(part);
  return features;
}

Result<Job> job_of(const Engine& engine, const CodeMap& map, const ToldCase& told) {
  JobBuilder builder(engine, map);
  for (const std::string& code : told.context)
    builder.take("context", {code, true, std::nullopt, ""}, false);
  for (const std::string& code : told.complaint)
    builder.take("complaint", {code, true, std::nullopt, ""}, true);
  for (const ToldFinding& finding : told.findings)
    builder.take("finding", finding, false);
  return builder.finish();
}

}  // namespace soot::judges
