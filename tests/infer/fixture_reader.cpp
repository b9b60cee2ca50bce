#include "tests/infer/fixture_reader.hpp"

#include "tests/places.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <stdexcept>

namespace soot::tests {

namespace {

using infer::Cause;
using infer::Curve;
using infer::Finding;
using infer::Network;
using infer::Quantity;
using infer::Reading;
using infer::Scope;
using infer::Symptom;
using infer::Unsure;
using nlohmann::json;

template <class T>
std::optional<std::size_t> find_id(const std::vector<T>& all, const std::string& id) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const T& one) { return one.id == id; });
  if (found == all.end()) return std::nullopt;
  return static_cast<std::size_t>(found - all.begin());
}

Scope scope_of(const json& entry) {
  return entry.at("scope") == "engine" ? Scope::engine : Scope::cylinder;
}

std::size_t term_of(Network& network, const std::string& name) {
  const auto found = std::find(network.terms.begin(), network.terms.end(), name);
  if (found != network.terms.end()) return static_cast<std::size_t>(found - network.terms.begin());
  network.terms.push_back(name);
  return network.terms.size() - 1;
}

class Reader {
 public:
  explicit Reader(const json& file) : file_(file) {}

  Fixture read() {
    read_frame();
    for (const json& entry : file_.at("causes"))
      read_cause(entry);
    for (const json& entry : file_.at("symptoms"))
      read_symptom(entry);
    for (const json& entry : file_.at("quantities"))
      read_quantity(entry);
    read_evidence();
    read_expected();
    return std::move(fixture_);
  }

 private:
  void read_frame() {
    network().histories = file_.at("history").at("values").get<std::vector<std::string>>();
    network().history_prior = file_.at("history").at("prior").get<std::vector<double>>();
    network().cylinders = file_.at("cylinders").get<int>();
  }

  void read_cause(const json& entry) {
    Cause cause;
    cause.id = entry.at("id");
    cause.scope = scope_of(entry);
    cause.grades = entry.at("grades").size();
    grade_names_.push_back(entry.at("grades").get<std::vector<std::string>>());
    for (const std::string& history : network().histories)
      cause.prior.push_back(entry.at("prior").at(history).get<std::vector<double>>());
    for (const json& effect : entry.at("effects"))
      cause.effects.push_back({term_of(network(), effect.at("term")),
                               effect.at("mean").get<std::vector<double>>(),
                               effect.at("sd").get<std::vector<double>>(),
                               {}});
    network().causes.push_back(std::move(cause));
  }

  void read_symptom(const json& entry) {
    Symptom symptom;
    symptom.id = entry.at("id");
    symptom.scope = scope_of(entry);
    symptom.leak = entry.at("leak");
    for (const json& link : entry.at("links"))
      if (const auto cause = find_id(network().causes, link.at("cause")))
        symptom.links.push_back({*cause, link.at("strength").get<std::vector<double>>()});
    unsure_.emplace_back();
    if (entry.contains("report"))
      unsure_.back() = Unsure{entry.at("report").at("missed"), entry.at("report").at("imagined")};
    network().symptoms.push_back(std::move(symptom));
  }

  void read_quantity(const json& entry) {
    Quantity quantity;
    quantity.id = entry.at("id");
    quantity.scope = scope_of(entry);
    quantity.nominal = entry.at("nominal");
    quantity.spread = entry.at("spread");
    for (const auto& [term, slope] : entry.at("per").items())
      quantity.responses.push_back({term_of(network(), term), Curve(slope.get<double>())});
    instrument_.push_back(entry.at("instrument"));
    network().quantities.push_back(std::move(quantity));
  }

  Finding finding_of(const json& entry, bool present) const {
    Finding finding;
    finding.symptom = find_id(fixture_.network.symptoms, entry.at("symptom")).value();
    finding.cylinder = entry.value("cylinder", 0);
    finding.present = present;
    finding.unsure = unsure_[finding.symptom];
    return finding;
  }

  void read_evidence() {
    const json& evidence = file_.at("evidence");
    if (!evidence.at("history").is_null()) {
      const auto& names = network().histories;
      fixture_.evidence.history = static_cast<std::size_t>(
          std::find(names.begin(), names.end(), evidence.at("history").get<std::string>()) -
          names.begin());
    }
    for (const json& entry : evidence.at("findings"))
      fixture_.evidence.findings.push_back(finding_of(entry, entry.at("present")));
    for (const json& entry : evidence.at("readings")) {
      Reading reading;
      reading.quantity = find_id(network().quantities, entry.at("quantity")).value();
      reading.cylinder = entry.value("cylinder", 0);
      if (entry.contains("value")) reading.lower = reading.upper = entry.at("value");
      if (entry.contains("above")) reading.lower = entry.at("above");
      if (entry.contains("below")) reading.upper = entry.at("below");
      reading.sd = entry.value("uncertainty", instrument_[reading.quantity]);
      fixture_.evidence.readings.push_back(reading);
    }
  }

  void read_expected() {
    const json& expected = file_.at("expected");
    fixture_.log_evidence = expected.at("log_evidence");
    for (const std::string& name : network().histories)
      fixture_.history.push_back(expected.at("history").at(name));
    fixture_.causes = expected.at("causes").get<GradeTable>();
    for (const json& one : expected.at("not_listed"))
      fixture_.not_listed.push_back(one.is_null() ? std::nullopt
                                                  : std::optional<double>(one.get<double>()));
    for (const json& one : expected.at("top"))
      read_explanation(one);
    if (expected.contains("what_if"))
      for (std::size_t i = 0; i < expected.at("what_if").size(); ++i) {
        const json& one = expected.at("what_if")[i];
        fixture_.what_ifs.push_back(
            {finding_of(file_.at("what_if")[i], true), one.at("p_reported_present"),
             one.at("present").get<GradeTable>(), one.at("absent").get<GradeTable>()});
      }
    if (expected.contains("weights"))
      for (const json& one : expected.at("weights"))
        fixture_.weights.push_back(
            {one.at("of")[0] == "readings", one.at("of")[1].get<std::size_t>(),
             one.at("log_odds_change").get<std::map<std::string, double>>()});
  }

  void read_explanation(const json& entry) {
    ExpectedExplanation explanation;
    explanation.probability = entry.at("p");
    for (const auto& [label, grade] : entry.at("grades").items()) {
      const std::size_t cause = find_id(network().causes, label.substr(0, label.find('@'))).value();
      const auto& names = grade_names_[cause];
      explanation.grades[label] = static_cast<std::size_t>(
          std::find(names.begin(), names.end(), grade.get<std::string>()) - names.begin() + 1);
    }
    fixture_.top.push_back(std::move(explanation));
  }

  Network& network() { return fixture_.network; }

  const json& file_;
  Fixture fixture_;
  std::vector<std::vector<std::string>> grade_names_;
  std::vector<std::optional<Unsure>> unsure_;
  std::vector<double> instrument_;
};

}  // namespace

Fixture read_fixture(const std::string& name) {
  std::ifstream file(source_dir() + "/tests/data/infer/" + name + ".json");
  if (!file) throw std::runtime_error("no fixture " + name);
  const json parsed = json::parse(file);
  return Reader(parsed).read();
}

std::string label_of(const infer::Network& network, std::size_t cause, int cylinder) {
  const std::string& id = network.causes[cause].id;
  return cylinder == 0 ? id : id + "@" + std::to_string(cylinder);
}

}  // namespace soot::tests
