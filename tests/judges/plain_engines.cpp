#include "tests/judges/plain_engines.hpp"

#include "core/calc/make_law.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <numeric>
#include <sstream>

namespace soot::judges {
namespace {

constexpr std::string_view several = "several-cylinders";

// Of each group an engine has one.
const std::array<std::vector<std::string>, 3> one_of{
    std::vector<std::string>{"four-stroke", "two-stroke"},
    {"electric-start", "hand-start", "air-start", "starting-engine"},
    {"lift-pump", "gravity-supply"},
};
// A plain two-stroke has ports in their place.
constexpr std::string_view four_stroke_part = "valves";

Result<std::shared_ptr<const calc::LiftLaw>> law_of(const Family& family) {
  if (family.law.name.empty()) return std::shared_ptr<const calc::LiftLaw>{};
  Result<std::unique_ptr<calc::LiftLaw>> law = calc::make_law(family.law, family);
  if (!law) return pass_on(law);
  return std::shared_ptr<const calc::LiftLaw>{std::move(*law)};
}

}  // namespace

Result<PlainEngines> PlainEngines::open(const std::filesystem::path& knowledge,
                                        const std::filesystem::path& family) {
  Result<LoadedKnowledge> loaded = load_knowledge(knowledge);
  if (!loaded) return pass_on(loaded);
  std::ifstream in(family, std::ios::binary);
  if (!in) return fail(Kind::data, "{} cannot be read", family.string());
  std::ostringstream text;
  text << in.rdbuf();
  Result<ReadFamily> read = read_family(family.string(), text.str(), loaded->scale);
  if (!read) return pass_on(read);
  PlainEngines engines;
  engines.loaded_ = std::make_shared<const LoadedKnowledge>(std::move(*loaded));
  engines.family_ = std::move(read->family);
  return engines;
}

std::set<std::string> PlainEngines::plain(int cylinders) const {
  std::set<std::string> features(family_.features.begin(), family_.features.end());
  if (cylinders == 1) features.erase(std::string{several});
  return features;
}

std::set<std::string> PlainEngines::with(std::set<std::string> features,
                                         const std::vector<std::string>& needs) const {
  for (const std::string& need : needs)
    for (const std::vector<std::string>& group : one_of)
      if (std::find(group.begin(), group.end(), need) != group.end())
        for (const std::string& other : group)
          features.erase(other);
  features.insert(needs.begin(), needs.end());
  const bool needs_valves = std::find(needs.begin(), needs.end(), four_stroke_part) != needs.end();
  if (features.contains("two-stroke") && !needs_valves)
    features.erase(std::string{four_stroke_part});
  return features;
}

Result<const Engine*> PlainEngines::engine(int cylinders, const std::set<std::string>& features) {
  std::unique_ptr<Engine>& made = made_[{cylinders, features}];
  if (!made) {
    Family family = family_;
    family.cylinders = cylinders;
    family.strokes = features.contains("two-stroke") ? 2 : 4;
    family.firing_order.resize(static_cast<std::size_t>(cylinders));
    std::iota(family.firing_order.begin(), family.firing_order.end(), 1);
    family.features.assign(features.begin(), features.end());
    Result<Knowledge> knowledge = applicable(loaded_->knowledge, {}, family);
    if (!knowledge) return pass_on(knowledge);
    Result<std::shared_ptr<const calc::LiftLaw>> law = law_of(family);
    if (!law) return pass_on(law);
    made =
        std::make_unique<Engine>(Engine{std::move(family), std::move(*law), std::move(*knowledge)});
  }
  return made.get();
}

}  // namespace soot::judges
