#include "core/workbench/bench.hpp"

#include "core/base/text.hpp"
#include "core/calc/contradictions.hpp"
#include "core/calc/derived.hpp"
#include "core/host/find.hpp"
#include "core/knowledge/family_reader.hpp"
#include "core/workbench/law_of.hpp"
#include "core/workbench/program_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

void append(Problems& all, const Problems& more) {
  all.insert(all.end(), more.begin(), more.end());
}

Problem hidden(const host::ServedFamily& served, std::string words) {
  Problem problem = make_problem(Kind::trouble, "family {} is hidden: {}", served.id, words);
  problem.place.file = served.tables_name;
  return problem;
}

}  // namespace

Result<std::unique_ptr<Bench>> Bench::open(const Places& places) {
  Result<LoadedKnowledge> loaded = load_sound_knowledge(places.knowledge);
  if (!loaded) return pass_on(loaded);
  std::unique_ptr<Bench> bench{new Bench};
  bench->loaded_ = std::move(*loaded);
  const host::Found found = host::find_plugins(places.plugins);
  append(bench->troubles_, found.problems);
  bench->registry_ = std::make_unique<host::Registry>(found.manifests, places.data);
  append(bench->troubles_, bench->registry_->problems());
  for (const host::ServedFamily& served : bench->registry_->families())
    bench->add(served);
  std::sort(bench->families_.begin(), bench->families_.end(),
            [](const Served& a, const Served& b) { return a.family.id < b.family.id; });
  return bench;
}

void Bench::add(const host::ServedFamily& served) {
  Result<ReadFamily> read = read_family(served.tables_name, served.tables, loaded_.scale);
  if (!read) {
    troubles_.push_back(hidden(served, "its tables have errors"));
    append(troubles_, read.error());
    return;
  }
  if (read->family.id != served.id) {
    troubles_.push_back(hidden(served, fmt::format("its table calls it {}", read->family.id)));
    return;
  }
  Result<std::shared_ptr<const calc::LiftLaw>> law = law_of(read->family, served.own_law);
  if (!law) {
    troubles_.push_back(hidden(served, "its lift law is refused"));
    append(troubles_, law.error());
    return;
  }
  if (const auto danger = calc::plunger_meets_head(read->family, law->get())) {
    troubles_.push_back(hidden(served, "nothing may be set by its depth"));
    troubles_.push_back(*danger);
    return;
  }
  read->family = calc::completed(read->family, law->get());
  read->family.plugin_id = served.plugin_id;
  read->family.plugin_version = served.plugin_version;
  families_.push_back({std::move(read->family), std::move(read->own), std::move(*law)});
}

std::shared_ptr<const calc::LiftLaw> Bench::own_law(const std::string& family) const {
  for (const host::ServedFamily& served : registry_->families())
    if (served.id == family) return served.own_law;
  return nullptr;
}

Result<Engine> Bench::engine(const std::string& family) const {
  std::vector<std::string> ids;
  for (const Served& served : families_) {
    ids.push_back(served.family.id);
    if (served.family.id != family) continue;
    Result<Knowledge> knowledge = applicable(loaded_.knowledge, served.own, served.family);
    if (!knowledge) return pass_on(knowledge);
    return Engine{served.family, served.law, std::move(*knowledge)};
  }
  if (ids.empty()) return fail(Kind::trouble, "no plugin serves any engine family");
  const std::string near = did_you_mean(family, ids);
  return near.empty() ? fail(Kind::use, "no family is called '{}' (there are {})", family,
                             fmt::join(ids, ", "))
                      : fail(Kind::use, "no family is called '{}'{}", family, near);
}

}  // namespace soot
