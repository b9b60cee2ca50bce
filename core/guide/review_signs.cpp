#include "core/guide/review_parts.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

const Link* link_to(const Cause& cause, const std::string& symptom) {
  const auto found = std::find_if(cause.links.begin(), cause.links.end(),
                                  [&](const Link& link) { return link.symptom == symptom; });
  return found == cause.links.end() ? nullptr : &*found;
}

// On an engine with several cylinders, or with one.
const std::vector<double>& strength_of(const Link& link, bool alone) {
  return alone && !link.alone.empty() ? link.alone : link.strength;
}

bool is_weaker(const Link* general, const Link& special, bool alone) {
  const std::vector<double>& strength = strength_of(special, alone);
  for (std::size_t g = 0; g < strength.size(); ++g)
    if ((general == nullptr ? 0 : strength_of(*general, alone)[g]) < strength[g]) return true;
  return false;
}

}  // namespace

void review_signs(const Knowledge& knowledge, KnowledgeReview& review) {
  for (const Cause& cause : knowledge.causes)
    for (const Link& link : cause.links) {
      const std::optional<std::string>& general =
          get_id(knowledge.symptoms, link.symptom).special_of;
      if (!general) continue;
      const Link* weaker = link_to(cause, *general);
      if (is_weaker(weaker, link, false) || is_weaker(weaker, link, true))
        review.notes.push_back(
            {"Special signs that a cause makes more often than the general one", link.place,
             fmt::format("{}: {} more often than {}", cause.id, link.symptom, *general)});
    }
}

}  // namespace soot
