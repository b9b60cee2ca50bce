// Four hundred copies of a good plugin with one to eight random bytes of its library changed: with
// its seal each is refused before it is loaded; without, the child may die of it and the parent
// says so. No damaged copy is ever worked with.
#include "core/host/consent.hpp"
#include "core/host/trial.hpp"
#include "tests/host/scratch.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <sys/wait.h>

namespace soot::host {
namespace {

namespace fs = std::filesystem;

constexpr int copies = 400;

std::string bytes_of(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

void damage(std::string& bytes, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  for (std::size_t left = 1 + below(8); left > 0; --left) {
    char& byte = bytes[below(bytes.size())];
    byte = static_cast<char>(byte ^ static_cast<char>(1 + below(255)));
  }
}

std::string kind_of(const Trial& trial) {
  if (trial.is_usable()) return "unaffected";
  const std::string& text = trial.problems.back().text;
  for (const char* kind : {"crashed in", "still running", "ended the process"})
    if (text.rfind(kind, 0) == 0) return kind;
  return "refused";
}

}  // namespace

TEST_CASE("four hundred damaged copies of a plugin neither hurt nor deceive") {
  const fs::path good = fs::path(binary_dir()) / "plugins/lodefoot";
  const std::string sound = bytes_of(good / "lodefoot.so");
  const test::Scratch scratch("damaged");
  const fs::path copy = scratch.path() / "plugins/lodefoot";
  fs::create_directories(copy.parent_path());
  fs::copy(good, copy, fs::copy_options::recursive);
  for (const char* name : {"knowledge", "cases"})
    fs::create_directory_symlink(fs::path(source_dir()) / name, scratch.path() / name);
  fs::create_directory(scratch.path() / "bare");
  fs::copy(good / "families", scratch.path() / "bare/families");
  REQUIRE(judge_own(read_manifest(copy).value()).may_load());

  std::mt19937 random(20260801);
  std::map<std::string, int> kinds;
  for (int i = 0; i < copies; ++i) {
    CAPTURE(i);
    std::string bytes = sound;
    while (bytes == sound)
      damage(bytes, random);
    fs::remove(copy / "lodefoot.so");  // a mapped file must not change under anybody
    std::ofstream(copy / "lodefoot.so", std::ios::binary) << bytes;
    const Manifest manifest = read_manifest(copy).value();
    CHECK(judge_own(manifest).why_not == "lodefoot.so has changed since the program was built");

    if (i % 20 == 0) {  // the whole program
      const std::string talk = (scratch.path() / "talk").string();
      const std::string command = "SOOTSAYER_HOME='" + scratch.path().string() + "' '" +
                                  binary_dir() + "/sootsayer' family list >'" + talk + "' 2>&1";
      const int status = std::system(command.c_str());
      CHECK(WIFEXITED(status));
      CHECK(WEXITSTATUS(status) == 0);
      const std::string heard = bytes_of(talk);
      CHECK(heard.find("lodefoot.so has changed") != std::string::npos);
      CHECK(heard.find("lodefoot-1") == std::string::npos);
    }

    const fs::path bare = scratch.path() / "bare/bare.so";
    fs::remove(bare);
    fs::copy(copy / "lodefoot.so", bare);
    const std::vector<std::string> child{
        binary_dir() + "/sootsayer", "plugin", "probe", bare.string(), "--timeout", "5"};
    ++kinds[kind_of(try_plugin(plugin_at(bare).value(), child, {5}, [](const std::string&) {}))];
  }
  int all = 0;
  for (const auto& [kind, count] : kinds) {
    MESSAGE("figure damaged-", kind, " ", count);
    all += count;
  }
  CHECK(all == copies);
}

}  // namespace soot::host
