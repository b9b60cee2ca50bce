#include "core/knowledge/cross_check.hpp"

#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/references.hpp"
#include "core/model/words.hpp"

#include <optional>
#include <set>

namespace soot {
namespace {

constexpr std::size_t most_steps_up = 100;  // from a special symptom to the most general

class Checker {
 public:
  Checker(const Knowledge& own, References& references, bool is_common)
      : own_(own), refs_(references), is_common_(is_common) {}

  void run() {
    for (const std::string_view id : {term::drive_late, term::lifter_low, term::lobe_worn,
                                      term::plunger_short, term::mark_late})
      if (is_common_) refs_.known(Place{}, refs_.terms, "term", std::string{id}, "the geometry");
    for (const Symptom& symptom : own_.symptoms)
      check(symptom);
    for (const Quantity& quantity : own_.quantities)
      check(quantity);
    for (const Cause& cause : own_.causes)
      check(cause);
    cross_check_work(own_, refs_);
  }

 private:
  void check(const Symptom& symptom) {
    if (symptom.special_of)
      refs_.known(symptom.place, refs_.symptoms, "symptom", *symptom.special_of, symptom.id);
    if (leads_back(symptom))
      refs_.add(symptom.place, fmt::format("{} is a special form of itself", symptom.id));
    refs_.all_known(symptom.place, refs_.quantities, "quantity", symptom.measured_by, symptom.id);
    refs_.cited(symptom.place, symptom.source, symptom.id);
  }

  bool leads_back(const Symptom& symptom) const {
    const Symptom* general = &symptom;
    for (std::size_t step = 0; step < most_steps_up; ++step) {
      if (!general->special_of) return false;
      general = refs_.symptoms.find(*general->special_of);
      if (general == nullptr) return false;
      if (general->id == symptom.id) return true;
    }
    return false;
  }

  void check(const Quantity& quantity) {
    for (const Hearing& hearing : quantity.hears)
      refs_.known(quantity.place, refs_.terms, "term", hearing.term, quantity.id);
    for (const Showing& showing : quantity.shows) {
      const Symptom* symptom = refs_.symptoms.find(showing.symptom);
      refs_.known(quantity.place, refs_.symptoms, "symptom", showing.symptom, quantity.id);
      if (symptom != nullptr && symptom->scope != quantity.scope)
        refs_.add(quantity.place,
                  fmt::format("{} shows {}, whose scope is another", quantity.id, showing.symptom));
    }
    check_figure(quantity);
    refs_.cited(quantity.place, quantity.source, quantity.id);
  }

  // A family may give figures of its own: an unknown key is wrong only if it looks like a known
  // one.
  void check_figure(const Quantity& quantity) {
    if (quantity.figure.empty()) return;
    const FigureKey* known = find_figure_key(quantity.figure);
    const std::string near =
        known != nullptr ? std::string{} : did_you_mean(quantity.figure, figure_keys());
    if (!near.empty())
      refs_.add(quantity.place,
                fmt::format("{} names figure '{}', which is not known{}", quantity.id,
                            quantity.figure, near),
                quantity.figure);
    if (known != nullptr && known->dimension != quantity.dimension)
      refs_.add(
          quantity.place,
          fmt::format("{} is {} and its figure {} is {}", quantity.id, name_of(quantity.dimension),
                      quantity.figure, name_of(known->dimension)),
          quantity.figure);
  }

  void check(const Cause& cause) {
    std::set<std::string> named, moved;
    for (const Link& link : cause.links)
      if (!named.insert(link.symptom).second)
        refs_.add(link.place, fmt::format("{} names symptom {} twice", cause.id, link.symptom));
    for (const Effect& effect : cause.effects)
      if (!moved.insert(effect.target).second)
        refs_.add(effect.place, fmt::format("{} acts on {} twice", cause.id, effect.target));
    for (const Link& link : cause.links) {
      refs_.known(link.place, refs_.symptoms, "symptom", link.symptom, cause.id);
      if (link.source != cause.source) refs_.cited(link.place, link.source, cause.id);
    }
    for (const Effect& effect : cause.effects)
      check(cause, effect);
    refs_.all_known(cause.place, refs_.corrections, "correction", cause.corrections, cause.id);
    refs_.all_known(cause.place, refs_.cautions, "caution", cause.cautions, cause.id);
    refs_.cited(cause.place, cause.source, cause.id);
  }

  void check(const Cause& cause, const Effect& effect) {
    if (effect.source != cause.source) refs_.cited(effect.place, effect.source, cause.id);
    const Term* term = refs_.terms.find(effect.target);
    const Quantity* quantity = refs_.quantities.find(effect.target);
    if (term == nullptr && quantity == nullptr) {
      std::vector<std::string> ids = refs_.terms.ids();
      for (const std::string& id : refs_.quantities.ids())
        ids.push_back(id);
      refs_.add(effect.place,
                fmt::format("{} acts on '{}', which is no term and no quantity{}", cause.id,
                            effect.target, did_you_mean(effect.target, ids)),
                effect.target);
      return;
    }
    if (quantity != nullptr && quantity->is_coarse()) {
      refs_.add(effect.place,
                fmt::format("{} acts on {}, which only shows symptoms (link it to those)", cause.id,
                            effect.target));
      return;
    }
    const Dimension wanted = term != nullptr ? term->dimension : quantity->dimension;
    if (!effect.times.empty()) {
      // The lash is an angle of the cam, and by that a height of the lifter set by it.
      const bool as_angle = wanted == Dimension::angle && effect.times != "rack-tooth";
      const bool as_length = wanted == Dimension::length && effect.times != "tooth";
      if (!as_angle && !as_length)
        refs_.add(effect.place, fmt::format("{} counts in {} on {}, which is {}", cause.id,
                                            effect.times, effect.target, name_of(wanted)));
      return;
    }
    const bool as_share = effect.written == Dimension::share && term == nullptr;
    if (effect.written != wanted && !as_share)
      refs_.add(effect.place,
                fmt::format("{} acts on {} with {} (expected {} in {})", cause.id, effect.target,
                            name_of(effect.written), name_of(wanted), units_of(wanted)));
    if (quantity != nullptr && quantity->scope == Scope::engine && cause.scope == Scope::cylinder)
      refs_.add(effect.place,
                fmt::format("{} is a cylinder's cause and acts on {}, a quantity of the "
                            "engine (expected a quantity of the cylinder)",
                            cause.id, effect.target));
  }

  const Knowledge& own_;
  References& refs_;
  bool is_common_;  ///< false: what a family adds
};

Problems check_all(const Knowledge& common, const Knowledge& own, bool is_common) {
  References references(common, own);
  Checker(own, references, is_common).run();
  return references.take();
}

}  // namespace

Problems cross_check(const Knowledge& knowledge) {
  return check_all(Knowledge{}, knowledge, true);
}

Problems cross_check(const Knowledge& common, const Knowledge& own) {
  return check_all(common, own, false);
}

}  // namespace soot
