// solved_recall --cases JSONL [--map TOML]: the knowledge against faults that were found. Run from
// the root of the checkout.
#include "tests/judges/arguments.hpp"
#include "tests/solved/solved.hpp"

#include <fmt/format.h>

#include <array>

namespace {

using namespace soot;
using namespace soot::judges;

Result<Solved> run(const std::vector<std::string>& words) {
  const auto given = read_arguments(words, {{"cases", ""}, {"map", "tests/solved/map.toml"}});
  if (!given) return pass_on(given);
  const Result<CodeMap> map = load_code_map(given->at("map"));
  if (!map) return pass_on(map);
  const Result<std::vector<ToldCase>> cases = load_told_cases(given->at("cases"));
  if (!cases) return pass_on(cases);
  Result<PlainEngines> engines = PlainEngines::open("knowledge", "tests/data/plain.toml");
  if (!engines) return pass_on(engines);
  return solve(*engines, *map, *cases);
}

void print_case(const SolvedCase& solved) {
  const std::string place = solved.place == 0 ? "absent" : std::to_string(solved.place);
  fmt::print("  {:<6} {:>6} of {}  {} (first: {}; {} signs; history {})", solved.id, place,
             solved.causes, solved.cause, solved.first, solved.signs,
             solved.history.empty() ? "unknown" : solved.history);
  if (solved.other != 0) fmt::print("; another true cause at {}", solved.other);
  if (!solved.in_scope) fmt::print("; out of scope: {}", solved.out_of_scope);
  fmt::print("\n");
}

}  // namespace

int main(int count, char** words) {
  const Result<Solved> result = run({words + 1, words + count});
  if (!result) return complain(result.error());
  for (const std::size_t places : std::array<std::size_t, 3>{1, 3, 5})
    fmt::print("figure top-{} {:.4f}\n", places, result->top(places));
  fmt::print("figure top-3-in-scope {:.4f}\n", result->top_in_scope(3));
  fmt::print("figure median-rank {}\n", result->median_place());
  fmt::print("figure cases-asked {}\n", result->cases.size());
  fmt::print("figure cases-lacking {}\n", result->cases.size() - result->in_scope());
  fmt::print("\ncase, place of the true cause, cause\n");
  for (const SolvedCase& solved : result->cases)
    print_case(solved);
  return 0;
}
