// Every kind of plugin that must not be used is named, hidden, and does not stop the others.
#include "core/host/registry.hpp"
#include "tests/host/scratch.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <sys/stat.h>

namespace soot::host {

namespace fs = std::filesystem;
using test::Scratch;

namespace {

const std::string bad_folder = binary_dir() + "/tests/bad_plugins/";

std::string families_of(const Registry& registry) {
  std::string out;
  for (const ServedFamily& family : registry.families())
    out += family.id + " ";
  return out;
}

/// What loading one of the bad plugins tells, without the path of its library; then the families
/// that it may serve all the same.
std::string told(const std::string& name) {
  const Registry registry({read_manifest(bad_folder + name).value()});
  std::string out;
  for (const soot::Problem& problem : registry.problems()) {
    CHECK(problem.kind == soot::Kind::trouble);
    CHECK(problem.place.file == bad_folder + name + "/" + name + ".so");
    out += (problem.severity == soot::Severity::note ? "note " : "") + problem.text + "\n";
  }
  return out + families_of(registry);
}

std::string left_out(const std::string& name, const std::string& why) {
  return "plugin " + name + " left out: " + why + "\n";
}

/// Both families have the same law.
std::string law_refused(const std::string& name, const std::string& why) {
  return "plugin " + name + ": family plain-1 left out: " + why + "\nplugin " + name +
         ": family odd-1 left out: " + why + "\n";
}

}  // namespace

TEST_CASE("the plugin whose faults are tried is sound without one") {
  CHECK(told("none") == "plain-1 odd-1 ");
}

TEST_CASE("what is no plugin of this program is refused by name and reason") {
  CHECK(told("no-entry") == left_out("no-entry", "no-entry.so has no soot_entry"));
  CHECK(told("wrong-major") ==
        left_out("wrong-major", "built for plugin ABI 2 (this program speaks ABI 1)"));
  CHECK(told("needs-newer") ==
        left_out("needs-newer", "needs a newer program (plugin ABI 1.7, this one speaks 1.0)"));
  CHECK(told("undefined-symbol") ==
        left_out("undefined-symbol",
                 "undefined-symbol.so cannot be loaded (undefined symbol: function_nobody_has)"));
  CHECK(told("wrong-size") == left_out("wrong-size", "its entry has 48 bytes (expected 56)"));
  CHECK(told("gaps") ==
        left_out("gaps", "its entry has gaps (expected id, version and three functions)"));
  CHECK(told("other-id") ==
        left_out("other-id",
                 "its library says it is somebody-else (expected other-id, as in plugin.toml)"));
  CHECK(told("other-version") ==
        left_out("other-version",
                 "its library has version 0.9.0 (expected 1.0.0, as in plugin.toml)"));
}

TEST_CASE("a plugin that fails to start is told in its own words") {
  CHECK(told("init-fails") == left_out("init-fails", "it did not start (families.db is missing)"));
  CHECK(told("helper-throws") ==
        left_out("helper-throws", "it did not start (families/odd-1.toml cannot be read)"));
}

TEST_CASE("a plugin that throws across the boundary loses all its families") {
  CHECK(told("throws-in-init") ==
        left_out("throws-in-init", "threw an exception in init (no gear found)"));
  CHECK(told("throws-in-lift") ==
        left_out("throws-in-lift", "threw an exception in lift_at of sound-1"));
}

TEST_CASE("a plugin without sensible families is refused") {
  CHECK(told("no-factory") ==
        left_out("no-factory", "has nothing to offer (expected soot.family-factory/1)"));
  CHECK(told("too-many") ==
        left_out("too-many", "says it has 4000000000 families (expected at most 1000)"));
}

TEST_CASE("a fault of one family hides only that family") {
  CHECK(told("info-missing") ==
        "plugin info-missing: family 2 left out: it is not there\nplain-1 ");
  CHECK(told("bad-family-id") ==
        "plugin bad-family-id: family 'Odd 1' (Odd 1.toml) left out: its id (expected small "
        "letters, digits and hyphens)\nplain-1 ");
  CHECK(told("long-tables") ==
        "plugin long-tables: family odd-1 left out: its tables do not end where they should "
        "(expected up to 2000000 bytes of text)\nplain-1 ");
  CHECK(told("create-fails") ==
        "plugin create-fails: family odd-1 left out: it was not made (the pump of odd-1 was never "
        "measured)\nplain-1 ");
  CHECK(told("same-family-twice") ==
        "note plugin same-family-twice: family plain-1 (plain-1.toml) is passed over: the one of "
        "plugin same-family-twice (plain-1.toml) comes first\nplain-1 ");
}

TEST_CASE("a lift law that no cam can have is refused with the angle") {
  CHECK(told("nan-lift") ==
        law_refused("nan-lift", "lift at 0.1 deg is nan (expected a finite number)"));
  CHECK(told("negative-lift") ==
        law_refused("negative-lift", "lift at -360.0 deg is -0.500 mm (expected 0 or more)"));
  CHECK(told("no-base-circle") ==
        law_refused("no-base-circle", "lift at -360.0 deg is 1.000 mm (expected the base circle)"));
  CHECK(told("no-lift") ==
        law_refused("no-lift", "no lift between -360 and 120 deg (expected a flank)"));
  CHECK(told("falling-flank") ==
        law_refused("falling-flank",
                    "lift goes from 4.0000 mm at -20.0 deg to 4.0000 mm at -19.9 deg (expected it "
                    "to rise up to 8.000 mm)"));
  CHECK(told("wrong-way-back") ==
        law_refused("wrong-way-back",
                    "angle at a lift of 0.800 mm is -51.980 deg (expected -52.000 from its own "
                    "lifts)"));
  CHECK(told("lift-refuses") == law_refused("lift-refuses",
                                            "no lift at -49.9 deg (the cam is unknown from here "
                                            "on)"));
}

TEST_CASE("a chatterer is heard for twenty lines each made fit to print") {
  std::string expected = "note plugin chatter: two families measured in 1951\n";
  for (int i = 0; i < 19; ++i)
    expected += "plugin chatter: a line ? of \xC3\xA9 noise\n";
  CHECK(told("chatter") == expected + "plain-1 odd-1 ");
}

TEST_CASE("a library that is none is refused and the others are loaded") {
  const Scratch scratch("not-a-library");
  const std::string root = scratch.path().string();
  scratch.write("text/plugin.toml", test::manifest_text("text"));
  scratch.write("text/text.so", "#!/bin/sh\n" + std::string(1000, '#'));  // room for a header
  scratch.write("gone/plugin.toml", test::manifest_text("gone"));
  scratch.write("folder/plugin.toml", test::manifest_text("folder"));
  fs::create_directory(scratch.path() / "folder/folder.so");
  scratch.write("pipe/plugin.toml", test::manifest_text("pipe"));
  REQUIRE(mkfifo((root + "/pipe/pipe.so").c_str(), 0600) == 0);
  std::string future = test::manifest_text("future");
  future.replace(future.find("abi = 1"), 7, "abi = 3");
  scratch.write("future/plugin.toml", future);
  std::vector<Manifest> manifests;
  for (const char* name : {"text", "gone", "folder", "pipe", "future"})
    manifests.push_back(read_manifest(scratch.path() / name).value());
  manifests.push_back(read_manifest(bad_folder + "none").value());
  const Registry registry(manifests);
  CHECK(soot::to_string(registry.problems()) ==
        root +
            "/text/text.so: plugin text left out: text.so cannot be loaded (invalid ELF header)\n" +
            root + "/gone/gone.so: plugin gone left out: there is no gone.so\n" + root +
            "/folder/folder.so: plugin folder left out: folder.so is no file\n" + root +
            "/pipe/pipe.so: plugin pipe left out: pipe.so is no file\n" + root +
            "/future/future.so: plugin future left out: built for plugin ABI 3 (this program "
            "speaks ABI 1)");
  CHECK(families_of(registry) == "plain-1 odd-1 ");
  REQUIRE(registry.plugins().size() == 1);
  CHECK(registry.plugins()[0].id == "none");
}

}  // namespace soot::host
