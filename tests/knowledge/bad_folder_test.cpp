// Folders of knowledge with mistakes in them: every mistake told, in one run, to the letter.
#include "tests/knowledge/scratch_folder.hpp"

#include <doctest/doctest.h>

using soot::test::cause_text;
using soot::test::frame_text;
using soot::test::scale_text;
using soot::test::ScratchFolder;
using soot::test::with;

TEST_CASE("the folder that is spoilt below is good") {
  const ScratchFolder folder;
  folder.fill();
  CHECK(folder.complaints() == "");
  const auto loaded = soot::load_knowledge(folder.path());
  REQUIRE(loaded);
  CHECK(loaded->knowledge.causes.size() == 1);
  CHECK(loaded->knowledge.terms.size() == 5);
}

TEST_CASE("all that is wrong in several files is told in one run") {
  const ScratchFolder folder;
  folder.fill();
  std::string causes = with(cause_text, "id = \"hard-start\"", "id = \"hard-strat\"");
  causes = with(causes, "[\"lifter-set\"]", "[\"lifter-sett\", \"new-engine\"]");
  causes =
      with(causes, "source = \"practice\"", "source = \"BOOK-32: strengths; judgement: prior\"");
  folder.write("causes.toml", causes);
  folder.write("more.toml", with(cause_text, "\"often\"", "\"oftne\""));
  CHECK(folder.complaints() ==
        "more.toml:13:16: 'oftne' is not on the scale (expected one of never often seldom, or a "
        "number)\n"
        "more.toml:1:1: cause lifter-one is there twice (first at causes.toml:1)\n"
        "causes.toml:12:6: lifter-one names symptom 'hard-strat', which is not there, did you mean "
        "hard-start?\n"
        "causes.toml:9:16: lifter-one names correction 'lifter-sett', which is not there, did you "
        "mean lifter-set?\n"
        "causes.toml:9:31: lifter-one names correction 'new-engine', which is not there\n"
        "causes.toml:10:10: lifter-one cites 'BOOK-32', which is no source key, did you mean "
        "BOOK-31?\n");
}

TEST_CASE("of a file that is no TOML the others do not miss a word each") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("frame.toml", with(frame_text, "name = \"drive late\"", "name = \"drive late"));
  const std::string told = folder.complaints();
  CHECK(told.find("frame.toml:3:") == 0);
  CHECK(told.find('\n') == told.size() - 1);
}

TEST_CASE("a strength for a grade that does not exist") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml", with(cause_text, "{ late = \"often\" }", "{ lat = \"often\" }"));
  CHECK(folder.complaints() ==
        "causes.toml:13:15: lifter-one has no grade 'lat' (it has late, early)\n");
}

TEST_CASE("an effect in the wrong unit or without one") {
  const ScratchFolder folder;
  folder.fill();
  std::string causes = with(cause_text, "\"0.2 mm\"", "\"0.2 deg\"");
  causes = with(causes, "\"-0.2 mm\"", "\"-0.2 deg\"");
  folder.write("causes.toml", with(causes, "\"0.05 mm\"", "\"0.05 deg\""));
  CHECK(folder.complaints() ==
        "causes.toml:14:1: lifter-one acts on lifter-low with an angle (expected a length in mm, "
        "in, thou, um, cm, m, ft)\n");
  folder.write("causes.toml", with(cause_text, "\"-0.2 mm\"", "\"-0.2 deg\""));
  CHECK(folder.complaints() ==
        "causes.toml:16:17: '0.2 mm' is a length, another size of this effect an angle\n");
  folder.write("causes.toml", with(cause_text, "\"0.2 mm\"", "0.2"));
  CHECK(folder.complaints() ==
        "causes.toml:16:17: late has no unit (expected a measure, as \"0.02 mm\")\n");
  folder.write("causes.toml", with(cause_text, "\"0.05 mm\"", "\"<0.05 mm\""));
  CHECK(folder.complaints() ==
        "causes.toml:17:6: sd: '<0.05 mm' is a bound (expected a plain measure)\n");
}

TEST_CASE("an effect on what is not there or what it cannot reach") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml", with(cause_text, "on = \"lifter-low\"", "on = \"lifter-lo\""));
  CHECK(folder.complaints() ==
        "causes.toml:15:6: lifter-one acts on 'lifter-lo', which is no term and no quantity, did "
        "you mean lifter-low?\n");
  std::string causes = with(cause_text, "on = \"lifter-low\"", "on = \"supply\"");
  causes = with(causes, "{ late = \"0.2 mm\", early = \"-0.2 mm\" }", "\"1 bar\"");
  folder.write("causes.toml", with(causes, "\"0.05 mm\"", "\"0.1 bar\""));
  CHECK(folder.complaints() ==
        "causes.toml:14:1: lifter-one is a cylinder's cause and acts on supply, a quantity of the "
        "engine (expected a quantity of the cylinder)\n");
}

TEST_CASE("two links to one symptom and two effects on one target") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml", cause_text +
                                  "[[cause.symptom]]\nid = \"hard-start\"\nhow = \"seldom\"\n"
                                  "[[cause.effect]]\non = \"lifter-low\"\nsize = \"1 mm\"\n");
  CHECK(folder.complaints() ==
        "causes.toml:18:1: lifter-one names symptom hard-start twice\n"
        "causes.toml:21:1: lifter-one acts on lifter-low twice\n");
}

TEST_CASE("the same id in one list is told with both places") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("more.toml",
               "[[symptom]]\nid = \"hard-start\"\nname = \"again\"\nask = \"?\"\nleak = 0\n"
               "source = \"practice\"\n\n[[source]]\nkey = \"BOOK-31\"\ncitation = \"again\"\n");
  CHECK(folder.complaints() ==
        "more.toml:1:1: symptom hard-start is there twice (first at frame.toml:26)\n"
        "more.toml:8:1: source BOOK-31 is there twice (first at frame.toml:54)\n");
}

TEST_CASE("a symptom that is in the end a special form of itself") {
  const ScratchFolder folder;
  folder.fill();
  const auto symptom = [](const std::string& id, const std::string& general) {
    return "[[symptom]]\nid = \"" + id +
           "\"\nname = \"n\"\nask = \"?\"\nleak = 0\nspecial-of = \"" + general +
           "\"\nsource = \"practice\"\n";
  };
  folder.write("ring.toml", symptom("aa", "bb") + symptom("bb", "cc") + symptom("cc", "bb"));
  CHECK(folder.complaints() ==
        "ring.toml:8:1: bb is a special form of itself\n"
        "ring.toml:15:1: cc is a special form of itself\n");
}

TEST_CASE("an empty folder and one that is not there") {
  const ScratchFolder folder;
  CHECK(folder.complaints() == "scale.toml: no such file\n");
  const auto loaded = soot::load_knowledge("no/such/folder");
  REQUIRE_FALSE(loaded);
  CHECK(to_string(loaded.error()) == "no/such/folder: no such folder of knowledge");
  CHECK(loaded.error().front().kind == soot::Kind::data);
}

TEST_CASE("a scale that is missing is told alone for every word hangs on it") {
  const ScratchFolder folder;
  folder.fill();
  std::filesystem::remove(folder.path() / "scale.toml");
  CHECK(folder.complaints() == "scale.toml: no such file\n");
}

TEST_CASE("a folder with nothing but a scale lacks the terms of the geometry") {
  const ScratchFolder folder;
  folder.write("scale.toml", scale_text);
  std::string expected;
  for (const std::string kind : {"term", "symptom", "cause", "check", "correction"})
    expected +=
        "FOLDER: there is no [[" + kind + "]] in it (expected some: is the folder whole?)\n";
  for (const std::string term :
       {"drive-late", "lifter-low", "lobe-worn", "plunger-short", "mark-late"})
    expected += "FOLDER: the geometry names term '" + term + "', which is not there\n";
  CHECK(folder.complaints() == expected);
}

TEST_CASE("a scale with words and histories out of their range") {
  const ScratchFolder folder;
  folder.fill();
  std::string scale = with(scale_text, "often = 0.6", "often = 1.6");
  scale = with(scale, "rare = 0.002", "rare = 1");
  scale = with(scale, "long-storage = 0.2", "long-storage = -0.2");
  scale = with(scale, "ordinary = 0.2", "ordinary = 0.6");
  folder.write("scale.toml", with(scale, "[cure]", "[cures]"));
  CHECK(folder.complaints() ==
        "scale.toml:2:9: often is 1.6 (expected 0 to 1)\n"
        "scale.toml:6:8: rare is 1 (expected 0 to 0.999)\n"
        "scale.toml:1:1: [cure] is missing\n"
        "scale.toml:16:16: long-storage is negative (expected 0 to 1)\n"
        "scale.toml:10:2: cures is no key known here, did you mean "
        "cure?\n");
  scale = with(scale_text, "ordinary = 0.2\n", "");
  folder.write("scale.toml", scale);
  CHECK(folder.complaints() ==
        "scale.toml:12:1: history ordinary is missing\n"
        "scale.toml:12:1: the histories add up to 0.8 (expected 1)\n");
}

TEST_CASE("a file that is no TOML does not hide what the others say") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("broken.toml", "[[cause]\nid = 3\n");
  folder.write("causes.toml", with(cause_text, "common = \"rare\"\n", ""));
  CHECK(folder.complaints() ==
        "broken.toml:1:9: not TOML: expected ']', saw '\\n' (in: table header)\n"
        "causes.toml:1:1: common is missing (expected how common one instance is)\n");
}

TEST_CASE("a folder that was copied only in part") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("empty.toml", "");
  std::filesystem::create_directory(folder.path() / "folder.toml");
  folder.write("causes.toml", cause_text.substr(0, cause_text.find("[[cause.effect]]") + 10));
  const std::string told = folder.complaints();
  CHECK(told ==
        "causes.toml:14:11: not TOML: encountered end-of-file (in: table header)\n"
        "empty.toml:1:1: there is no entry in it (expected at least one: is the file whole?)\n"
        "folder.toml: not a file that can be read\n");
}

TEST_CASE("a scale with a wrong figure does not hide what the files say") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("scale.toml", with(scale_text, "often = 0.6", "often = 1.6"));
  folder.write("causes.toml", with(cause_text, "common = \"rare\"\n", ""));
  CHECK(folder.complaints() ==
        "scale.toml:2:9: often is 1.6 (expected 0 to 1)\n"
        "causes.toml:1:1: common is missing (expected how common one instance is)\n");
}

TEST_CASE("a figure that no family has and one of another kind") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("frame.toml", with(frame_text, "instrument = \"0.02 mm\"",
                                  "instrument = \"0.02 mm\"\nfigure = \"lifter-dept\""));
  CHECK(folder.complaints() ==
        "frame.toml:38:10: depth names figure 'lifter-dept', which is not known, did you mean "
        "lifter-depth?\n");
  folder.write("frame.toml", with(frame_text, "instrument = \"0.02 mm\"",
                                  "instrument = \"0.02 mm\"\nfigure = \"of-one-family\""));
  CHECK(folder.complaints() == "");
  folder.write("frame.toml", with(frame_text, "instrument = \"0.02 mm\"",
                                  "instrument = \"0.02 mm\"\nfigure = \"nozzle-opening\""));
  CHECK(folder.complaints() ==
        "frame.toml:38:10: depth is a length and its figure nozzle-opening is a pressure\n");
}

TEST_CASE("features and synonyms") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("more.toml",
               "[[feature]]\nid = \"lifters\"\nname = \"a lifter under each pump\"\n"
               "[[feature]]\nid = \"lifters\"\n[[same]]\nwords = [\"load\"]\n");
  CHECK(folder.complaints() ==
        "more.toml:4:1: name is missing (expected a text)\n"
        "more.toml:7:9: words is not two or more (expected what is said for the same thing)\n"
        "more.toml:4:1: feature lifters is there twice (first at more.toml:1)\n");
}
