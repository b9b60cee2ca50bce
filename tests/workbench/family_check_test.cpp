// Family files as a shop writes them: the six that ship, which are complete; and one spoilt in
// every way that its author must hear of, with file and line.
#include "core/workbench/family_check.hpp"

#include "core/calc/derived.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "tests/workbench/real_bench.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// A file of its own, gone with it. CTest runs cases side by side, each in a process of its own.
class Scratch {
 public:
  explicit Scratch(const std::string& text)
      : path_(fs::temp_directory_path() / ("soot-family-" + std::to_string(getpid()) + "-" +
                                           std::to_string(number()++) + ".toml")) {
    std::ofstream(path_, std::ios::binary) << text;
  }
  ~Scratch() { fs::remove(path_); }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  const fs::path& path() const { return path_; }

 private:
  static int& number() {
    static int next = 0;
    return next;
  }
  fs::path path_;
};

const std::string hagmoss_file = source_dir() + "/plugins/tabular/families/hagmoss-4.toml";

/// "figure: text" of every finding in the Hagmoss file with one piece replaced; lines are told by
/// the source line they name.
std::string told(const std::string& from, const std::string& to) {
  std::string text = text_of(hagmoss_file);
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, from);
  text.replace(at, from.size(), to);
  const Scratch file(text);
  const auto found = soot::check_family(soot::test::real_bench(), file.path());
  if (found) return "";
  std::string out;
  for (const soot::Problem& problem : found.error()) {
    CHECK(problem.kind == soot::Kind::data);
    CHECK(problem.place.file == file.path().string());
    CHECK(problem.place.line > 0);
    out += problem.text + "\n";
  }
  return out;
}

}  // namespace

TEST_CASE("the six families that ship are complete and agree with themselves") {
  for (const std::string path :
       {"tabular/families/grebemouth-6", "tabular/families/hagmoss-4",
        "tabular/families/skarnfell-4", "tabular/families/wickerlode-3",
        "lodefoot/families/lodefoot-1", "sallowness/families/sallowness-2"}) {
    CAPTURE(path);
    const auto found =
        soot::check_family(soot::test::real_bench(), source_dir() + "/plugins/" + path + ".toml");
    REQUIRE_MESSAGE(found, (found ? "" : soot::to_string(found.error())));
    CHECK(found->timing_gaps.empty());
    CHECK(found->left_out.size() <= 1);
  }
  CHECK(soot::test::real_bench().families().size() == 7);  // and one without figures
}

TEST_CASE("an in-line pump has no depth and is not asked for one") {
  const auto found = soot::check_family(
      soot::test::real_bench(), source_dir() + "/plugins/tabular/families/skarnfell-4.toml");
  REQUIRE(found);
  for (const std::string& key : found->left_out)
    CHECK(key.find("lifter-depth") == std::string::npos);
}

TEST_CASE("findings in the file of a family") {
  CHECK(
      told("value = \"29.20 mm\", tolerance = \"0.05 mm\"",
           "value = \"29.40 mm\", tolerance = \"0.05 mm\"") ==
      "lifter-depth is 29.40 mm (expected 29.20 mm, from foot at closing, static timing, lift)\n");
  CHECK(told("tolerance = \"0.05 mm\"", "tolerance = \"0.01 mm\"")
            .find("lifter-depth: a tolerance of 0.01 mm is finer than its instrument (expected") !=
        std::string::npos);
  CHECK(told("closing = \"15 deg\"", "closing = \"15 mm\"") ==
        "closing of lift law constant-rate is a length (expected an angle in deg)\n");
  CHECK(
      told("crank-gear-radius = { value = \"60 mm\"", "crank-gear-radius = { value = \"61 mm\"") ==
      "crank-gear-radius is 61 mm (expected 60 mm, from module and teeth of the crank's gear)\n");
  CHECK(told("pump-teeth = \"60\"", "pump-teeth = \"45\"") ==
        "pump-teeth is 45 (expected 60, from teeth of the crank's gear, strokes)\n");
  CHECK(told("rack-full = { value = \"7.2 mm\"", "rack-full = { value = \"9.2 mm\"") ==
        "rack-full is 9.2 mm (expected 7.2 mm, from rack at no delivery, effective stroke, "
        "helix)\n");
  CHECK(told("rim-per-degree = { value = \"4.89", "rim-per-degree = { value = \"4.19") ==
        "rim-per-degree is 4.19 mm/deg (expected 4.89 mm/deg, from flywheel diameter)\n");
  CHECK(told("flywheel-diameter = \"560 mm\"", "flywheel-diameter = \"22.05 in\"") == "");
}

TEST_CASE("a feature that is nearly a known one") {
  CHECK(told("\"jam-nut\"", "\"jamnut\"") ==
        "jamnut is no feature known here, did you mean jam-nut?\n");
  CHECK(told("\"jam-nut\"", "\"jam-nut\", \"winch-brake\"") == "");
}

TEST_CASE("a depth that would put the plunger through the head hides the family") {
  const std::string told_words = told("value = \"29.20 mm\"", "value = \"28.40 mm\"");
  CHECK(told_words ==
        "lifter-depth is 28.40 mm (expected 29.20 mm, from foot at closing, static timing, lift)\n"
        "lifter-depth 28.40 mm would put the plunger through the head: 0.80 mm higher than the "
        "other figures make it, with 0.60 mm of room (expected 29.20 mm; set nothing by it)\n");
}

TEST_CASE("half a family is told what it still wants") {
  const Scratch file(
      "[family]\nid = \"half-2\"\nname = \"Half two\"\nversion = \"1\"\nauthor = \"test\"\n"
      "cylinders = 2\nfiring-order = [1, 2]\nrotation = \"clockwise seen from the fan\"\n"
      "numbering = \"No. 1 is next to the fan\"\n"
      "features = [\"four-stroke\", \"lifters\", \"individual-pumps\", \"several-cylinders\"]\n"
      "[figures]\nbore = \"140 mm\"\nstroke = \"190 mm\"\n");
  const auto found = soot::check_family(soot::test::real_bench(), file.path());
  REQUIRE_MESSAGE(found, (found ? "" : soot::to_string(found.error())));
  CHECK(found->timing_gaps ==
        std::vector<std::string>{"static-timing (what the spill angle should be)",
                                 "lift-rate (depth to degrees; or a [lift] table)",
                                 "lifter-depth (what the depth should be)",
                                 "lifter-thread-pitch (turns and flats of the screw)",
                                 "crank-teeth (what a tooth out looks like)"});
  const auto has = [](const std::vector<std::string>& list, const std::string& key) {
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  CHECK(has(found->left_out, "nozzle-opening"));
  CHECK_FALSE(has(found->left_out, "swept-volume"));  // follows from bore and stroke
  CHECK(has(found->compare_only, "lifter-depth"));
}

TEST_CASE("the blank form names every figure that is not merely worked out") {
  const std::string form =
      text_of(source_dir() + "/core/sdk/template/tabular/families/my-engine-1.toml");
  REQUIRE_FALSE(form.empty());
  for (const soot::FigureKey& known : soot::known_figures()) {
    CAPTURE(known.key);
    const bool asked = form.find("\n# " + std::string{known.key} + " = ") != std::string::npos;
    CHECK((asked || soot::calc::find_derivation(known.key) != nullptr));
  }
}

TEST_CASE("a file that is not there is bad data") {
  const auto found = soot::check_family(soot::test::real_bench(), "/nowhere/mine-3.toml");
  REQUIRE_FALSE(found);
  CHECK(found.error().front().kind == soot::Kind::data);
}
