// The steps of every piece of work on every family: nothing blank, nothing of parts that the engine
// lacks, nothing that a screen of 80 columns breaks.
#include "core/workbench/steps_builder.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <sstream>

using soot::Engine;
using soot::Knowledge;
using soot::steps_of;
using soot::test::real_bench;

namespace {

std::vector<std::string> ids_of_work(const Knowledge& knowledge) {
  std::vector<std::string> ids = ids_of(knowledge.checks);
  for (const auto& more : {ids_of(knowledge.corrections), ids_of(knowledge.procedures)})
    ids.insert(ids.end(), more.begin(), more.end());
  return ids;
}

void on_every_sheet(
    const std::function<void(const Engine&, const soot::StepsSheet&, const std::string&)>& look) {
  for (const soot::Bench::Served& served : real_bench().families()) {
    const Engine engine = real_bench().engine(served.family.id).value();
    for (const std::string& id : ids_of_work(engine.knowledge)) {
      const soot::StepsSheet sheet = steps_of(engine, id).value();
      CAPTURE(served.family.id);
      CAPTURE(id);
      look(engine, sheet, to_text(sheet, soot::Look{}));
    }
  }
}

std::string message_of(const Engine& engine, const std::string& id) {
  const auto sheet = steps_of(engine, id);
  REQUIRE_FALSE(sheet);
  return to_string(sheet.error());
}

}  // namespace

TEST_CASE("no sheet of any family has a blank or a line over 80 columns") {
  on_every_sheet([](const Engine&, const soot::StepsSheet& sheet, const std::string& text) {
    CHECK(text.find_first_of("{}|") == std::string::npos);
    CHECK_FALSE(sheet.lines.empty());
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
      CHECK_MESSAGE(line.size() <= 80, line);
  });
}

TEST_CASE("what a sheet sends on to is there on that family") {
  on_every_sheet([](const Engine& engine, const soot::StepsSheet&, const std::string& text) {
    std::string flat = text;
    std::replace(flat.begin(), flat.end(), '\n', ' ');
    for (std::size_t at = flat.find("`steps "); at != std::string::npos;
         at = flat.find("`steps ", at + 1)) {
      const std::size_t from = flat.find_first_not_of(' ', at + 7);
      const std::string id = flat.substr(from, flat.find('`', from) - from);
      CHECK_MESSAGE(steps_of(engine, id), id);
    }
  });
}

TEST_CASE("a family that gives its figures is told of none that is missing") {
  on_every_sheet([](const Engine& engine, const soot::StepsSheet&, const std::string& text) {
    if (engine.family.id == "unplated-2") return;
    // No family gives it: feeds are set by sight.
    if (text.find("no figure of lubricator-drops") != std::string::npos) return;
    CHECK(text.find("(no figure of") == std::string::npos);
    CHECK(text.find("no figure of") == std::string::npos);
  });
}

TEST_CASE("no depth is read under an in-line pump and no in-line pump timed where there is none") {
  on_every_sheet([](const Engine& engine, const soot::StepsSheet&, const std::string& text) {
    if (engine.family.has("in-line-pump")) {
      CHECK(text.find("depth micrometer") == std::string::npos);
      CHECK(text.find("lifter-depth") == std::string::npos);
      CHECK(text.find("set-lifter") == std::string::npos);
      CHECK(text.find("sum lifter") == std::string::npos);
    } else {
      CHECK(text.find("in-line pump") == std::string::npos);
      CHECK(text.find("spill of No. 1") == std::string::npos);
    }
  });
}

TEST_CASE("one cylinder has no next one and a two-stroke one top centre a turn") {
  on_every_sheet([](const Engine& engine, const soot::StepsSheet&, const std::string& text) {
    if (!engine.family.has("several-cylinders")) {
      CHECK(text.find("ext cylinder") == std::string::npos);
      CHECK(text.find("compare the cylinders") == std::string::npos);
    }
    if (engine.family.has("two-stroke"))
      CHECK(text.find("firing top centre of the") == std::string::npos);
  });
}

TEST_CASE("asked for what other engines have the answer says which engines") {
  const Engine in_line = real_bench().engine("skarnfell-4").value();
  CHECK(message_of(in_line, "set-lifters") ==
        "'set-lifters' is not for skarnfell-4 (only with: a pump by itself for each cylinder)");
  CHECK(message_of(in_line, "set-lifter") ==
        "'set-lifter' is not for skarnfell-4 (only with: a pump by itself for each cylinder)");
  CHECK(message_of(in_line, "read-lifter-depth") ==
        "'read-lifter-depth' is not for skarnfell-4 (of no use on this engine)");
  CHECK(message_of(soot::test::lodefoot(), "oil-pressure") ==
        "'oil-pressure' is not for lodefoot-1 (never with: oiled by splash alone)");
}
