#include "core/base/text.hpp"
#include "core/guide/review_parts.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>

namespace soot {
namespace {

using Ids = std::set<std::string, std::less<>>;

constexpr std::string_view orphan = "Entries that nothing names";

bool does_something(const Link& link) {
  return std::any_of(link.strength.begin(), link.strength.end(), [](double s) { return s > 0; });
}

// Which of them a rule of geometry carries to its quantity depends on the rule; each has some.
bool is_geometric(std::string_view id) {
  constexpr std::string_view terms[] = {term::drive_late, term::lifter_low, term::lobe_worn,
                                        term::plunger_short, term::mark_late};
  return std::find(std::begin(terms), std::end(terms), id) != std::end(terms);
}

// Every name that some entry gives to another, list by list.
class Use {
 public:
  explicit Use(const Knowledge& knowledge) {
    for (const Cause& cause : knowledge.causes)
      add(cause);
    for (const Check& check : knowledge.checks) {
      put(answered, check.answers);
      put(read, check.reads);
      add_work(check);
    }
    for (const Correction& correction : knowledge.corrections)
      add_work(correction);
    for (const Procedure& procedure : knowledge.procedures) {
      for (const Step& step : procedure.steps)
        put(cautions, step.cautions);
      cite(procedure.source);
    }
    for (const Cover& cover : knowledge.covers)
      put(covers, cover.under);
    for (const Caution& caution : knowledge.cautions)
      cite(caution.source);
    for (const Symptom& symptom : knowledge.symptoms)
      cite(symptom.source);
    for (const Quantity& quantity : knowledge.quantities)
      add(quantity);
  }

  Ids explained, moved, answered, read, tools, covers, cautions, procedures, corrections, cited;

  // A quantity moves if a cause acts on it, or on a term that it hears, or makes what it shows.
  bool moves(const Quantity& quantity) const {
    return moved.contains(quantity.id) || !quantity.geometry.empty() ||
           std::any_of(quantity.hears.begin(), quantity.hears.end(),
                       [&](const Hearing& h) { return moved.contains(h.term); }) ||
           std::any_of(quantity.shows.begin(), quantity.shows.end(),
                       [&](const Showing& s) { return explained.contains(s.symptom); });
  }

 private:
  static void put(Ids& into, const std::vector<std::string>& ids) {
    into.insert(ids.begin(), ids.end());
  }

  void cite(std::string_view source) {
    for (const std::string& part : split(source, ';'))
      cited.emplace(trim(std::string_view{part}.substr(0, part.find(':'))));
  }

  template <class Work>
  void add_work(const Work& work) {
    put(tools, work.tools);
    put(covers, work.covers);
    put(cautions, work.cautions);
    procedures.insert(work.procedure);
    for (const WorkVariant& variant : work.variants) {
      put(tools, variant.tools.value_or(std::vector<std::string>{}));
      put(covers, variant.covers.value_or(std::vector<std::string>{}));
      procedures.insert(variant.procedure.value_or(""));
    }
    cite(work.source);
  }

  void add(const Cause& cause) {
    for (const Link& link : cause.links) {
      if (does_something(link)) explained.insert(link.symptom);
      cite(link.source);
    }
    for (const Effect& effect : cause.effects) {
      moved.insert(effect.target);
      cite(effect.source);
    }
    put(corrections, cause.corrections);
    put(cautions, cause.cautions);
    cite(cause.source);
  }

  // What a coarse reading shows is answered by the check that takes it.
  void add(const Quantity& quantity) {
    if (read.contains(quantity.id))
      for (const Showing& showing : quantity.shows)
        answered.insert(showing.symptom);
    cite(quantity.source);
  }
};

class UseReview {
 public:
  UseReview(const Knowledge& knowledge, KnowledgeReview& review)
      : knowledge_(knowledge), review_(review), use_(knowledge) {}

  void run() {
    orphans();
    for (const Cause& cause : knowledge_.causes)
      if (cause.id != instrument_cause && !can_be_found(cause))
        add("Causes that nothing can find", cause.place,
            cause.id + " makes no symptom and moves no quantity that is read");
    for (const Symptom& symptom : knowledge_.symptoms)
      if (!use_.explained.contains(symptom.id))
        add("Symptoms that no cause explains", symptom.place, symptom.id + " is made by no cause");
    for (const Symptom& symptom : knowledge_.symptoms)
      if (symptom.id.ends_with("-found") && !is_answered(symptom))
        add("Findings that no check answers", symptom.place,
            symptom.id + " is answered by no check");
    for (const Check& check : knowledge_.checks)
      if (!moves_anything(check))
        add("Checks whose result moves nothing", check.place,
            check.id + " answers and reads only what no cause acts on");
  }

 private:
  void add(std::string_view topic, const Place& place, std::string text) {
    review_.notes.push_back({std::string{topic}, place, std::move(text)});
  }

  template <class Entry>
  void unused(const Entries<Entry>& list, std::string_view kind, const Ids& used,
              std::string_view by) {
    for (const Entry& entry : list)
      if (!used.contains(entry.id))
        add(orphan, entry.place, fmt::format("{} {}: no {} it", kind, entry.id, by));
  }

  void orphans() {
    unused(knowledge_.quantities, "quantity", use_.read, "check reads");
    unused(knowledge_.corrections, "correction", use_.corrections, "cause names");
    unused(knowledge_.procedures, "procedure", use_.procedures, "check or correction follows");
    unused(knowledge_.cautions, "caution", use_.cautions, "entry shows");
    unused(knowledge_.covers, "cover", use_.covers, "work needs");
    unused(knowledge_.tools, "tool", use_.tools, "work needs");
    for (const Term& term : knowledge_.terms)
      if (!use_.moved.contains(term.id))
        add(orphan, term.place, fmt::format("term {}: no cause acts on it", term.id));
    for (const Source& source : knowledge_.sources)
      if (!use_.cited.contains(source.key))
        add(orphan, source.place, fmt::format("source {}: no entry cites it", source.key));
  }

  bool can_be_found(const Cause& cause) const {
    return std::any_of(cause.links.begin(), cause.links.end(), does_something) ||
           std::any_of(cause.effects.begin(), cause.effects.end(),
                       [&](const Effect& effect) { return is_read(effect.target); });
  }

  bool is_read(const std::string& target) const {
    return std::any_of(
        knowledge_.quantities.begin(), knowledge_.quantities.end(), [&](const Quantity& q) {
          const bool hears = q.id == target || (!q.geometry.empty() && is_geometric(target)) ||
                             std::any_of(q.hears.begin(), q.hears.end(),
                                         [&](const Hearing& h) { return h.term == target; });
          return hears && use_.read.contains(q.id);
        });
  }

  // By a look, or by the reading that silences it.
  bool is_answered(const Symptom& symptom) const {
    return use_.answered.contains(symptom.id) ||
           std::any_of(symptom.measured_by.begin(), symptom.measured_by.end(),
                       [&](const std::string& id) { return use_.read.contains(id); });
  }

  bool moves_anything(const Check& check) const {
    return std::any_of(check.answers.begin(), check.answers.end(),
                       [&](const std::string& id) { return use_.explained.contains(id); }) ||
           std::any_of(check.reads.begin(), check.reads.end(), [&](const std::string& id) {
             return use_.moves(get_id(knowledge_.quantities, id));
           });
  }

  const Knowledge& knowledge_;
  KnowledgeReview& review_;
  Use use_;
};

}  // namespace

void review_use(const Knowledge& knowledge, KnowledgeReview& review) {
  UseReview{knowledge, review}.run();
}

}  // namespace soot
