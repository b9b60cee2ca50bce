// Safety gates as they are read, and their mistakes to the letter.
#include "tests/knowledge/scratch_folder.hpp"

#include <doctest/doctest.h>

using soot::test::ScratchFolder;
using soot::test::with;

namespace {

const std::string gate_text = R"([[gate]]
id = "no-liquid"
name = "no liquid on a piston"
before = "cranking"
after-history = ["long-storage"]
after-found = ["hard-start"]
ask = "first look for liquid"
also = "bar out"
source = "practice"
)";

std::string gate_complaints(const std::string& text) {
  const ScratchFolder folder;
  folder.fill();
  folder.write("gates.toml", text);
  return folder.complaints();
}

}  // namespace

TEST_CASE("a gate is read with all that shuts it") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("gates.toml", with(gate_text, "\"cranking\"", "\"running\""));
  const auto loaded = soot::load_knowledge(folder.path());
  REQUIRE(loaded);
  REQUIRE(loaded->knowledge.gates.size() == 1);
  const soot::Gate& gate = loaded->knowledge.gates.front();
  CHECK(gate.before == soot::Running::running);
  CHECK(gate.after_history == std::vector<std::string>{"long-storage"});
  CHECK(gate.after_found == std::vector<std::string>{"hard-start"});
  CHECK(gate.ask == "first look for liquid");
  CHECK(gate.also == "bar out");
  CHECK(gate.prove.empty());
}

TEST_CASE("a gate that names what is not there") {
  CHECK(gate_complaints(with(gate_text, "[\"hard-start\"]", "[\"hard-strat\"]")) ==
        "gates.toml:6:16: no-liquid names symptom 'hard-strat', which is not there, did you mean "
        "hard-start?\n");
  CHECK(gate_complaints(with(gate_text, "long-storage", "long-sleep")) ==
        "gates.toml:5:18: no-liquid names history 'long-sleep', which is not there\n");
  CHECK(gate_complaints(gate_text + "prove = \"liquid-look\"\nwithin = \"rack\"\n") ==
        "gates.toml:10:9: no-liquid names check 'liquid-look', which is not there\n"
        "gates.toml:11:10: no-liquid names figure 'rack', which is not there\n");
}

TEST_CASE("a gate that cites what is no source") {
  CHECK(gate_complaints(with(gate_text, "\"practice\"", "\"practice; ZZ-TOP-4711: the bar\"")) ==
        "gates.toml:9:10: no-liquid cites 'ZZ-TOP-4711', which is no source key (expected one of "
        "sources.toml, practice, judgement or derived)\n");
}

TEST_CASE("a gate before nothing or shut by nothing") {
  CHECK(gate_complaints(with(gate_text, "\"cranking\"", "\"lunch\"")) ==
        "gates.toml:4:10: before is 'lunch' (expected cranking or running)\n");
  const std::string never = with(with(gate_text, "after-history = [\"long-storage\"]\n", ""),
                                 "after-found = [\"hard-start\"]\n", "");
  CHECK(gate_complaints(never).find(
            "nothing shuts the gate (expected after-caution, after-history or "
            "after-found)") != std::string::npos);
}
