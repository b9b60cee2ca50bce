// Which plugins may be loaded, judged without loading any.
#include "core/host/consent.hpp"

#include "core/host/find.hpp"
#include "tests/host/scratch.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <sys/stat.h>

namespace soot::host {

namespace fs = std::filesystem;
using test::Scratch;

namespace {

Manifest write_plugin(const Scratch& scratch, const std::string& id) {
  scratch.write(id + "/plugin.toml",
                "id = \"" + id + "\"\nversion = \"1.0.0\"\nabout = \"made for a test\"\n");
  scratch.write(id + "/families/" + id + "-1.toml", "# a family\n");
  return read_manifest(scratch.path() / id).value();
}

/// The plugin `winch`, and the folder of what was added, with nothing in it yet.
struct Winch {
  explicit Winch(const char* name) : scratch(name) {}

  Result<void> note() const { return note_consent(manifest, take_seal(folder()).value(), added); }
  const fs::path& folder() const { return manifest.folder; }
  std::string why_not() const { return judge_other(manifest, added).why_not; }
  std::string here() const { return (added / "winch").string(); }

  Scratch scratch;
  fs::path added = scratch.path() / "data/plugins";
  Manifest manifest = write_plugin(scratch, "winch");
};

std::string why(const Result<Seal>& seal) {
  return seal ? "" : soot::to_string(seal.error());
}

}  // namespace

TEST_CASE("a seal agrees with sha256sum") {
  const Scratch scratch("seal-sums");
  scratch.write("a/x.txt", "abc");  // FIPS 180-4: the sum of abc is published with the standard
  scratch.write(".hidden", "not looked at");
  const Seal seal = take_seal(scratch.path()).value();
  CHECK(to_text(seal) ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  a/x.txt\n");
  const auto file = scratch.write(seal_name, to_text(seal));
  CHECK(read_seal(file).value() == seal);
  CHECK(std::system(("cd '" + scratch.path().string() + "' && sha256sum -c --status plugin.sha256")
                        .c_str()) == 0);
  CHECK(read_seal(scratch.write("other", to_text(seal, "winch/")), "winch/").value() == seal);
}

TEST_CASE("a seal that is none is told with its line") {
  const Scratch scratch("seal-broken");
  const std::string root = scratch.path().string();
  const std::string sum(64, 'a');
  CHECK(why(read_seal(scratch.path() / "gone")) == root + "/gone: no such file");
  CHECK(why(read_seal(scratch.write("empty", ""))) ==
        root + "/empty: is empty (expected lines of sha256sum)");
  CHECK(why(read_seal(scratch.write("short", sum + "  a\n" + sum.substr(1) + "  b\n"))) ==
        root + "/short:2: is no sum and name (expected lines of sha256sum)");
  CHECK(why(read_seal(scratch.write("other", sum + "  a\n"), "winch/")) ==
        root + "/other:1: is no sum and name (expected lines of sha256sum)");
}

TEST_CASE("what is no file in a plugin folder is told") {
  const Scratch scratch("seal-odd");
  const std::string root = scratch.path().string();
  REQUIRE(mkfifo((root + "/pipe").c_str(), 0600) == 0);
  CHECK(why(take_seal(scratch.path())) ==
        root + "/pipe: is no file (expected files and folders in a plugin's folder)");
  fs::remove(scratch.path() / "pipe");
  fs::create_symlink("nowhere", scratch.path() / "link");
  CHECK(why(take_seal(scratch.path())) ==
        root + "/link: is no file (expected files and folders in a plugin's folder)");
  fs::remove(scratch.path() / "link");
  for (int i = 0; i < 201; ++i)
    scratch.write("file" + std::to_string(i), "");
  CHECK(why(take_seal(scratch.path())) ==
        root + ": is too much for a plugin (expected at most 200 files and 64 MB)");
}

TEST_CASE("a plugin of the program is loaded as it was built and no other way") {
  const Scratch scratch("consent-own");
  const Manifest manifest = write_plugin(scratch, "winch");
  CHECK(judge_own(manifest).why_not ==
        (scratch.path() / "winch/plugin.sha256").string() + ": no such file");
  scratch.write("winch/plugin.sha256", to_text(take_seal(manifest.folder).value()));
  CHECK(judge_own(manifest).may_load());
  scratch.write("winch/families/winch-1.toml", "# a femily\n");
  CHECK(judge_own(manifest).why_not ==
        "families/winch-1.toml has changed since the program was built");
  fs::remove(scratch.path() / "winch/families/winch-1.toml");
  CHECK(judge_own(manifest).why_not == "families/winch-1.toml is gone since the program was built");
  CHECK(soot::to_string(refusal_of(judge_own(manifest))) ==
        scratch.path().string() +
            "/winch/plugin.toml: plugin winch left out: families/winch-1.toml is gone since the "
            "program was built (install or build the program anew)");
}

TEST_CASE("another plugin is loaded once added and asks again when changed") {
  const Winch winch("consent-other");
  CHECK(winch.why_not() == "has not been added");
  const soot::Problem refusal = refusal_of(judge_other(winch.manifest, winch.added));
  CHECK(refusal.severity == soot::Severity::note);
  CHECK(refusal.text ==
        "plugin winch left out: has not been added (to use it: sootsayer plugin add " +
            winch.folder().string() + ")");

  REQUIRE(winch.note());
  CHECK(winch.why_not().empty());
  const Found found = find_plugins({winch.added});
  REQUIRE(found.manifests.size() == 1);
  CHECK(judge_other(found.manifests[0], winch.added).may_load());

  winch.scratch.write("winch/new.toml", "");
  CHECK(winch.why_not() == "new.toml is new since it was added");
  const soot::Problem changed = refusal_of(judge_other(found.manifests[0], winch.added));
  CHECK(changed.severity == soot::Severity::error);
  CHECK(changed.text ==
        "plugin winch left out: new.toml is new since it was added (to use it: sootsayer plugin "
        "add " +
            winch.folder().string() + ")");
  REQUIRE(winch.note());
  CHECK(winch.why_not().empty());
}

TEST_CASE("an added plugin whose folder is gone is named with the way out") {
  const Winch winch("consent-gone");
  REQUIRE(winch.note());
  fs::remove_all(winch.folder());
  const std::string gone =
      winch.here() + ": leads nowhere: " + winch.folder().string() + " is gone (put it back, or ";
  CHECK(soot::to_string(find_plugins({winch.added}).problems) ==
        gone + "use it no longer: sootsayer plugin remove winch)");
  fs::remove(winch.here() + ".sha256");  // a link that no `plugin add` made
  CHECK(soot::to_string(find_plugins({winch.added}).problems) == gone + "delete this link)");
}

TEST_CASE("an added plugin is forgotten with its link and its folder stays") {
  const Winch winch("consent-forgotten");
  REQUIRE(winch.note());
  CHECK(added_ids(winch.added) == std::vector<std::string>{"winch"});
  REQUIRE(forget_consent("winch", winch.added));
  CHECK(added_ids(winch.added).empty());
  CHECK(winch.why_not() == "has not been added");
  CHECK(fs::is_empty(winch.added));
  CHECK(fs::exists(winch.folder() / "plugin.toml"));
  CHECK(soot::to_string(forget_consent("winch", winch.added).error()) ==
        "plugin winch has not been added");
}

TEST_CASE("a plugin whose folder is gone or stands among the added is forgotten too") {
  const Winch winch("consent-forgotten-gone");
  REQUIRE(winch.note());
  fs::remove_all(winch.folder());
  REQUIRE(forget_consent("winch", winch.added));
  CHECK(find_plugins({winch.added}).problems.empty());

  fs::rename(write_plugin(winch.scratch, "crane").folder, winch.added / "crane");
  const Manifest among = read_manifest(winch.added / "crane").value();
  REQUIRE(note_consent(among, take_seal(among.folder).value(), winch.added));
  REQUIRE(forget_consent("crane", winch.added));
  CHECK(fs::exists(among.folder / "plugin.toml"));
}

TEST_CASE("a folder that stands where the note leads is not overwritten") {
  const Winch winch("consent-in-the-way");
  fs::create_directories(winch.here());
  const soot::Result<void> noted = winch.note();
  REQUIRE_FALSE(noted);
  CHECK(soot::to_string(noted.error()) ==
        winch.here() + ": stands in the way (expected no other folder of this plugin there)");
}

}  // namespace soot::host
