#include "core/workbench/served_check.hpp"

#include "core/base/append.hpp"
#include "core/knowledge/loader.hpp"
#include "core/workbench/family_check.hpp"
#include "core/workbench/taken_in.hpp"

namespace soot {

Problems check_served(const std::vector<host::ServedFamily>& families,
                      const std::filesystem::path& knowledge) {
  const Result<LoadedKnowledge> loaded = load_knowledge(knowledge);
  if (!loaded) return loaded.error();
  Problems problems;
  for (const host::ServedFamily& served : families) {
    const Result<ReadFamily> read = read_family(served.tables_name, served.tables, loaded->scale);
    if (!read) {
      append(problems, read.error());
      continue;
    }
    append(problems, wrong_names(*read, served));
    const Result<FamilyFindings> found = findings_in(*read, served.own_law, loaded->knowledge);
    if (!found) append(problems, found.error());
  }
  return problems;
}

}  // namespace soot
