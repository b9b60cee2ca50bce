// The knowledge kept for the next start: all of it or nothing, and only while its files are the
// same.
#include "core/knowledge/snapshot.hpp"

#include "core/base/build_id.hpp"
#include "tests/knowledge/scratch_folder.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace {

namespace fs = std::filesystem;
using namespace soot;
using namespace soot::test;

Stamp stamp_of_sound(const fs::path& folder) {
  const std::optional<Stamp> stamp = stamp_of(folder);
  REQUIRE(stamp);
  return *stamp;
}

/// A small folder and its snapshot.
class Kept {
 public:
  Kept() {
    folder_.fill();
    stamp_ = stamp_of_sound(folder_.path());
    const Result<LoadedKnowledge> loaded = load_knowledge(folder_.path());
    REQUIRE(loaded);
    write_snapshot(file(), stamp_, *loaded);
  }

  const ScratchFolder& folder() const { return folder_; }
  fs::path file() const { return folder_.path() / "kept" / "knowledge"; }
  const Stamp& stamp() const { return stamp_; }
  std::optional<LoadedKnowledge> read() const { return read_snapshot(file(), stamp_); }

  std::string bytes() const {
    std::ostringstream out;
    out << std::ifstream(file(), std::ios::binary).rdbuf();
    return out.str();
  }
  void put(const std::string& bytes) const {
    std::ofstream(file(), std::ios::binary | std::ios::trunc) << bytes;
  }

 private:
  ScratchFolder folder_;
  Stamp stamp_;
};

}  // namespace

TEST_CASE("a snapshot gives back every field of the knowledge as it ships") {
  const ScratchFolder place;
  const Stamp stamp = stamp_of_sound(source_dir() + "/knowledge");
  const Result<LoadedKnowledge> loaded = load_knowledge(source_dir() + "/knowledge");
  REQUIRE(loaded);
  write_snapshot(place.path() / "made" / "on-the-way" / "knowledge", stamp, *loaded);
  const auto kept = read_snapshot(place.path() / "made" / "on-the-way" / "knowledge", stamp);
  REQUIRE(kept);
  CHECK(*kept == *loaded);
}

TEST_CASE("a snapshot gives back what the knowledge as it ships has no use for") {
  const Kept kept;
  LoadedKnowledge loaded = kept.read().value();
  Knowledge& all = loaded.knowledge;
  all.symptoms.edit(0).imagined = 0.02;
  all.causes.edit(0).unparted = "nothing but time";
  all.causes.edit(0).effects[0].share_of_nominal = true;
  all.corrections.edit(0).variants = {
      WorkVariant{"winch", {{"lid"}}, {{"key"}}, "lifter", "steps"}};
  all.quantities.push_back(Quantity{});  // a plain number: its unit has no name
  write_snapshot(kept.file(), kept.stamp(), loaded);
  CHECK(kept.read() == loaded);
}

TEST_CASE("places read from a snapshot share the names of their files") {
  const Kept kept;
  const std::optional<LoadedKnowledge> read = kept.read();
  REQUIRE(read);
  const Cause& cause = read->knowledge.causes.front();
  CHECK(cause.place.file == (kept.folder().path() / "causes.toml").string());
  CHECK(cause.place.file.shared() == cause.links.front().place.file.shared());
}

TEST_CASE("a file that is changed or added or gone makes another stamp") {
  const Kept kept;
  const ScratchFolder& folder = kept.folder();
  CHECK(stamp_of_sound(folder.path()).text == kept.stamp().text);
  folder.write("causes.toml", cause_text + "# seen\n");
  const Stamp changed = stamp_of_sound(folder.path());
  CHECK(changed.text != kept.stamp().text);
  CHECK_FALSE(read_snapshot(kept.file(), changed));
  folder.write("more.toml", "");
  const Stamp more = stamp_of_sound(folder.path());
  CHECK(more.text != changed.text);
  fs::remove(folder.path() / "more.toml");
  CHECK(stamp_of_sound(folder.path()).text == changed.text);
}

TEST_CASE("the knowledge is read once and again when a file is another") {
  const ScratchFolder folder;
  folder.fill();
  const ScratchFolder cache;
  int reads = 0;
  const auto load = [&](const fs::path& from) {
    ++reads;
    return load_knowledge(from);
  };
  const auto name_at = [&](std::time_t now) {
    const auto loaded = by_snapshot(folder.path(), cache.path() / "kept", now, load);
    REQUIRE(loaded);
    return loaded->knowledge.causes.front().name;
  };
  const std::time_t just_now = stamp_of_sound(folder.path()).youngest;
  const std::time_t later = just_now + 60;
  CHECK(name_at(just_now + 2) == "lifter set wrong");
  CHECK_FALSE(fs::exists(cache.path() / "kept"));
  CHECK(name_at(later) == "lifter set wrong");
  CHECK(reads == 2);
  CHECK(name_at(later) == "lifter set wrong");
  CHECK(reads == 2);
  // Of the same size, put in the place of the old one as an editor does.
  folder.write("new", with(cause_text, "lifter set wrong", "lifter set badly"));
  fs::rename(folder.path() / "new", folder.path() / "causes.toml");
  CHECK(name_at(later) == "lifter set badly");
  CHECK(name_at(later) == "lifter set badly");
  CHECK(reads == 3);
  folder.write("causes.toml", with(cause_text, "lifter set wrong", ""));
  CHECK_FALSE(by_snapshot(folder.path(), cache.path() / "kept", later, load));
}

TEST_CASE("a folder that is not there has no stamp") {
  CHECK_FALSE(stamp_of("/nowhere/knowledge"));
}

TEST_CASE("what changed in this very moment might change again unseen") {
  Stamp stamp;
  stamp.youngest = 1000;
  CHECK_FALSE(stamp.is_settled(999));
  CHECK_FALSE(stamp.is_settled(1002));
  CHECK(stamp.is_settled(1003));
}

TEST_CASE("the stamp begins with the build of the program") {
  const Kept kept;
  CHECK(build_id().size() == 40);
  CHECK(kept.stamp().text.starts_with(build_id() + "\n"));
  Stamp of_another = kept.stamp();
  of_another.text[0] = of_another.text[0] == '0' ? '1' : '0';
  CHECK_FALSE(read_snapshot(kept.file(), of_another));
}

TEST_CASE("a damaged snapshot is none") {
  const Kept kept;
  const std::string whole = kept.bytes();
  REQUIRE(kept.read());
  for (std::size_t at = 0; at < whole.size(); at += 13) {
    std::string damaged = whole;
    damaged[at] = static_cast<char>(damaged[at] ^ 0x41);
    kept.put(damaged);
    CHECK_FALSE(kept.read());
    kept.put(whole.substr(0, at));
    CHECK_FALSE(kept.read());
  }
  kept.put(whole + "x");
  CHECK_FALSE(kept.read());
  kept.put(whole);
  CHECK(kept.read());
  fs::remove(kept.file());
  CHECK_FALSE(kept.read());
}

TEST_CASE("where a snapshot cannot be written nothing is left behind") {
  const Kept kept;
  const LoadedKnowledge loaded = kept.read().value();
  const ScratchFolder place;
  place.write("taken", "a file");
  write_snapshot(place.path() / "taken" / "knowledge", kept.stamp(), loaded);
  fs::create_directory(place.path() / "folder");
  place.write("folder/in-the-way", "so that nothing can take its place");
  write_snapshot(place.path() / "folder", kept.stamp(), loaded);
  std::size_t left = 0;
  for (const auto& entry : fs::directory_iterator(place.path())) {
    CHECK((entry.path().filename() == "taken" || entry.path().filename() == "folder"));
    ++left;
  }
  CHECK(left == 2);
}
