#include "tests/judges/ranking.hpp"

#include "core/workbench/rank.hpp"

#include <algorithm>

namespace soot::judges {
namespace {

bool goes(const CauseLine& line, const std::string& direction) {
  const auto likeliest = std::max_element(
      line.grades.begin(), line.grades.end(),
      [](const GradeChance& a, const GradeChance& b) { return a.probability < b.probability; });
  return direction.empty() ||
         (likeliest != line.grades.end() && grade_goes(likeliest->id, direction));
}

template <class Matches>
std::size_t first_of(const std::vector<CauseLine>& list, const std::vector<MappedId>& ids,
                     const Matches& matches) {
  for (std::size_t i = 0; i < list.size(); ++i)
    for (const MappedId& wanted : ids)
      if (list[i].id == wanted.id && matches(list[i], wanted)) return i + 1;
  return 0;
}

}  // namespace

bool grade_goes(const std::string& grade, const std::string& direction) {
  return ("-" + grade + "-").find("-" + direction + "-") != std::string::npos;
}

Result<std::vector<CauseLine>> ranked_causes(const Engine& engine, const Job& job) {
  const Result<Inquiry> inquiry = inquire(engine, job);
  if (!inquiry) return pass_on(inquiry);
  Result<RankAnswer> answer = rank(engine, *inquiry);
  if (!answer) return pass_on(answer);
  if (answer->impossible) return fail(Kind::data, "what is told cannot happen under the knowledge");
  return std::move(answer->by_cause);
}

std::size_t place_of(const std::vector<CauseLine>& list, const std::vector<MappedId>& ids) {
  return first_of(list, ids, [](const CauseLine&, const MappedId&) { return true; });
}

std::size_t directed_place_of(const std::vector<CauseLine>& list,
                              const std::vector<MappedId>& ids) {
  return first_of(list, ids, [](const CauseLine& line, const MappedId& wanted) {
    return goes(line, wanted.direction);
  });
}

}  // namespace soot::judges
