// Entries of each kind with one mistake: the sentence for it.
#include "tests/knowledge/scratch_folder.hpp"

#include <doctest/doctest.h>

using soot::test::ScratchFolder;

namespace {

// What one more file with this entry brings, the file's name left out.
std::string entry_told(const std::string& entry) {
  const ScratchFolder folder;
  folder.fill();
  folder.write("x.toml", entry);
  std::string out = folder.complaints();
  for (std::size_t at = out.find("x.toml:"); at != std::string::npos; at = out.find("x.toml:"))
    out.erase(at, 7);
  return out;
}

std::string symptom(const std::string& more) {
  return entry_told(
      "[[symptom]]\nid = \"knock\"\nname = \"it knocks\"\nask = \"?\"\nsource = \"practice\"\n" +
      more);
}

std::string quantity(const std::string& more) {
  return entry_told(
      "[[quantity]]\nid = \"rim\"\nname = \"rim arc\"\nunit = \"mm\"\nsource = \"practice\"\n" +
      more);
}

std::string check(const std::string& more) {
  return entry_told(
      "[[check]]\nid = \"look\"\nname = \"look\"\ntells = \"t\"\nsource = \"practice\"\n" + more);
}

std::string correction(const std::string& more) {
  return entry_told("[[correction]]\nid = \"mend\"\nname = \"mend\"\nsource = \"practice\"\n" +
                    more);
}

const std::string sound = "instrument = \"0.1 mm\"\nrange = [\"0 mm\", \"9 mm\"]\n";

}  // namespace

TEST_CASE("ids are small words with hyphens") {
  const auto id = [](const std::string& word) {
    return entry_told("[[tool]]\nid = \"" + word + "\"\nname = \"n\"\n");
  };
  const std::string expected =
      "' is no id (expected small letters, digits and single hyphens, as gear-tooth-out)\n";
  for (const std::string word :
       {"Feelers", "depth gauge", "-feelers", "feelers-", "depth--gauge", "depth_gauge"}) {
    CAPTURE(word);
    CHECK(id(word) == "2:6: '" + word + expected);
  }
  CHECK(id("feelers-2") == "");
  CHECK(id("") == "2:6: id is empty\n");
}

TEST_CASE("every entry has a source") {
  CHECK(entry_told("[[caution]]\nid = \"hot\"\ntext = \"It is hot.\"\n") ==
        "1:1: source is missing (expected a text)\n");
}

TEST_CASE("symptoms") {
  CHECK(symptom("leak = 0.01\n") == "");
  CHECK(symptom("") ==
        "1:1: leak is missing (expected how often it is seen for reasons nobody lists)\n");
  CHECK(symptom("leak = 1\n") ==
        "6:8: leak is 1 (expected 0 to 0.999, or one of never often seldom)\n");
  CHECK(symptom("leak = 0\nmissed = 0.5\nimagined = 0.5\n") ==
        "7:10: missed and imagined together reach 1: the report would speak against the symptom\n");
  CHECK(symptom("leak = 0\nscope = \"cylindre\"\n") ==
        "7:9: scope is 'cylindre' (expected engine or cylinder)\n");
  CHECK(symptom("leak = 0\nmeasured-by = [\"dpth\"]\n") ==
        "7:16: knock names quantity 'dpth', which is not there, did you mean depth?\n");
  CHECK(symptom("leak = 0\nspecial-of = \"hard-stop\"\n") ==
        "7:14: knock names symptom 'hard-stop', which is not there\n");
  CHECK(symptom("leak = 0\nleek = 0\n") == "7:1: leek is no key known here, did you mean leak?\n");
}

TEST_CASE("quantities") {
  CHECK(quantity(sound) == "");
  CHECK(quantity("range = [\"0 mm\", \"9 mm\"]\n") ==
        "1:1: the instrument's uncertainty is missing (expected a measure above 0)\n");
  CHECK(quantity("instrument = \"0.1 mm\"\n") ==
        "1:1: range is not two measures (expected the least and the most that can be)\n");
  CHECK(quantity("instrument = \"0.1 mm\"\nrange = [\"9 mm\", \"0 mm\"]\n") ==
        "7:9: range is empty or turned round\n");
  CHECK(quantity("instrument = \"0.1 mm\"\nrange = [\"0 mm\", \"9 bar\"]\n") ==
        "7:9: range: '9 bar' is a pressure (expected a length in mm, in, thou, um, cm, m, ft)\n"
        "7:9: range is empty or turned round\n");
  CHECK(quantity("instrument = \"-0.1 mm\"\nrange = [\"0 mm\", \"9 mm\"]\n") ==
        "6:14: instrument is negative (expected 0 or more)\n"
        "6:14: the instrument's uncertainty is missing (expected a measure above 0)\n");
  CHECK(quantity(sound + "spread = \"-0.1 mm\"\n") ==
        "8:10: spread is negative (expected 0 or more)\n");
  CHECK(quantity(sound + "usual = \">1 mm\"\n") ==
        "8:9: usual: '>1 mm' is a bound (expected a plain measure)\n");
  CHECK(quantity(sound + "decimals = -1\n") == "8:12: decimals is -1 (expected 0 to 6)\n");
  CHECK(quantity(sound + "decimals = 4294967296\n") ==
        "8:12: decimals is 4294967296 (expected 0 to 6)\n");
  CHECK(quantity(sound + "hears = [ { term = \"drive-late\", by = \"1 bar\" } ]\n") ==
        "8:39: '1 bar' is a pressure (expected a length, or a percentage of the nominal)\n");
  CHECK(quantity(sound + "hears = [ { term = \"drive-lat\", by = \"1 %\" } ]\n") ==
        "8:20: rim names term 'drive-lat', which is not there, did you mean drive-late?\n");
  CHECK(entry_told("[[quantity]]\nid = \"rim\"\nname = \"rim arc\"\nunit = \"mn\"\nsource = "
                   "\"practice\"\ninstrument = 0.1\nrange = [\"0\", \"9\"]\n") ==
        "4:8: 'mn' is no unit known here, did you mean mm?\n");
}

TEST_CASE("grades of a cause") {
  const auto grades = [](const std::string& list) {
    return entry_told(
        "[[cause]]\nid = \"worn\"\nname = \"n\"\nsystem = \"pump\"\nabout = \"a\"\ncommon = "
        "\"rare\"\nsource = \"practice\"\ngrades = [ " +
        list + " ]\n");
  };
  const std::string half = "{ id = \"low\", share = 0.5 }";
  CHECK(grades(half + ", { id = \"high\", share = 0.5 }") == "");
  CHECK(grades(half) == "8:10: the shares of the grades add up to 0.5 (expected 1)\n");
  CHECK(grades(half + ", " + half) == "8:48: grade low is there twice\n");
  CHECK(grades("{ id = \"low\", share = 1.5 }, { id = \"high\", share = -0.5 }") ==
        "8:64: share is -0.5 (expected 0 to 1)\n");
  CHECK(grades("{ id = \"low\" }, { id = \"high\", share = 1 }") ==
        "8:12: share is missing (expected how much of the cause is of this grade)\n");
  const std::string fifth = ", share = 0.2 }";
  CHECK(grades("{ id = \"a\"" + fifth + ", { id = \"b\"" + fifth + ", { id = \"c\"" + fifth +
               ", { id = \"d\"" + fifth + ", { id = \"e\"" + fifth) ==
        "8:10: 5 grades (expected at most 4)\n");
}

TEST_CASE("checks") {
  CHECK(check("each = 5\nreads = [\"depth\"]\n") == "");
  CHECK(check("reads = [\"depth\"]\n") ==
        "1:1: no minutes are given (expected set-up, each or both)\n");
  CHECK(check("each = 5\n") == "1:1: look answers no symptom and reads no quantity\n");
  CHECK(check("each = -5\nreads = [\"depth\"]\n") ==
        "6:8: each is -5 (expected minutes, 0 to 10080)\n");
  CHECK(check("each = 5\nreads = [\"depth\"]\nskill = 4\n") ==
        "8:9: skill is 4 (expected 1 to 3)\n");
  CHECK(check("each = 5\nreads = [\"depth\"]\nstate = \"idling\"\n") ==
        "8:9: state is 'idling' (expected stopped, cranking or running)\n");
  CHECK(check("each = 5\nanswers = [\"hard-strt\"]\nprocedure = \"p\"\ntools = [\"tongs\"]\n") ==
        "9:10: look names tool 'tongs', which is not there\n"
        "7:12: look names symptom 'hard-strt', which is not there, did you mean hard-start?\n"
        "8:13: look names procedure 'p', which is not there\n");
}

TEST_CASE("corrections") {
  const std::string mends =
      "mends = [ { cause = \"lifter-one\", cure = \"certain\" } ]\neach = 5\n";
  CHECK(correction(mends) == "");
  CHECK(correction("each = 5\n") == "1:1: mends is missing (expected what it cures)\n");
  CHECK(correction("each = 5\nmends = [ { cause = \"lifter-on\", cure = \"sure\" } ]\n") ==
        "6:41: 'sure' is not on the scale (expected one of certain, or a number)\n"
        "6:21: mend names cause 'lifter-on', which is not there, did you mean lifter-one?\n");
  CHECK(correction(mends + "parts = 5\n") == "7:9: parts is 5 (expected 0 to 4)\n");
  CHECK(correction(mends + "touches = [\"dept\"]\nbrings = [\"air\"]\n") ==
        "8:11: mend names cause 'air', which is not there\n"
        "7:12: mend names quantity or symptom 'dept', which is not there, did you mean depth?\n");
}

TEST_CASE("procedures and covers") {
  CHECK(entry_told("[[procedure]]\nid = \"p\"\nname = \"n\"\nsource = \"practice\"\n") ==
        "1:1: steps is missing (expected at least one)\n");
  CHECK(
      entry_told("[[procedure]]\nid = \"p\"\nname = \"n\"\nsource = \"practice\"\nsteps = [ { do = "
                 "\"x\", cautions = [\"hot\"] } ]\n") ==
      "5:35: p names caution 'hot', which is not there\n");
  CHECK(entry_told("[[cover]]\nid = \"lid\"\nname = \"n\"\nopen = 5\nunder = [\"hood\"]\n") ==
        "5:10: lid names cover 'hood', which is not there\n");
}

TEST_CASE("only a cylinder can be alone") {
  const auto cause = [](const std::string& scope) {
    return entry_told(
        "[[cause]]\nid = \"slack\"\nname = \"slack\"\nsystem = \"pump\"\nscope = \"" + scope +
        "\"\nabout = \"slack\"\ncommon = \"rare\"\nsource = \"practice\"\n"
        "[[cause.symptom]]\nid = \"hard-start\"\nhow = \"seldom\"\nalone = \"often\"\n");
  };
  CHECK(cause("cylinder") == "");
  CHECK(cause("engine") == "12:9: alone belongs to causes of scope cylinder\n");
}
