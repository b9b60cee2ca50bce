#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/fields.hpp"

#include <fmt/format.h>

#include <functional>

namespace soot {
namespace {

constexpr int most_parts_class = 4;
constexpr int most_skill = 3;
constexpr int latest_order = 1000;

Running read_running(Reader& entry) {
  const std::string word = entry.text("state").value_or("stopped");
  if (word == "running") return Running::running;
  if (word == "cranking") return Running::cranking;
  if (word != "stopped")
    entry.complain("state",
                   fmt::format("state is '{}' (expected stopped, cranking or running)", word));
  return Running::stopped;
}

Minutes read_work_minutes(Reader& entry) {
  if (!entry.has("set-up") && !entry.has("each"))
    entry.complain("set-up", "no minutes are given (expected set-up, each or both)");
  return Minutes{read_minutes(entry, "set-up"), read_minutes(entry, "each")};
}

// `with`: a table by feature.
void each_variant(Reader& entry,
                  const std::function<void(std::string feature, Reader& variant)>& read) {
  std::optional<Reader> with = entry.table("with");
  if (!with) return;
  for (const std::string& feature : with->keys()) {
    std::optional<Reader> variant = with->table(feature);
    if (!variant) continue;
    read(feature, *variant);
    variant->done();
  }
}

std::vector<WorkVariant> read_work_variants(Reader& entry) {
  std::vector<WorkVariant> out;
  each_variant(entry, [&](std::string feature, Reader& variant) {
    WorkVariant read{std::move(feature)};
    if (variant.has("covers")) read.covers = variant.texts("covers");
    if (variant.has("tools")) read.tools = variant.texts("tools");
    read.sum = variant.text("sum");
    read.procedure = variant.text("procedure");
    out.push_back(std::move(read));
  });
  return out;
}

Saying read_saying(Reader& entry, std::string_view key) {
  Saying saying{entry.needed_text(key)};
  saying.needs = entry.texts("needs");
  saying.without = entry.texts("without");
  return saying;
}

// One text, or several of which some are for some engines only.
std::vector<Saying> read_means(Reader& entry) {
  std::vector<Saying> out;
  if (!entry.has("means")) return out;
  if (entry.is_text("means")) return {Saying{*entry.text("means")}};
  entry.each("means", [&](std::optional<std::string> words, std::optional<Reader> saying) {
    if (words) {
      out.push_back(Saying{*words});
    } else {
      out.push_back(read_saying(*saying, "say"));
      saying->done();
    }
  });
  return out;
}

}  // namespace

Check read_check(Reader entry) {
  Check check;
  check.place = entry.place();
  check.id = read_id(entry);
  check.name = entry.needed_text("name");
  check.tells = entry.needed_text("tells");
  check.running = read_running(entry);
  check.covers = entry.texts("covers");
  check.hot = entry.boolean("hot").value_or(false);
  check.cold = entry.boolean("cold").value_or(false);
  check.minutes = read_work_minutes(entry);
  check.tools = entry.texts("tools");
  check.answers = entry.texts("answers");
  check.reads = entry.texts("reads");
  check.skill = read_whole(entry, "skill", 1, most_skill, 1);
  check.cautions = entry.texts("cautions");
  check.asks_history = entry.boolean("asks-history").value_or(false);
  check.procedure = entry.text("procedure").value_or("");
  check.variants = read_work_variants(entry);
  check.needs = entry.texts("needs");
  check.without = entry.texts("without");
  check.source = read_source(entry);
  entry.done();
  return check;
}

Correction read_correction(Reader entry, const Scale& scale) {
  Correction correction;
  correction.place = entry.place();
  correction.id = read_id(entry);
  correction.name = entry.needed_text("name");
  correction.scope = read_scope(entry);
  for (Reader& mend : entry.tables("mends")) {
    Mend read;
    read.cause = mend.needed_text("cause");
    read.cure = read_graded(mend, "cure", scale.cure, 1).value_or(0);
    mend.done();
    correction.mends.push_back(std::move(read));
  }
  if (correction.mends.empty())
    entry.complain("mends", "mends is missing (expected what it cures)");
  correction.running = read_running(entry);
  correction.covers = entry.texts("covers");
  correction.minutes = read_work_minutes(entry);
  correction.parts_class = read_whole(entry, "parts", 0, most_parts_class, 0);
  correction.tools = entry.texts("tools");
  correction.touches = entry.texts("touches");
  correction.brings = entry.texts("brings");
  correction.order = read_whole(entry, "order", 0, latest_order, 5);
  correction.sum = entry.text("sum").value_or("");
  correction.cautions = entry.texts("cautions");
  correction.procedure = entry.text("procedure").value_or("");
  correction.variants = read_work_variants(entry);
  correction.needs = entry.texts("needs");
  correction.source = read_source(entry);
  entry.done();
  return correction;
}

Procedure read_procedure(Reader entry) {
  Procedure procedure;
  procedure.place = entry.place();
  procedure.id = read_id(entry);
  procedure.name = entry.needed_text("name");
  entry.each("steps", [&](std::optional<std::string> words, std::optional<Reader> step) {
    if (words) {
      procedure.steps.push_back(Step{Saying{*words}});
    } else {
      procedure.steps.push_back(Step{read_saying(*step, "do"), step->texts("cautions")});
      step->done();
    }
  });
  if (procedure.steps.empty()) entry.complain("steps", "steps is missing (expected at least one)");
  procedure.means = read_means(entry);
  procedure.source = read_source(entry);
  entry.done();
  return procedure;
}

Caution read_caution(Reader entry) {
  Caution caution;
  caution.place = entry.place();
  caution.id = read_id(entry);
  caution.text = entry.needed_text("text");
  caution.with_any = entry.texts("with-any");
  caution.source = read_source(entry);
  entry.done();
  return caution;
}

Cover read_cover(Reader entry) {
  Cover cover;
  cover.place = entry.place();
  cover.id = read_id(entry);
  cover.name = entry.needed_text("name");
  cover.open_minutes = read_minutes(entry, "open");
  cover.close_minutes = read_minutes(entry, "close");
  cover.under = entry.texts("under");
  each_variant(entry, [&](std::string feature, Reader& variant) {
    CoverVariant read{std::move(feature), variant.needed_text("name")};
    read.open_minutes = read_minutes(variant, "open");
    read.close_minutes = read_minutes(variant, "close");
    cover.variants.push_back(std::move(read));
  });
  (void)entry.text("source");
  entry.done();
  return cover;
}

Tool read_tool(Reader entry) {
  Tool tool;
  tool.place = entry.place();
  tool.id = read_id(entry);
  tool.name = entry.needed_text("name");
  tool.at_hand = entry.boolean("at-hand").value_or(true);
  (void)entry.text("source");
  entry.done();
  return tool;
}

Feature read_feature(Reader entry) {
  Feature feature;
  feature.place = entry.place();
  feature.id = read_id(entry);
  feature.name = entry.needed_text("name");
  entry.done();
  return feature;
}

Synonyms read_synonyms(Reader entry) {
  Synonyms synonyms;
  synonyms.place = entry.place();
  synonyms.words = entry.texts("words");
  if (synonyms.words.size() < 2)
    entry.complain("words", "words is not two or more (expected what is said for the same thing)");
  entry.done();
  return synonyms;
}

Source read_citation(Reader entry) {
  Source source;
  source.place = entry.place();
  source.key = entry.needed_text("key");
  source.citation = entry.needed_text("citation");
  entry.done();
  return source;
}

}  // namespace soot
