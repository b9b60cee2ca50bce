#include "tests/judges/check_map.hpp"

#include "core/knowledge/loader.hpp"
#include "core/model/words.hpp"
#include "tests/judges/beside.hpp"
#include "tests/judges/code_map.hpp"
#include "tests/judges/csv_rows.hpp"
#include "tests/judges/ranking.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

namespace soot::judges {
namespace {

CodeMap map_at(const std::string& file) {
  Result<CodeMap> map = load_code_map(source_dir() + "/" + file);
  REQUIRE_MESSAGE(map, to_string(map ? Problems{} : map.error()));
  return std::move(*map);
}

void check_sign(const Knowledge& knowledge, const Mapped& mapped) {
  for (const MappedId& id : mapped.ids)
    CHECK_MESSAGE(find_id(knowledge.symptoms, id.id) != nullptr, id.id);
  if (!mapped.history.empty())
    CHECK_MESSAGE(std::count(histories.begin(), histories.end(), mapped.history) == 1,
                  mapped.history);
  if (mapped.reading.empty()) return;
  const Quantity* quantity = find_id(knowledge.quantities, mapped.reading);
  REQUIRE_MESSAGE(quantity != nullptr, mapped.reading);
  if (!mapped.value.empty())
    CHECK_MESSAGE(read_measure(mapped.value, quantity->dimension).has_value(), mapped.value);
}

void check_cause(const Knowledge& knowledge, const Mapped& mapped) {
  for (const MappedId& id : mapped.ids) {
    const Cause* cause = find_id(knowledge.causes, id.id);
    CHECK_MESSAGE(cause != nullptr, id.id);
    if (cause == nullptr || id.direction.empty()) continue;
    CHECK_MESSAGE(
        std::any_of(cause->grades.begin(), cause->grades.end(),
                    [&](const std::string& grade) { return grade_goes(grade, id.direction); }),
        id.id << " has no grade " << id.direction);
  }
}

}  // namespace

void check_codes(const std::string& file, const std::string& codes) {
  const auto path = beside(codes);
  if (!path) return;
  const Result<std::vector<Row>> rows = read_rows(*path, {"kind", "code", "meaning"});
  REQUIRE_MESSAGE(rows, to_string(rows ? Problems{} : rows.error()));
  std::map<std::string, std::set<std::string>> listed;
  for (const Row& row : *rows)
    listed[row.at("kind")].insert(row.at("code"));
  CHECK(listed.size() >= 2);
  const CodeMap map = map_at(file);
  for (const auto& [kind, names] : listed) {
    REQUIRE_MESSAGE(map.contains(kind), kind);
    for (const std::string& name : names)
      CHECK_MESSAGE(map.at(kind).contains(name), kind << " " << name << " is not mapped");
  }
  for (const auto& [kind, table] : map)
    for (const auto& entry : table)
      CHECK_MESSAGE(listed[kind].contains(entry.first),
                    kind << " " << entry.first << " is no code of the list");
}

void check_ids(const std::string& file, const std::vector<std::string>& signs) {
  const Result<LoadedKnowledge> loaded = load_knowledge(source_dir() + "/knowledge");
  REQUIRE_MESSAGE(loaded, to_string(loaded ? Problems{} : loaded.error()));
  for (const auto& [kind, table] : map_at(file))
    for (const auto& [code, mapped] : table) {
      CAPTURE(code);
      if (kind == "cause")
        check_cause(loaded->knowledge, mapped);
      else if (std::count(signs.begin(), signs.end(), kind) == 1)
        check_sign(loaded->knowledge, mapped);
      else
        FAIL_CHECK("nobody knows what kind " << kind << " is");
    }
}

}  // namespace soot::judges
