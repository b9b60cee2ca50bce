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
  const Scratch scratch("consent-other");
  const fs::path added = scratch.path() / "data/plugins";
  const Manifest manifest = write_plugin(scratch, "winch");
  const std::string root = scratch.path().string();
  CHECK(judge_other(manifest, added).why_not == "has not been added");
  const soot::Problem refusal = refusal_of(judge_other(manifest, added));
  CHECK(refusal.severity == soot::Severity::note);
  CHECK(refusal.text ==
        "plugin winch left out: has not been added (to use it: sootsayer plugin add " + root +
            "/winch)");

  REQUIRE(note_consent(manifest, take_seal(manifest.folder).value(), added));
  CHECK(judge_other(manifest, added).may_load());
  const Found found = find_plugins({added});
  REQUIRE(found.manifests.size() == 1);
  CHECK(judge_other(found.manifests[0], added).may_load());

  scratch.write("winch/new.toml", "");
  CHECK(judge_other(manifest, added).why_not == "new.toml is new since it was added");
  CHECK(refusal_of(judge_other(manifest, added)).severity == soot::Severity::error);
  REQUIRE(note_consent(manifest, take_seal(manifest.folder).value(), added));
  CHECK(judge_other(manifest, added).may_load());
}

TEST_CASE("an added plugin whose folder is gone is named") {
  const Scratch scratch("consent-gone");
  const fs::path added = scratch.path() / "data/plugins";
  const Manifest manifest = write_plugin(scratch, "winch");
  REQUIRE(note_consent(manifest, take_seal(manifest.folder).value(), added));
  fs::remove_all(manifest.folder);
  CHECK(soot::to_string(find_plugins({added}).problems) ==
        (added / "winch").string() + ": leads nowhere: " + manifest.folder.string() +
            " is gone (put it back, or delete this link)");
}

TEST_CASE("an added plugin is forgotten with its link and its folder stays") {
  const Scratch scratch("consent-forgotten");
  const fs::path added = scratch.path() / "data/plugins";
  const Manifest manifest = write_plugin(scratch, "winch");
  REQUIRE(note_consent(manifest, take_seal(manifest.folder).value(), added));
  CHECK(added_ids(added) == std::vector<std::string>{"winch"});
  REQUIRE(forget_consent("winch", added));
  CHECK(added_ids(added).empty());
  CHECK(judge_other(manifest, added).why_not == "has not been added");
  CHECK(fs::is_empty(added));
  CHECK(fs::exists(manifest.folder / "plugin.toml"));
  CHECK(soot::to_string(forget_consent("winch", added).error()) ==
        "plugin winch has not been added");
}

TEST_CASE("a plugin whose folder is gone or stands among the added is forgotten too") {
  const Scratch scratch("consent-forgotten-gone");
  const fs::path added = scratch.path() / "data/plugins";
  const Manifest gone = write_plugin(scratch, "winch");
  REQUIRE(note_consent(gone, take_seal(gone.folder).value(), added));
  fs::remove_all(gone.folder);
  REQUIRE(forget_consent("winch", added));
  CHECK(find_plugins({added}).problems.empty());

  fs::rename(write_plugin(scratch, "crane").folder, added / "crane");
  const Manifest among = read_manifest(added / "crane").value();
  REQUIRE(note_consent(among, take_seal(among.folder).value(), added));
  REQUIRE(forget_consent("crane", added));
  CHECK(fs::exists(among.folder / "plugin.toml"));
}

TEST_CASE("a folder that stands where the note leads is not overwritten") {
  const Scratch scratch("consent-in-the-way");
  const fs::path added = scratch.path() / "data/plugins";
  const Manifest manifest = write_plugin(scratch, "winch");
  fs::create_directories(added / "winch");
  const soot::Result<void> noted =
      note_consent(manifest, take_seal(manifest.folder).value(), added);
  REQUIRE_FALSE(noted);
  CHECK(soot::to_string(noted.error()) ==
        (added / "winch").string() +
            ": stands in the way (expected no other folder of this plugin there)");
}

}  // namespace soot::host
