// The notes of a review, each on a small folder with that one thing wrong, and on the real one.
#include "core/guide/review.hpp"

#include "core/guide/parting.hpp"
#include "core/guide/review_parts.hpp"
#include "core/model/words.hpp"
#include "tests/knowledge/scratch_folder.hpp"
#include "tests/near.hpp"
#include "tests/workbench/real_bench.hpp"

#include <set>

using soot::KnowledgeReview;
using soot::Parting;
using soot::test::cause_text;
using soot::test::frame_text;
using soot::test::hagmoss;
using soot::test::real_bench;
using soot::test::ScratchFolder;
using soot::test::with;

namespace {

// Notes of what is used and what is not, "topic | file:line | text", one a line.
std::string use_notes(const ScratchFolder& folder) {
  const auto loaded = soot::load_knowledge(folder.path());
  REQUIRE_MESSAGE(loaded, folder.complaints());
  KnowledgeReview review;
  review_use(loaded->knowledge, review);
  std::string out;
  for (const KnowledgeReview::Note& note : review.notes)
    out += note.topic + " | " + std::filesystem::path(note.place.file.text()).filename().string() +
           ":" + std::to_string(note.place.line) + " | " + note.text + "\n";
  return out;
}

}  // namespace

TEST_CASE("what nothing names is an orphan") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("more.toml",
               "[[tool]]\nid = \"tongs\"\nname = \"tongs\"\n[[caution]]\nid = \"hot\"\n"
               "text = \"It is hot.\"\nsource = \"BOOK-31\"\n");
  CHECK(use_notes(folder) ==
        "Entries that nothing names | frame.toml:40 | quantity supply: no check reads it\n"
        "Entries that nothing names | more.toml:4 | caution hot: no entry shows it\n"
        "Entries that nothing names | more.toml:1 | tool tongs: no work needs it\n"
        "Entries that nothing names | frame.toml:1 | term drive-late: no cause acts on it\n"
        "Entries that nothing names | frame.toml:11 | term lobe-worn: no cause acts on it\n"
        "Entries that nothing names | frame.toml:16 | term plunger-short: no cause acts on it\n"
        "Entries that nothing names | frame.toml:21 | term mark-late: no cause acts on it\n"
        "Checks whose result moves nothing | frame.toml:57 | depth-gauge answers and reads only "
        "what no cause acts on\n");
}

TEST_CASE("a cause nobody can find and a symptom nobody makes and a finding nobody answers") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("causes.toml", cause_text.substr(0, cause_text.find("[[cause.symptom]]")));
  folder.write("more.toml",
               "[[symptom]]\nid = \"slack-found\"\nname = \"slack\"\nask = \"?\"\nleak = 0\n"
               "source = \"practice\"\n");
  const std::string told = use_notes(folder);
  for (const char* line :
       {"Causes that nothing can find | causes.toml:1 | lifter-one makes no symptom and moves no "
        "quantity that is read\n",
        "Symptoms that no cause explains | frame.toml:26 | hard-start is made by no cause\n",
        "Symptoms that no cause explains | more.toml:1 | slack-found is made by no cause\n",
        "Findings that no check answers | more.toml:1 | slack-found is answered by no check\n"}) {
    CAPTURE(told);
    CHECK(told.find(line) != std::string::npos);
  }
}

TEST_CASE("a special sign told more often than the general one is pointed out") {
  const ScratchFolder folder;
  folder.fill();
  folder.write("more.toml",
               "[[symptom]]\nid = \"hard-start-cold\"\nname = \"hard to start cold\"\nask = \"?\"\n"
               "leak = 0\nspecial-of = \"hard-start\"\nsource = \"practice\"\n");
  const auto notes = [&](const std::string& how) {
    std::string text = cause_text;
    const std::string special = "[[cause.symptom]]\nid = \"hard-start-cold\"\nhow = " + how + "\n";
    text.insert(text.find("[[cause.effect]]"), special);
    folder.write("causes.toml", text);
    const auto loaded = soot::load_knowledge(folder.path());
    REQUIRE_MESSAGE(loaded, folder.complaints());
    KnowledgeReview review;
    review_signs(loaded->knowledge, review);
    return review.notes;
  };
  CHECK(notes("{ late = \"often\" }").empty());  // the general one is made as often
  const auto told = notes("{ late = \"often\", early = \"seldom\" }");
  REQUIRE(told.size() == 1);
  CHECK(told[0].topic == "Special signs that a cause makes more often than the general one");
  CHECK(told[0].text == "lifter-one: hard-start-cold more often than hard-start");
  CHECK(told[0].place.line == 14);
}

TEST_CASE("the review of the real knowledge has a place for every note and figures for all") {
  const auto review = review_of(real_bench());
  REQUIRE(review);
  for (const KnowledgeReview::Note& note : review->notes) {
    CAPTURE(note.text);
    CHECK(!note.place.file.empty());
    CHECK(note.place.line > 0);
  }
  CHECK(review->expected.size() == real_bench().families().size() * soot::histories.size());
  for (const KnowledgeReview::Expected& cell : review->expected) {
    CHECK(cell.causes > 0);
    CHECK(cell.gross >= 0);
    CHECK(cell.gross < 1);
  }
  std::set<std::string> topics;
  std::string last;
  for (const KnowledgeReview::Note& note : review->notes) {
    if (note.topic != last) CHECK_MESSAGE(topics.insert(note.topic).second, note.topic);
    last = note.topic;
  }
  // Every cause can be found, shows itself by two signs and parts from every other; what remains is
  // worth a look and no gap.
  for (const char* harmless : {"Entries that nothing names", "Figures that no family gives",
                               "Causes that little parts from their likeliest rival, and why"})
    topics.erase(harmless);
  for (const std::string& gap : topics)
    FAIL_CHECK(gap);
}

TEST_CASE("the expected number of causes is the sum of the priors") {
  const auto review = review_of(real_bench());
  REQUIRE(review);
  double sum = 0;
  for (const soot::Cause& cause : hagmoss().knowledge.causes)
    if (cause.id != soot::instrument_cause)
      for (const double p : cause.prior[4])  // ordinary
        sum += p * (cause.scope == soot::Scope::cylinder ? 4 : 1);
  for (const KnowledgeReview::Expected& cell : review->expected)
    if (cell.family == "hagmoss-4" && cell.history == "ordinary")
      CHECK(cell.causes == soot::test::near(sum, 1e-12));
}

TEST_CASE("a depth parts a lifter from a worn plunger foot") {
  // Depth right but spill late is the plunger: common practice, no published source.
  const auto parting = Parting::on(hagmoss());
  REQUIRE(parting);
  const auto lifter = parting->index_of("lifter-one");
  const auto foot = parting->index_of("plunger-foot-worn");
  REQUIRE(lifter);
  REQUIRE(foot);
  double best = 0;
  for (std::size_t s = 0; s < parting->signs().size(); ++s)
    if (parting->signs()[s].id == "lifter-depth" && !parting->signs()[s].elsewhere)
      best = parting->ratio(s, *lifter, *foot);
  CHECK(best > 5);
  CHECK(parting->share_a_complaint(*lifter, *foot));
  CHECK(parting->likeness(*lifter, *foot) > 0.1);
  CHECK(parting->likeness(*lifter, *lifter) == soot::test::near(1, 1e-12));
  CHECK(parting->rival_of(*lifter).has_value());
}

TEST_CASE("nothing parts a cause from itself") {
  const auto parting = Parting::on(hagmoss());
  REQUIRE(parting);
  for (std::size_t c = 0; c < parting->causes().size(); ++c)
    for (std::size_t s = 0; s < parting->signs().size(); ++s)
      CHECK(parting->ratio(s, c, c) == soot::test::near(1, 1e-12));
}
