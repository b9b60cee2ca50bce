#include "tests/solved/told_case.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>

namespace soot::judges {
namespace {

using Json = nlohmann::json;

std::optional<int> whole(const Json& value) {
  return value.is_number_integer() ? std::optional<int>{value.get<int>()} : std::nullopt;
}

std::string word(const Json& value) {
  return value.is_string() ? value.get<std::string>() : std::string{};
}

// What was in the hand already, and all that came after it, is no question any more.
std::vector<ToldFinding> before_reveal(const Json& findings) {
  std::vector<Json> ordered(findings.begin(), findings.end());
  std::stable_sort(ordered.begin(), ordered.end(), [](const Json& a, const Json& b) {
    return a.at("order").get<int>() < b.at("order").get<int>();
  });
  std::vector<ToldFinding> told;
  for (const Json& finding : ordered) {
    if (finding.at("reveals_cause").get<bool>()) break;
    ToldFinding& next = told.emplace_back();
    next.code = finding.at("code").get<std::string>();
    next.present = finding.at("present").get<bool>();
    if (finding.at("value").is_number()) next.value = finding.at("value").get<double>();
    next.unit = word(finding.at("unit"));
  }
  return told;
}

ToldCase read_case(const Json& json) {
  ToldCase told;
  told.id = json.at("id").get<std::string>();
  const Json& engine = json.at("engine");
  told.cylinders = whole(engine.at("cylinders"));
  told.strokes = whole(engine.at("strokes"));
  told.pump = word(engine.at("pump"));
  told.chamber = word(engine.at("chamber"));
  told.use = word(engine.at("use"));
  told.context = json.at("context").get<std::vector<std::string>>();
  told.complaint = json.at("complaint").get<std::vector<std::string>>();
  told.findings = before_reveal(json.at("findings"));
  told.cause = json.at("true_cause").get<std::string>();
  told.other_causes = json.at("other_true_causes").get<std::vector<std::string>>();
  return told;
}

}  // namespace

Result<std::vector<ToldCase>> load_told_cases(const std::filesystem::path& path) {
  std::ifstream in(path);
  if (!in) return fail(Kind::data, "{} cannot be read", path.string());
  std::vector<ToldCase> cases;
  Problems problems;
  std::string text;
  for (int line = 1; std::getline(in, text); ++line) {
    if (text.find_first_not_of(" \r") == std::string::npos) continue;
    try {
      cases.push_back(read_case(Json::parse(text)));
      cases.back().line = line;
    } catch (const Json::exception& refused) {
      Problem problem = make_problem(Kind::data, "no told case ({})", refused.what());
      problem.place = {path.string(), line, 0};
      problems.push_back(std::move(problem));
    }
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return cases;
}

}  // namespace soot::judges
