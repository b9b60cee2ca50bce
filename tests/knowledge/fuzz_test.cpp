// Seeded nonsense: a sound folder of knowledge with one of its files spoilt byte by byte, or cut
// short, loads or is refused with a place in that folder, never anything else.
#include "tests/knowledge/scratch_folder.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

using soot::test::cause_text;
using soot::test::frame_text;
using soot::test::scale_text;
using soot::test::ScratchFolder;

namespace {

using Random = std::mt19937;

std::string spoilt(std::string text, Random& random) {
  static const std::string spice("=[]{}\"'\n.,#-+\\\t\0\xFF\xC2 0x9z", 24);
  const std::size_t changes = 1 + random() % 4;
  for (std::size_t i = 0; i < changes && !text.empty(); ++i) {
    const std::size_t at = random() % text.size();
    const std::size_t length = std::min<std::size_t>(1 + random() % 30, text.size() - at);
    switch (random() % 5) {
      case 0:
        text[at] = spice[random() % spice.size()];
        break;
      case 1:
        text.erase(at, length);
        break;
      case 2:
        text.insert(at, text.substr(random() % text.size(), length));
        break;
      case 3:
        text.insert(at, 1, spice[random() % spice.size()]);
        break;
      default:
        text.resize(at);  // a copy cut short
    }
  }
  return text;
}

}  // namespace

TEST_CASE("spoilt files are read or refused with a place") {
  Random random(20310402);  // fixed: the same nonsense every time
  const ScratchFolder folder;
  const std::pair<const char*, const std::string*> files[] = {
      {"scale.toml", &scale_text}, {"frame.toml", &frame_text}, {"causes.toml", &cause_text}};
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    folder.fill();
    const auto& [name, good] = files[random() % 3];
    folder.write(name, spoilt(*good, random));
    const auto loaded = soot::load_knowledge(folder.path());
    if (loaded) continue;
    ++refused;
    CAPTURE(round);
    REQUIRE_FALSE(loaded.error().empty());
    for (const soot::Problem& problem : loaded.error()) {
      CAPTURE(to_string(problem));
      CHECK(problem.place.file.text().starts_with(folder.path().string()));
      CHECK_FALSE(problem.text.empty());
      CHECK(problem.kind == soot::Kind::data);
    }
  }
  CHECK(refused > 200);
}
