// Words that only the program can answer for: told when it does not know them.
#include "core/workbench/program_words.hpp"

#include "tests/places.hpp"

#include <doctest/doctest.h>

using soot::Knowledge;
using soot::Step;

TEST_CASE("a rule of geometry that is none") {
  Knowledge knowledge;
  knowledge.quantities.resize(2);
  knowledge.quantities[0].id = "lifter-depth";
  knowledge.quantities[0].geometry = "depth";
  knowledge.quantities[1].id = "rim-arc";
  knowledge.quantities[1].geometry = "dept";
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "rim-arc follows the geometry of 'dept', which is none (expected one of depth, base-depth, "
        "spill, rim-arc, piston-drop, plunger-length, lobe-lift, mark)");
}

TEST_CASE("a sum that is not there") {
  Knowledge knowledge;
  knowledge.corrections.resize(2);
  knowledge.corrections[0].id = "set-lifter";
  knowledge.corrections[0].sum = "lifter";
  knowledge.corrections[1].id = "set-lifters";
  knowledge.corrections[1].sum = "liftre";
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "set-lifters names sum 'liftre', which is not there, did you mean lifter?");
}

TEST_CASE("a step that asks for a misspelt figure") {
  Knowledge knowledge;
  knowledge.procedures.resize(1);
  knowledge.procedures[0].id = "measure";
  knowledge.procedures[0].steps = {Step{{"Read {lifter-depth}, in the order {firing-order}."}},
                                   Step{{"Then {of-one-family}, then {lifter-dept|so}."}}};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "measure asks for figure 'lifter-dept', which is not known, did you mean lifter-depth?");
  knowledge.procedures[0].steps = {Step{{"Read {lifter-depth."}}};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "measure: a brace is not closed in 'Read {lifter-depth.'");
}

TEST_CASE("the knowledge as it ships has none of these") {
  const auto loaded = soot::load_sound_knowledge(source_dir() + "/knowledge");
  CHECK_MESSAGE(loaded, (loaded ? "" : to_string(loaded.error())));
}
