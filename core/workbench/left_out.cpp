#include "core/workbench/left_out.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

namespace soot {
namespace {

class Reasons {
 public:
  Reasons(const Engine& engine, std::string_view id) : engine_(engine), id_(id) {}

  // Nothing is known of an id that the list lacks.
  template <class Entry>
  bool look(const Entries<Entry>& list) {
    const Entry* entry = find_id(list, id_);
    if (entry == nullptr) return false;
    for (const std::string& feature : entry->needs)
      if (!engine_.family.has(feature)) reasons_.push_back("only with: " + name_of(feature));
    if constexpr (requires { entry->without; })
      for (const std::string& feature : entry->without)
        if (engine_.family.has(feature)) reasons_.push_back("never with: " + name_of(feature));
    return true;
  }

  std::string words() const {
    if (reasons_.empty()) return "of no use on this engine";
    return fmt::format("{}", fmt::join(reasons_, "; "));
  }

 private:
  std::string name_of(const std::string& id) const {
    const Feature* feature = find_id(engine_.common->features, id);
    return feature == nullptr ? id : feature->name;
  }

  const Engine& engine_;
  std::string_view id_;
  std::vector<std::string> reasons_;
};

}  // namespace

std::string why_left_out(const Engine& engine, std::string_view id) {
  if (engine.common == nullptr) return "";
  const Knowledge& common = *engine.common;
  Reasons reasons(engine, id);
  const bool known = reasons.look(common.causes) || reasons.look(common.symptoms) ||
                     reasons.look(common.checks) || reasons.look(common.corrections) ||
                     find_id(common.procedures, id) != nullptr;
  return known ? reasons.words() : "";
}

std::string what_else(const Knowledge& knowledge, std::string_view id) {
  if (find_id(knowledge.causes, id) != nullptr)
    return fmt::format("a cause (sootsayer weigh {})", id);
  if (find_id(knowledge.symptoms, id) != nullptr)
    return fmt::format("a symptom (sootsayer saw {})", id);
  if (find_id(knowledge.quantities, id) != nullptr)
    return fmt::format("a quantity (sootsayer gauge {} ...)", id);
  if (find_id(knowledge.corrections, id) != nullptr)
    return fmt::format("a correction (sootsayer done {})", id);
  if (find_id(knowledge.checks, id) != nullptr || find_id(knowledge.procedures, id) != nullptr)
    return fmt::format("something to do (sootsayer steps {})", id);
  return "";
}

}  // namespace soot
