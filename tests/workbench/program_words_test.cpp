// Words that only the program can answer for: told when it does not know them.
#include "core/workbench/program_words.hpp"

#include "tests/places.hpp"

#include <doctest/doctest.h>

using soot::Correction;
using soot::Knowledge;
using soot::Procedure;
using soot::Quantity;
using soot::Step;

TEST_CASE("a rule of geometry that is none") {
  Quantity depth, arc;
  depth.id = "lifter-depth";
  depth.geometry = "depth";
  arc.id = "rim-arc";
  arc.geometry = "dept";
  Knowledge knowledge;
  knowledge.quantities = {depth, arc};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "rim-arc follows the geometry of 'dept', which is none (expected one of depth, base-depth, "
        "spill, rim-arc, piston-drop, plunger-length, lobe-lift, mark)");
}

TEST_CASE("a sum that is not there") {
  Correction one, all;
  one.id = "set-lifter";
  one.sum = "lifter";
  all.id = "set-lifters";
  all.sum = "liftre";
  Knowledge knowledge;
  knowledge.corrections = {one, all};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "set-lifters names sum 'liftre', which is not there, did you mean lifter?");
}

TEST_CASE("a step that asks for a misspelt figure") {
  Procedure procedure;
  procedure.id = "measure";
  procedure.steps = {Step{{"Read {lifter-depth}, in the order {firing-order}."}},
                     Step{{"Then {of-one-family}, then {lifter-dept|so}."}}};
  Knowledge knowledge;
  knowledge.procedures = {procedure};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "measure asks for figure 'lifter-dept', which is not known, did you mean lifter-depth?");
  procedure.steps = {Step{{"Read {lifter-depth."}}};
  knowledge.procedures = {procedure};
  CHECK(to_string(unknown_program_words(knowledge)) ==
        "measure: a brace is not closed in 'Read {lifter-depth.'");
}

TEST_CASE("the knowledge as it ships has none of these") {
  const auto loaded = soot::load_sound_knowledge(source_dir() + "/knowledge");
  CHECK_MESSAGE(loaded, (loaded ? "" : to_string(loaded.error())));
}
