#include "tests/handbook/recall.hpp"

#include "tests/judges/best_cover.hpp"
#include "tests/judges/ranking.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>

namespace soot::judges {
namespace {

constexpr int cylinders = 4;
constexpr std::size_t listed = 10;  // of the ceiling

bool is_complaint(const std::string& code) {
  return !code.ends_with("-found") && !code.ends_with("-event");
}

struct Question {
  const Engine* engine = nullptr;
  std::string symptom;
  std::string history;
  auto operator<=>(const Question&) const = default;
};

class Asker {
 public:
  Asker(PlainEngines& engines, const CodeMap& map) : engines_(engines), map_(map) {}

  Result<void> take(const Row& row) {
    if (row.at("applies") != "yes") return refuse(row);
    if (!is_complaint(row.at("symptom_code"))) {
      out_.left_out.push_back(unasked(row, "is found by a check or happens, no complaint"));
      return {};
    }
    const Mapped* symptom = mapped("symptom", row.at("symptom_code"));
    const Mapped* cause = mapped("cause", row.at("cause_code"));
    const std::string why = reason(row, symptom, cause);
    if (!why.empty()) return miss(row, symptom, cause, why);
    const Result<Question> question = question_of(row, *symptom, *cause);
    if (!question) return tl::unexpected(question.error());
    const auto* list = ask(*question);
    if (list == nullptr) return tl::unexpected(problems_);
    wanted_[*question].push_back(ids_of(*cause));
    out_.asked.push_back({row.at("source"), row.at("symptom_code"), row.at("condition"),
                          row.at("cause_code"), place_of(*list, cause->ids), cause->ids.size(),
                          beyond_plain(*question->engine)});
    return {};
  }

  Recall finish() {
    for (const auto& [question, rows] : wanted_)
      out_.ceiling += best_cover(rows, listed);
    return std::move(out_);
  }

 private:
  const Mapped* mapped(const std::string& kind, const std::string& code) const {
    const auto table = map_.find(kind);
    if (table == map_.end()) return nullptr;
    const auto found = table->second.find(code);
    return found == table->second.end() ? nullptr : &found->second;
  }

  static UnaskedRow unasked(const Row& row, std::string why) {
    return {row.at("source"), row.at("symptom_code"), row.at("cause_code"), std::move(why)};
  }

  static std::set<std::string> ids_of(const Mapped& cause) {
    std::set<std::string> ids;
    for (const MappedId& id : cause.ids)
      ids.insert(id.id);
    return ids;
  }

  // Why a complaint cannot be put, or nothing.
  std::string reason(const Row& row, const Mapped* symptom, const Mapped* cause) const {
    if (symptom == nullptr) return "the map does not know the symptom";
    if (cause == nullptr) return "the map does not know the cause";
    if (!symptom->left_out.empty()) return "symptom left out: " + symptom->left_out;
    if (!cause->left_out.empty()) return "cause left out: " + cause->left_out;
    if (symptom->ids.size() != 1) return row.at("symptom_code") + " is not one sign";
    if (find_id(engines_.knowledge().symptoms, symptom->ids.front().id) == nullptr)
      return "the knowledge lacks the symptom " + symptom->ids.front().id;
    if (known_causes(*cause).empty())
      return fmt::format("the knowledge lacks the cause {}", fmt::join(ids_of(*cause), ", "));
    return {};
  }

  std::vector<const Cause*> known_causes(const Mapped& mapped) const {
    std::vector<const Cause*> known;
    for (const MappedId& id : mapped.ids)
      if (const Cause* cause = find_id(engines_.knowledge().causes, id.id)) known.push_back(cause);
    return known;
  }

  // The plain engine if it can have the symptom and one of the causes, else one with the parts that
  // the first cause needs.
  Result<Question> question_of(const Row& row, const Mapped& symptom, const Mapped& cause) {
    const Symptom& sign = get_id(engines_.knowledge().symptoms, symptom.ids.front().id);
    Question question{nullptr, sign.id,
                      row.at("condition") == "after-rebuild" ? "just-rebuilt" : ""};
    const std::set<std::string> base = engines_.with(engines_.plain(cylinders), sign.needs);
    const Result<const Engine*> plain = engines_.engine(cylinders, base);
    if (!plain) return pass_on(plain);
    question.engine = *plain;
    for (const MappedId& id : cause.ids)
      if (find_id((*plain)->knowledge.causes, id.id) != nullptr) return question;
    const Cause& first = *known_causes(cause).front();
    std::set<std::string> features = engines_.with(base, first.needs);
    for (const std::string& without : first.without)
      features.erase(without);
    const Result<const Engine*> other = engines_.engine(cylinders, features);
    if (!other) return pass_on(other);
    question.engine = *other;
    return question;
  }

  const std::vector<CauseLine>* ask(const Question& question) {
    const auto known = answers_.find(question);
    if (known != answers_.end()) return &known->second;
    Job job;
    job.family = question.engine->family.id;
    if (!question.history.empty()) job.history = question.history;
    Observation seen;
    seen.symptom = question.symptom;
    seen.complaint = true;
    seen.line = 1;
    const Symptom& sign = get_id(question.engine->knowledge.symptoms, question.symptom);
    seen.cylinder = sign.scope == Scope::cylinder ? 1 : 0;
    job.observations.push_back(seen);
    Result<std::vector<CauseLine>> list = ranked_causes(*question.engine, job);
    if (!list) {
      problems_ = list.error();
      return nullptr;
    }
    return &(answers_[question] = std::move(*list));
  }

  std::string beyond_plain(const Engine& engine) const {
    const std::set<std::string> plain = engines_.plain(cylinders);
    std::vector<std::string> more;
    for (const std::string& feature : engine.family.features)
      if (!plain.contains(feature)) more.push_back(feature);
    return fmt::format("{}", fmt::join(more, ", "));
  }

  // A code that the map leaves out could still have been answered, by one cause.
  Result<void> miss(const Row& row, const Mapped* symptom, const Mapped* cause,
                    const std::string& why) {
    std::set<std::string> ids{"code " + row.at("cause_code")};
    if (cause != nullptr && !cause->ids.empty()) ids = ids_of(*cause);
    const std::string sign = symptom != nullptr && !symptom->ids.empty()
                                 ? symptom->ids.front().id
                                 : "code " + row.at("symptom_code");
    wanted_[{nullptr, sign, row.at("condition") == "after-rebuild" ? "just-rebuilt" : ""}]
        .push_back(ids);
    out_.missed.push_back(unasked(row, why));
    return {};
  }

  // An engine without the part must not be offered its fault.
  Result<void> refuse(const Row& row) {
    ++out_.refused;
    const Mapped* cause = mapped("cause", row.at("cause_code"));
    if (cause == nullptr) return {};
    const Result<const Engine*> plain = engines_.engine(cylinders, engines_.plain(cylinders));
    if (!plain) return tl::unexpected(plain.error());
    for (const MappedId& id : cause->ids)
      if (find_id((*plain)->knowledge.causes, id.id) != nullptr)
        out_.violations.push_back(unasked(row, id.id + " is offered to an engine without it"));
    return {};
  }

  PlainEngines& engines_;
  const CodeMap& map_;
  Recall out_;
  Problems problems_;
  std::map<Question, std::vector<CauseLine>> answers_;
  std::map<Question, std::vector<std::set<std::string>>> wanted_;
};

double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0 : static_cast<double>(part) / static_cast<double>(whole);
}

}  // namespace

double Recall::share_within(std::size_t places) const {
  const auto within = std::count_if(asked.begin(), asked.end(), [&](const AskedRow& row) {
    return row.place != 0 && row.place <= places;
  });
  return share(static_cast<std::size_t>(within), wanted());
}

double Recall::ceiling_share() const {
  return share(ceiling, wanted());
}

double Recall::mean_causes() const {
  std::size_t causes = 0;
  for (const AskedRow& row : asked)
    causes += row.causes;
  return share(causes, asked.size());
}

Result<Recall> recall(PlainEngines& engines, const CodeMap& map, const std::vector<Row>& rows) {
  Asker asker(engines, map);
  for (const Row& row : rows) {
    const Result<void> taken = asker.take(row);
    if (!taken) return tl::unexpected(taken.error());
  }
  return asker.finish();
}

}  // namespace soot::judges
