// What a history does to a prior: it multiplies the odds p/(1 - p). Checked against odds worked out
// by hand, beside each.
#include "tests/knowledge/scratch_folder.hpp"

#include <doctest/doctest.h>

#include <array>

using soot::test::cause_text;
using soot::test::ScratchFolder;
using soot::test::with;

namespace {

std::array<std::vector<double>, 5> priors(const std::string& common, const std::string& after) {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml",
               with(cause_text, "common = \"rare\"", "common = " + common + "\n" + after));
  const auto loaded = soot::load_knowledge(folder.path());
  REQUIRE_MESSAGE(loaded, (loaded ? "" : to_string(loaded.error())));
  return loaded->knowledge.causes.front().prior;
}

std::string prior_complaints(const std::string& common) {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml", with(cause_text, "common = \"rare\"", common));
  return folder.complaints();
}

double sum(const std::vector<double>& grades) {
  double out = 0;
  for (const double p : grades)
    out += p;
  return out;
}

}  // namespace

TEST_CASE("histories left out keep the prior and grades share it") {
  for (const std::vector<double>& grades : priors("\"everyday\"", "")) {
    REQUIRE(grades.size() == 2);
    CHECK(grades[0] == doctest::Approx(0.05));
    CHECK(grades[1] == doctest::Approx(0.05));
  }
}

TEST_CASE("a factor multiplies the odds") {
  // 0.2 is odds of 1 to 4; doubled 2 to 4, so 1/3; a hundredfold 100 to 4, so 25/26; never is 0.
  const auto prior = priors(
      "0.2", "after = { just-rebuilt = \"more\", long-service = 100, ordinary = \"never\" }");
  CHECK(sum(prior[0]) == doctest::Approx(1.0 / 3));
  CHECK(sum(prior[1]) == doctest::Approx(0.2));
  CHECK(sum(prior[2]) == doctest::Approx(25.0 / 26));
  CHECK(sum(prior[3]) == doctest::Approx(0.2));
  CHECK(sum(prior[4]) == 0);
}

TEST_CASE("a prior of nothing stays nothing and none reaches one") {
  CHECK(sum(priors("0", "after = { just-rebuilt = 1000 }")[0]) == 0);
  CHECK(sum(priors("0.9", "after = { just-rebuilt = 1000 }")[0]) < 1);
}

TEST_CASE("a prior that is certain or beyond or no word of the scale") {
  const std::string range = " (expected 0 to 0.999, or one of everyday rare)\n";
  CHECK(prior_complaints("common = 1") == "causes.toml:7:10: common is 1" + range);
  CHECK(prior_complaints("common = -0.1") == "causes.toml:7:10: common is -0.1" + range);
  CHECK(prior_complaints("common = \"rear\"") ==
        "causes.toml:7:10: 'rear' is not on the scale (expected one of everyday rare, or a "
        "number)\n");
  CHECK(prior_complaints("common = \"\"") ==
        "causes.toml:7:10: '' is not on the scale (expected one of everyday rare, or a number)\n");
}

TEST_CASE("a history that is none") {
  CHECK(prior_complaints("common = \"rare\"\nafter = { just-rebuild = \"more\" }") ==
        "causes.toml:8:11: just-rebuild is no key known here, did you mean just-rebuilt?\n");
}
