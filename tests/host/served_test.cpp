// The plugins in the tree, as a run of the program loads them.
#include "core/host/find.hpp"
#include "core/host/registry.hpp"
#include "tests/host/scratch.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <sstream>

namespace soot::host {

namespace fs = std::filesystem;
using test::Scratch;

namespace {

std::string whole_file(const fs::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

const ServedFamily* find_family(const Registry& registry, const std::string& id) {
  for (const ServedFamily& family : registry.families())
    if (family.id == id) return &family;
  return nullptr;
}

Manifest in_tree(const std::string& name) {
  return read_manifest(fs::path(binary_dir()) / "plugins" / name).value();
}

}  // namespace

TEST_CASE("the plugins in the tree load and serve their families") {
  const Found found = find_plugins({fs::path(binary_dir()) / "plugins"});
  CHECK(soot::to_string(found.problems) == "");
  const Registry registry(found.manifests);
  CHECK(soot::to_string(registry.problems()) == "");
  CHECK(registry.plugins().size() == found.manifests.size());

  const ServedFamily* hagmoss = find_family(registry, "hagmoss-4");
  REQUIRE(hagmoss != nullptr);
  CHECK(hagmoss->plugin_id == "tabular");
  CHECK(hagmoss->plugin_version == "1.0.0");
  CHECK(hagmoss->tables_name == "families/hagmoss-4.toml");
  CHECK(hagmoss->own_law == nullptr);
  CHECK(hagmoss->tables == whole_file(source_dir() + "/plugins/tabular/families/hagmoss-4.toml"));

  const ServedFamily* lodefoot = find_family(registry, "lodefoot-1");
  REQUIRE(lodefoot != nullptr);
  CHECK(lodefoot->plugin_id == "lodefoot");
  CHECK(lodefoot->tables_name == "families/lodefoot-1.toml");
  CHECK(lodefoot->own_law != nullptr);
  CHECK(lodefoot->tables ==
        whole_file(source_dir() + "/plugins/lodefoot/families/lodefoot-1.toml"));
}

TEST_CASE("what a plugin served stays good after the plugin is done with") {
  std::vector<ServedFamily> kept;
  for (int round = 0; round < 2; ++round) {  // loaded twice in one process: init after deinit
    const Registry registry({in_tree("lodefoot")});
    kept = registry.families();
  }
  REQUIRE(kept.size() == 1);
  CHECK(kept[0].own_law->lift_mm(-20) == doctest::Approx(2.5));
}

TEST_CASE("families that a person wrote go before those that came with the program") {
  const Scratch scratch("own-families");
  const fs::path mine = scratch.write("families/hagmoss-4.toml", "# mine");
  const fs::path another = scratch.write("families/broken-3.toml", "# broken [");
  scratch.write("families/.draft.toml", "");
  scratch.write("families/notes.txt", "");
  fs::create_directory(scratch.path() / "families/folder.toml");
  const Registry registry({in_tree("tabular")}, {scratch.path()});
  REQUIRE(find_family(registry, "hagmoss-4") != nullptr);
  REQUIRE(find_family(registry, "broken-3") != nullptr);
  CHECK(find_family(registry, "hagmoss-4")->tables == "# mine");
  CHECK(find_family(registry, "hagmoss-4")->tables_name == mine.string());
  CHECK(find_family(registry, "broken-3")->tables == "# broken [");  // core's to complain of
  CHECK(find_family(registry, "broken-3")->tables_name == another.string());
  CHECK(soot::to_string(registry.problems()) ==
        (scratch.path() / "families/folder.toml").string() +
            ": plugin tabular: left out: it is no file\n" + binary_dir() +
            "/plugins/tabular/plugin.toml: plugin tabular: family hagmoss-4 "
            "(families/hagmoss-4.toml) is passed over: the one of plugin tabular (" +
            mine.string() + ") comes first");
}

}  // namespace soot::host
