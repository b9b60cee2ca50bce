#include "core/knowledge/amendment.hpp"

#include "core/base/text.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

namespace soot {
namespace {

double odds(double chance) {
  return chance / (1 - chance);
}

class Amender {
 public:
  explicit Amender(Knowledge& knowledge) : all_(knowledge) {}

  Problems run(const std::vector<Amendment>& amendments) {
    std::set<std::pair<std::string, std::string>> seen;
    for (const Amendment& amendment : amendments) {
      now_ = &amendment;
      if (!seen.emplace(amendment.kind, amendment.id).second)
        add(amendment.place, fmt::format("{} is amended twice", amendment.id));
      if (amendment.kind == "cause") with(all_.causes, [&](Cause& cause) { amend(cause); });
      if (amendment.kind == "symptom") with(all_.symptoms, [&](Symptom& s) { amend(s); });
      if (amendment.kind == "quantity") with(all_.quantities, [&](Quantity& q) { amend(q); });
      if (amendment.kind == "check")
        with(all_.checks, [&](Check& check) { amend(check.minutes, check.source); });
      if (amendment.kind == "correction")
        with(all_.corrections, [&](Correction& work) { amend(work.minutes, work.source); });
    }
    return std::move(problems_);
  }

 private:
  void add(const Place& place, std::string words) {
    problems_.push_back({Kind::data, Severity::error, place, std::move(words), ""});
  }

  template <class Entry, class Change>
  void with(Entries<Entry>& list, Change change) {
    for (std::size_t i = 0; i < list.size(); ++i)
      if (list[i].id == now_->id) return change(list.edit(i));
    add(now_->place, fmt::format("amends {} '{}', which is not there{}", now_->kind, now_->id,
                                 did_you_mean(now_->id, ids_of(list))));
  }

  void number(const char* key, double& into) {
    if (const auto found = now_->numbers.find(key); found != now_->numbers.end())
      into = found->second;
  }

  std::optional<double> measure(const char* key, Dimension dimension, bool is_difference) {
    const auto found = now_->measures.find(key);
    if (found == now_->measures.end()) return std::nullopt;
    if (found->second.unit.dimension != dimension) {
      add(now_->place, fmt::format("{}: '{}' is {} (expected {})", key, found->second.as_written,
                                   name_of(found->second.unit.dimension), name_of(dimension)));
      return std::nullopt;
    }
    return is_difference ? model_difference(found->second) : found->second.model();
  }

  void amend(Minutes& minutes, std::string& source) {
    number("set-up", minutes.set_up);
    number("each", minutes.each);
    source = now_->source;
  }

  void amend(Symptom& symptom) {
    number("leak", symptom.leak);
    number("missed", symptom.missed);
    number("imagined", symptom.imagined);
    symptom.source = now_->source;
  }

  void amend(Quantity& quantity) {
    const std::pair<const char*, double*> sizes[] = {{"instrument", &quantity.instrument},
                                                     {"spread", &quantity.spread},
                                                     {"wrong-offset", &quantity.wrong_offset}};
    for (const auto& [key, into] : sizes)
      if (const auto size = measure(key, quantity.dimension, true)) not_negative(key, *size, *into);
    const std::pair<const char*, double*> shares[] = {
        {"instrument-share", &quantity.instrument_share}, {"spread-share", &quantity.spread_share}};
    for (const auto& [key, into] : shares)
      if (const auto share = measure(key, Dimension::share, true)) not_negative(key, *share, *into);
    if (const auto usual = measure("usual", quantity.dimension, false)) quantity.usual = usual;
    if (!quantity.is_coarse() && !(quantity.instrument > 0) && !(quantity.instrument_share > 0))
      add(now_->place, "leaves the instrument without uncertainty (expected a measure above 0)");
    quantity.source = now_->source;
  }

  void not_negative(const char* key, double value, double& into) {
    if (value < 0) add(now_->place, fmt::format("{} is negative (expected 0 or more)", key));
    into = value;
  }

  /// Places of the grades that a table by grade names.
  template <class Value>
  std::vector<std::pair<std::size_t, Value>> of_grades(const Cause& cause,
                                                       const Amendment::ByGrade<Value>& table,
                                                       const Place& place) {
    std::vector<std::pair<std::size_t, Value>> out;
    for (const auto& [grade, value] : table) {
      const auto found = std::find(cause.grades.begin(), cause.grades.end(), grade);
      if (grade.empty())
        for (std::size_t g = 0; g < cause.grades.size(); ++g)
          out.emplace_back(g, value);
      else if (found == cause.grades.end())
        add(place, fmt::format("{} has no grade '{}' (it has {})", cause.id, grade,
                               fmt::join(cause.grades, ", ")));
      else
        out.emplace_back(static_cast<std::size_t>(found - cause.grades.begin()), value);
    }
    return out;
  }

  void amend(Cause& cause) {
    if (now_->common || !now_->after.empty()) amend_priors(cause);
    for (const Amendment::Sign& sign : now_->signs) {
      const auto link = std::find_if(cause.links.begin(), cause.links.end(),
                                     [&](const Link& l) { return l.symptom == sign.symptom; });
      if (link == cause.links.end()) {
        add(sign.place, fmt::format("{} makes no sign '{}'", cause.id, sign.symptom));
        continue;
      }
      for (const auto& [grade, strength] : of_grades(cause, sign.how, sign.place)) {
        link->strength[grade] = strength;
        if (!link->alone.empty()) link->alone[grade] = strength;
      }
    }
    for (const Amendment::Size& size : now_->effects)
      amend_effect(cause, size);
    cause.source = now_->source;
  }

  void amend_effect(Cause& cause, const Amendment::Size& size) {
    const auto effect = std::find_if(cause.effects.begin(), cause.effects.end(),
                                     [&](const Effect& e) { return e.target == size.target; });
    if (effect == cause.effects.end())
      return add(size.place, fmt::format("{} has no effect on '{}'", cause.id, size.target));
    const auto put = [&](const Amendment::ByGrade<Measure>& table, std::vector<double>& into) {
      for (const auto& [grade, measure] : table)
        if (measure.unit.dimension != effect->written)
          add(size.place, fmt::format("'{}' is {} (expected {})", measure.as_written,
                                      name_of(measure.unit.dimension), name_of(effect->written)));
      for (const auto& [grade, measure] : of_grades(cause, table, size.place))
        into[grade] = model_difference(measure);
    };
    put(size.size, effect->mean);
    put(size.sd, effect->sd);
    for (const double sd : effect->sd)
      if (sd < 0) add(size.place, "sd is negative");
  }

  /// What a history does to the odds stays, unless `after` says otherwise; so do the grades'
  /// shares.
  void amend_priors(Cause& cause) {
    constexpr auto ordinary = static_cast<std::size_t>(
        std::find(histories.begin(), histories.end(), "ordinary") - histories.begin());
    const auto total = [&](std::size_t h) {
      return std::accumulate(cause.prior[h].begin(), cause.prior[h].end(), 0.0);
    };
    const double before = total(ordinary);
    std::vector<double> shares = cause.prior[ordinary];
    for (double& share : shares)
      share = before > 0 ? share / before : 1.0 / static_cast<double>(shares.size());
    const double base = odds(now_->common.value_or(before));
    for (std::size_t h = 0; h < histories.size(); ++h) {
      const auto said = now_->after.find(std::string{histories[h]});
      const double factor = said != now_->after.end() ? said->second
                            : before > 0              ? odds(total(h)) / odds(before)
                                                      : 1;
      const double chance = base * factor / (1 + base * factor);
      for (std::size_t g = 0; g < shares.size(); ++g)
        cause.prior[h][g] = shares[g] * chance;
    }
  }

  Knowledge& all_;
  const Amendment* now_ = nullptr;
  Problems problems_;
};

}  // namespace

Result<Knowledge> amended(Knowledge knowledge, const std::vector<Amendment>& amendments) {
  Problems problems = Amender{knowledge}.run(amendments);
  if (!problems.empty()) return tl::unexpected<Problems>(std::move(problems));
  return knowledge;
}

}  // namespace soot
