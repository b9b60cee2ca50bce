#include "core/host/find.hpp"

#include "tests/host/scratch.hpp"

#include <doctest/doctest.h>

namespace soot::host {

using test::Scratch;

namespace {
std::string ids(const Found& found) {
  std::string out;
  for (const Manifest& manifest : found.manifests)
    out += manifest.id + " ";
  return out;
}
}  // namespace

TEST_CASE("plugins are found by name and hidden ones passed over") {
  const Scratch scratch("find-names");
  for (const char* id : {"zeta", "alpha", "mid"})
    scratch.write(std::string(id) + "/plugin.toml", test::manifest_text(id));
  scratch.write(".hidden/plugin.toml", test::manifest_text("hidden"));
  scratch.write("@old/plugin.toml", test::manifest_text("old"));
  scratch.write("CMakeFiles/notes.txt", "no plugin");
  const Found found = find_plugins({scratch.path()});
  CHECK(ids(found) == "alpha mid zeta ");
  CHECK(soot::to_string(found.problems) == "");
  CHECK(found.manifests[0].about == "made for a test");
  CHECK(found.manifests[0].version == "1.0.0");
  CHECK(found.manifests[0].abi == 1);
  CHECK(found.manifests[0].binary_path() == scratch.path() / "alpha/alpha.so");
}

TEST_CASE("of two plugins with one id the first counts and the other is named") {
  const Scratch scratch("find-twice");
  scratch.write("mine/b/plugin.toml", test::manifest_text("winch"));
  scratch.write("shared/a/plugin.toml", test::manifest_text("winch"));
  const Found found = find_plugins({scratch.path() / "mine", scratch.path() / "shared"});
  REQUIRE(found.manifests.size() == 1);
  CHECK(found.manifests[0].folder == scratch.path() / "mine/b");
  REQUIRE(found.problems.size() == 1);
  CHECK(found.problems[0].severity == soot::Severity::note);
  CHECK(found.problems[0].kind == soot::Kind::trouble);
  const std::string root = scratch.path().string();
  CHECK(soot::to_string(found.problems) ==
        root + "/shared/a: plugin winch is passed over: the one in " + root +
            "/mine/b comes first");
}

TEST_CASE("a folder that is not there is named and the rest goes on") {
  const Scratch scratch("find-missing");
  scratch.write("here/a/plugin.toml", test::manifest_text("alpha"));
  const Found found = find_plugins({scratch.path() / "gone", scratch.path() / "here"});
  CHECK(ids(found) == "alpha ");
  CHECK(soot::to_string(found.problems) ==
        (scratch.path() / "gone").string() +
            ": not to be read as a folder of plugins (No such file or directory)");
  CHECK(soot::has_errors(found.problems));
}

TEST_CASE("a library without its plugin toml is named") {
  const Scratch scratch("find-bare");
  scratch.write("loose.so", "");
  scratch.write("half/half.so", "");
  const Found found = find_plugins({scratch.path()});
  const std::string root = scratch.path().string();
  CHECK(ids(found) == "");
  CHECK(soot::to_string(found.problems) ==
        root + "/half: no plugin.toml (expected a file)\n" + root +
            "/loose.so: a library by itself (expected a folder with it and plugin.toml)");
}

TEST_CASE("every mistake in a plugin toml is told with its line") {
  const Scratch scratch("find-mistakes");
  const auto file = scratch.write("odd/plugin.toml",
                                  "id = \"Odd One\"\n"
                                  "version = 1\n"
                                  "abi = 0\n"
                                  "library = \"../odd.so\"\n"
                                  "abuot = \"one line\"\n");
  const soot::Result<Manifest> manifest = read_manifest(file.parent_path());
  REQUIRE_FALSE(manifest);
  std::string lines;
  for (const soot::Problem& problem : manifest.error()) {
    CHECK(problem.kind == soot::Kind::trouble);
    CHECK(problem.place.file == file.string());
    lines += fmt::format("{}: {}\n", problem.place.line, problem.text);
  }
  CHECK(lines ==
        "1: id 'Odd One' (expected small letters, digits and hyphens)\n"
        "2: version is a whole number (expected a text in quotes)\n"
        "3: abi is the boundary's number (expected 1 or more)\n"
        "4: library is in another folder (expected a file name)\n"
        "1: about is missing (expected a text)\n"
        "5: abuot is no key known here, did you mean about?\n");
}

}  // namespace soot::host
