// handbook_recall --rows CSV [--map TOML]: the knowledge against published trouble tables. Run from
// the root of the checkout.
#include "tests/handbook/recall.hpp"
#include "tests/judges/arguments.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <vector>

namespace {

using namespace soot;
using namespace soot::judges;

void print_misses(const Recall& result) {
  std::vector<AskedRow> misses;
  for (const AskedRow& row : result.asked)
    if (row.place == 0 || row.place > 10) misses.push_back(row);
  const auto badness = [](const AskedRow& row) { return row.place == 0 ? 1000 : row.place; };
  std::stable_sort(misses.begin(), misses.end(),
                   [&](const AskedRow& a, const AskedRow& b) { return badness(a) > badness(b); });
  fmt::print("\nasked, and not among the first ten ({}), worst first\n", misses.size());
  for (const AskedRow& row : misses)
    fmt::print("  {:>6}  {} <- {} ({}){}\n", row.place == 0 ? "absent" : std::to_string(row.place),
               row.symptom, row.cause, row.source,
               row.engine.empty() ? "" : ", asked with " + row.engine);
}

void print_unasked(const char* head, const std::vector<UnaskedRow>& rows) {
  fmt::print("\n{} ({})\n", head, rows.size());
  for (const UnaskedRow& row : rows)
    fmt::print("  {} <- {} ({}): {}\n", row.symptom, row.cause, row.source, row.why);
}

Result<Recall> run(const std::vector<std::string>& words) {
  const auto given = read_arguments(words, {{"rows", ""}, {"map", "tests/handbook/map.toml"}});
  if (!given) return pass_on(given);
  const Result<CodeMap> map = load_code_map(given->at("map"));
  if (!map) return pass_on(map);
  const Result<std::vector<Row>> rows = read_rows(given->at("rows"), row_columns);
  if (!rows) return pass_on(rows);
  Result<PlainEngines> engines = PlainEngines::open("knowledge", "tests/data/plain.toml");
  if (!engines) return pass_on(engines);
  return recall(*engines, *map, *rows);
}

}  // namespace

int main(int count, char** words) {
  const Result<Recall> result = run({words + 1, words + count});
  if (!result) return complain(result.error());
  for (const std::size_t places : std::array<std::size_t, 3>{5, 10, 20})
    fmt::print("figure recall-{} {:.4f}\n", places, result->share_within(places));
  fmt::print("figure recall-10-ceiling {:.4f}\n", result->ceiling_share());
  fmt::print("figure violations {}\n", result->violations.size());
  fmt::print("figure map-mean-causes {:.3f}\n", result->mean_causes());
  fmt::print("figure rows-asked {}\n", result->asked.size());
  fmt::print("figure rows-not-put {}\n", result->missed.size());
  fmt::print("figure rows-no-complaint {}\n", result->left_out.size());
  fmt::print("figure rows-refused {}\n", result->refused);
  print_misses(*result);
  print_unasked("complaints that could not be put, each a miss", result->missed);
  print_unasked("offered where the part is not there", result->violations);
  print_unasked("rows without a complaint, not asked", result->left_out);
  return 0;
}
