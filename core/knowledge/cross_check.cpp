#include "core/knowledge/cross_check.hpp"

#include "core/base/text.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

namespace soot {
namespace {

class Checker {
 public:
  explicit Checker(const Knowledge& knowledge) : knowledge_(knowledge) {}

  Problems run() {
    once(knowledge_.terms, "term");
    once(knowledge_.symptoms, "symptom");
    once(knowledge_.quantities, "quantity");
    once(knowledge_.causes, "cause");
    once(knowledge_.checks, "check");
    once(knowledge_.corrections, "correction");
    once(knowledge_.procedures, "procedure");
    once(knowledge_.cautions, "caution");
    once(knowledge_.covers, "cover");
    once(knowledge_.tools, "tool");
    once_cited();
    for (const std::string_view id : {term::drive_late, term::lifter_low, term::lobe_worn,
                                      term::plunger_short, term::mark_late})
      known(Place{}, knowledge_.terms, "term", std::string{id}, "the geometry");
    for (const Symptom& symptom : knowledge_.symptoms)
      check(symptom);
    for (const Quantity& quantity : knowledge_.quantities)
      check(quantity);
    for (const Cause& cause : knowledge_.causes)
      check(cause);
    for (const Check& entry : knowledge_.checks)
      check(entry);
    for (const Correction& correction : knowledge_.corrections)
      check(correction);
    for (const Procedure& procedure : knowledge_.procedures)
      check(procedure);
    for (const Cover& cover : knowledge_.covers)
      all_known(cover.place, knowledge_.covers, "cover", cover.under, cover.id);
    return std::move(problems_);
  }

 private:
  void add(const Place& place, std::string words) {
    Problem problem = make_problem(Kind::data, "{}", words);
    problem.place = place;
    problems_.push_back(std::move(problem));
  }

  template <class Entry>
  void once(const std::vector<Entry>& list, std::string_view kind) {
    std::map<std::string, Place> seen;
    for (const Entry& entry : list) {
      if (entry.id.empty()) continue;
      const auto [found, is_new] = seen.emplace(entry.id, entry.place);
      if (!is_new)
        add(entry.place, fmt::format("{} {} is there twice (first at {}:{})", kind, entry.id,
                                     found->second.file, found->second.line));
    }
  }

  void once_cited() {
    std::map<std::string, Place> seen;
    for (const Source& source : knowledge_.sources) {
      const auto [found, is_new] = seen.emplace(source.key, source.place);
      if (!is_new)
        add(source.place, fmt::format("source {} is there twice (first at {}:{})", source.key,
                                      found->second.file, found->second.line));
    }
  }

  template <class Entry>
  bool known(const Place& place, const std::vector<Entry>& list, std::string_view kind,
             const std::string& id, std::string_view who) {
    if (find_id(list, id) != nullptr) return true;
    add(place, fmt::format("{} names {} '{}', which is not there{}", who, kind, id,
                           did_you_mean(id, ids_of(list))));
    return false;
  }

  template <class Entry>
  void all_known(const Place& place, const std::vector<Entry>& list, std::string_view kind,
                 const std::vector<std::string>& ids, std::string_view who) {
    for (const std::string& id : ids)
      known(place, list, kind, id, who);
  }

  bool is_source(std::string_view key) const {
    if (key.empty() || key == "practice" || key == "judgement" || key == "derived") return true;
    return std::any_of(knowledge_.sources.begin(), knowledge_.sources.end(),
                       [&](const Source& entry) { return entry.key == key; });
  }

  // `source` is a list of keys, `practice`, `judgement` or `derived`, each perhaps with ": what
  // for".
  void cited(const Place& place, std::string_view source, std::string_view who) {
    for (const std::string& part : split(source, ';')) {
      const std::string_view key = trim(std::string_view{part}.substr(0, part.find(':')));
      if (!is_source(key))
        add(place, fmt::format("{} cites '{}', which is no source key (expected one of "
                               "sources.toml, practice, judgement or derived)",
                               who, key));
    }
  }

  void check(const Symptom& symptom) {
    if (symptom.special_of)
      known(symptom.place, knowledge_.symptoms, "symptom", *symptom.special_of, symptom.id);
    if (leads_back(symptom))
      add(symptom.place, fmt::format("{} is a special form of itself", symptom.id));
    all_known(symptom.place, knowledge_.quantities, "quantity", symptom.measured_by, symptom.id);
    cited(symptom.place, symptom.source, symptom.id);
  }

  bool leads_back(const Symptom& symptom) const {
    const Symptom* general = &symptom;
    for (std::size_t step = 0; step < knowledge_.symptoms.size(); ++step) {
      if (!general->special_of) return false;
      general = find_id(knowledge_.symptoms, *general->special_of);
      if (general == nullptr) return false;
      if (general->id == symptom.id) return true;
    }
    return false;
  }

  void check(const Quantity& quantity) {
    for (const Hearing& hearing : quantity.hears)
      known(quantity.place, knowledge_.terms, "term", hearing.term, quantity.id);
    for (const Showing& showing : quantity.shows) {
      const Symptom* symptom = find_id(knowledge_.symptoms, showing.symptom);
      known(quantity.place, knowledge_.symptoms, "symptom", showing.symptom, quantity.id);
      if (symptom != nullptr && symptom->scope != quantity.scope)
        add(quantity.place,
            fmt::format("{} shows {}, whose scope is another", quantity.id, showing.symptom));
    }
    cited(quantity.place, quantity.source, quantity.id);
  }

  void check(const Cause& cause) {
    std::set<std::string> named, moved;
    for (const Link& link : cause.links)
      if (!named.insert(link.symptom).second)
        add(link.place, fmt::format("{} names symptom {} twice", cause.id, link.symptom));
    for (const Effect& effect : cause.effects)
      if (!moved.insert(effect.target).second)
        add(effect.place, fmt::format("{} acts on {} twice", cause.id, effect.target));
    for (const Link& link : cause.links) {
      known(link.place, knowledge_.symptoms, "symptom", link.symptom, cause.id);
      if (link.source != cause.source) cited(link.place, link.source, cause.id);
    }
    for (const Effect& effect : cause.effects)
      check(cause, effect);
    all_known(cause.place, knowledge_.corrections, "correction", cause.corrections, cause.id);
    all_known(cause.place, knowledge_.cautions, "caution", cause.cautions, cause.id);
    cited(cause.place, cause.source, cause.id);
  }

  void check(const Cause& cause, const Effect& effect) {
    if (effect.source != cause.source) cited(effect.place, effect.source, cause.id);
    const Term* term = find_id(knowledge_.terms, effect.target);
    const Quantity* quantity = find_id(knowledge_.quantities, effect.target);
    if (term == nullptr && quantity == nullptr) {
      std::vector<std::string> ids = ids_of(knowledge_.terms);
      for (const Quantity& entry : knowledge_.quantities)
        ids.push_back(entry.id);
      add(effect.place, fmt::format("{} acts on '{}', which is no term and no quantity{}", cause.id,
                                    effect.target, did_you_mean(effect.target, ids)));
      return;
    }
    if (quantity != nullptr && quantity->is_coarse()) {
      add(effect.place, fmt::format("{} acts on {}, which only shows symptoms (link it to those)",
                                    cause.id, effect.target));
      return;
    }
    const Dimension wanted = term != nullptr ? term->dimension : quantity->dimension;
    if (!effect.times.empty()) {
      // The lash is an angle of the cam, and by that a height of the lifter set by it.
      const bool as_angle = wanted == Dimension::angle && effect.times != "rack-tooth";
      const bool as_length = wanted == Dimension::length && effect.times != "tooth";
      if (!as_angle && !as_length)
        add(effect.place, fmt::format("{} counts in {} on {}, which is {}", cause.id, effect.times,
                                      effect.target, name_of(wanted)));
      return;
    }
    const bool as_share = effect.written == Dimension::share && term == nullptr;
    if (effect.written != wanted && !as_share)
      add(effect.place,
          fmt::format("{} acts on {} with {} (expected {} in {})", cause.id, effect.target,
                      name_of(effect.written), name_of(wanted), units_of(wanted)));
    if (quantity != nullptr && quantity->scope == Scope::engine && cause.scope == Scope::cylinder)
      add(effect.place, fmt::format("{} is a cylinder's cause and acts on {}, a quantity of the "
                                    "engine (expected a quantity of the cylinder)",
                                    cause.id, effect.target));
  }

  void check(const Check& entry) {
    all_known(entry.place, knowledge_.covers, "cover", entry.covers, entry.id);
    all_known(entry.place, knowledge_.tools, "tool", entry.tools, entry.id);
    all_known(entry.place, knowledge_.symptoms, "symptom", entry.answers, entry.id);
    all_known(entry.place, knowledge_.quantities, "quantity", entry.reads, entry.id);
    all_known(entry.place, knowledge_.cautions, "caution", entry.cautions, entry.id);
    if (!entry.procedure.empty())
      known(entry.place, knowledge_.procedures, "procedure", entry.procedure, entry.id);
    if (entry.answers.empty() && entry.reads.empty())
      add(entry.place, entry.id + " answers no symptom and reads no quantity");
    cited(entry.place, entry.source, entry.id);
  }

  void check(const Correction& correction) {
    for (const Mend& mend : correction.mends)
      known(correction.place, knowledge_.causes, "cause", mend.cause, correction.id);
    all_known(correction.place, knowledge_.covers, "cover", correction.covers, correction.id);
    all_known(correction.place, knowledge_.tools, "tool", correction.tools, correction.id);
    all_known(correction.place, knowledge_.causes, "cause", correction.brings, correction.id);
    all_known(correction.place, knowledge_.cautions, "caution", correction.cautions, correction.id);
    if (!correction.procedure.empty())
      known(correction.place, knowledge_.procedures, "procedure", correction.procedure,
            correction.id);
    for (const std::string& id : correction.touches)
      if (find_id(knowledge_.symptoms, id) == nullptr)
        known(correction.place, knowledge_.quantities, "quantity or symptom", id, correction.id);
    cited(correction.place, correction.source, correction.id);
  }

  void check(const Procedure& procedure) {
    for (const Step& step : procedure.steps)
      all_known(procedure.place, knowledge_.cautions, "caution", step.cautions, procedure.id);
    cited(procedure.place, procedure.source, procedure.id);
  }

  const Knowledge& knowledge_;
  Problems problems_;
};

}  // namespace

Problems cross_check(const Knowledge& knowledge) {
  return Checker{knowledge}.run();
}

}  // namespace soot
