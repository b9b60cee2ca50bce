#include "tests/judges/best_cover.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

namespace soot::judges {
namespace {

using Wanted = std::vector<std::set<std::string>>;

// Every choice counted through.
std::size_t by_counting(const Wanted& wanted, std::size_t places) {
  std::set<std::string> ids;
  for (const auto& entry : wanted)
    ids.insert(entry.begin(), entry.end());
  const std::vector<std::string> list(ids.begin(), ids.end());
  std::size_t best = 0;
  for (std::size_t choice = 0; choice < (std::size_t{1} << list.size()); ++choice) {
    std::set<std::string> chosen;
    for (std::size_t i = 0; i < list.size(); ++i)
      if (choice >> i & 1) chosen.insert(list[i]);
    if (chosen.size() > places) continue;
    const auto met = std::count_if(wanted.begin(), wanted.end(), [&](const auto& entry) {
      return std::any_of(entry.begin(), entry.end(),
                         [&](const std::string& id) { return chosen.contains(id); });
    });
    best = std::max(best, static_cast<std::size_t>(met));
  }
  return best;
}

}  // namespace

TEST_CASE("a list of two can answer at most two of three") {
  CHECK(best_cover({{"a"}, {"b"}, {"c"}}, 2) == 2);
  CHECK(best_cover({{"a"}, {"b"}, {"a", "c"}}, 2) == 3);
  CHECK(best_cover({{"a"}, {"a"}, {"b"}, {}}, 1) == 2);
  CHECK(best_cover({}, 10) == 0);
}

TEST_CASE("the best list is the one that counting finds") {
  std::mt19937 dice(7);
  for (int round = 0; round < 60; ++round) {
    Wanted wanted(4 + dice() % 8);
    for (auto& entry : wanted)
      for (std::size_t i = 1 + dice() % 3; i > 0; --i)
        entry.insert(std::string(1, static_cast<char>('a' + dice() % 10)));
    const std::size_t places = 1 + dice() % 4;
    CHECK(best_cover(wanted, places) == by_counting(wanted, places));
  }
}

}  // namespace soot::judges
