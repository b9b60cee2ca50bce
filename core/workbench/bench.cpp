#include "core/workbench/bench.hpp"

#include "core/base/append.hpp"
#include "core/base/parallel.hpp"
#include "core/base/text.hpp"
#include "core/host/find.hpp"
#include "core/knowledge/snapshot.hpp"
#include "core/workbench/program_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <ctime>
#include <functional>
#include <iterator>

namespace soot {
namespace {

std::vector<host::Standing> standings_of(const Places& places, Problems& problems) {
  std::vector<std::filesystem::path> folders = places.foreign_plugins;
  folders.insert(folders.end(), places.plugins.begin(), places.plugins.end());
  const host::Found found = host::find_plugins(folders);
  append(problems, found.problems);
  std::vector<host::Standing> standings;
  for (const host::Manifest& manifest : found.manifests) {
    const bool is_own = std::find(places.plugins.begin(), places.plugins.end(),
                                  manifest.folder.parent_path()) != places.plugins.end();
    standings.push_back(is_own ? judge_own(manifest) : judge_other(manifest, places.added));
  }
  return standings;
}

Result<LoadedKnowledge> knowledge_of(const Places& places) {
  return places.snapshot.empty() ? load_sound_knowledge(places.knowledge)
                                 : by_snapshot(places.knowledge, places.snapshot,
                                               std::time(nullptr), load_sound_knowledge);
}

}  // namespace

Result<std::unique_ptr<Bench>> Bench::open(const Places& places) {
  std::unique_ptr<Bench> bench{new Bench};
  Result<LoadedKnowledge> loaded;
  const std::function<void()> pieces[] = {
      [&] { loaded = knowledge_of(places); },
      [&] { bench->standings_ = standings_of(places, bench->troubles_); }};
  in_parallel(std::size(pieces), [&](std::size_t i) { pieces[i](); });
  if (!loaded) return pass_on(loaded);
  bench->loaded_ = std::move(*loaded);
  std::vector<host::Manifest> wanted;
  for (const host::Standing& standing : bench->standings_)
    if (standing.may_load())
      wanted.push_back(standing.manifest);
    else
      bench->troubles_.push_back(refusal_of(standing));
  bench->registry_ = std::make_unique<host::Registry>(wanted, places.data);
  append(bench->troubles_, bench->registry_->problems());
  for (const host::ServedFamily& served : bench->registry_->families())
    bench->add(served);
  std::sort(bench->families_.begin(), bench->families_.end(),
            [](const Served& a, const Served& b) { return a.family.id < b.family.id; });
  return bench;
}

void Bench::add(const host::ServedFamily& served) {
  if (Result<TakenIn> taken = take_in(served, loaded_.scale))
    families_.push_back(std::move(*taken));
  else
    append(troubles_, taken.error());
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
    Result<Knowledge> knowledge =
        join(loaded_.knowledge, served.amendments, served.own, served.family);
    if (!knowledge) return pass_on(knowledge);
    return Engine{served.family, served.law, std::move(*knowledge), &loaded_.knowledge};
  }
  if (ids.empty()) return fail(Kind::trouble, "no plugin serves any engine family");
  const std::string near = did_you_mean(family, ids);
  return near.empty() ? fail(Kind::use, "no family is called '{}' (there are {})", family,
                             fmt::join(ids, ", "))
                      : fail(Kind::use, "no family is called '{}'{}", family, near);
}

}  // namespace soot
