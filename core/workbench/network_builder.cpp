#include "core/workbench/network_builder.hpp"

#include "core/calc/depth_budget.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/geometry.hpp"
#include "core/calc/helix.hpp"
#include "core/calc/train.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

constexpr std::size_t ordinary = 4;  // index into `histories`

infer::Scope scope_of(Scope scope) {
  return scope == Scope::engine ? infer::Scope::engine : infer::Scope::cylinder;
}

std::vector<double> times(double factor, std::vector<double> values) {
  for (double& value : values)
    value *= factor;
  return values;
}

// A tenth of what a depth gauge can tell, in the quantity's unit.
constexpr double curve_within = 0.002;

// Drops points while the straight line between those kept passes within `curve_within` of each one
// dropped: every kink costs the inference nodes of its own.
std::vector<std::pair<double, double>> thinned(
    const std::vector<std::pair<double, double>>& points) {
  std::vector<std::pair<double, double>> kept{points.front()};
  const auto passes = [&](std::size_t from, std::size_t to) {
    const double slope =
        (points[to].second - points[from].second) / (points[to].first - points[from].first);
    for (std::size_t i = from + 1; i < to; ++i)
      if (std::abs(points[from].second + slope * (points[i].first - points[from].first) -
                   points[i].second) > curve_within)
        return false;
    return true;
  };
  for (std::size_t from = 0; from + 1 < points.size();) {
    std::size_t to = from + 1;
    while (to + 1 < points.size() && passes(from, to + 1))
      ++to;
    kept.push_back(points[to]);
    from = to;
  }
  return kept;
}

class Builder {
 public:
  Builder(const Engine& engine, std::optional<std::size_t> history)
      : engine_(engine), history_(history.value_or(ordinary)) {}

  Result<BuiltNetwork> build() {
    infer::Network& net = out_.network;
    net.histories.assign(histories.begin(), histories.end());
    net.history_prior.assign(engine_.knowledge.history_prior.begin(),
                             engine_.knowledge.history_prior.end());
    net.cylinders = engine_.family.cylinders;
    for (const Term& term : engine_.knowledge.terms)
      net.terms.push_back(term.id);
    for (const Quantity& quantity : engine_.knowledge.quantities)
      add(quantity);
    for (const Symptom& symptom : engine_.knowledge.symptoms)
      add(symptom);
    for (const Cause& cause : engine_.knowledge.causes)
      add(cause);
    for (std::size_t q = 0; q < out_.quantities.size(); ++q)
      add_unknown_figure(q);
    Problems problems = infer::faults_of(net);
    if (!problems.empty()) return tl::unexpected<Problems>(std::move(problems));
    return std::move(out_);
  }

 private:
  std::size_t term_index(std::string_view id) const {
    const auto& terms = out_.network.terms;
    return static_cast<std::size_t>(std::find(terms.begin(), terms.end(), id) - terms.begin());
  }

  // What acts on a quantity directly acts through a term of its own.
  std::size_t own_term(std::size_t quantity) const { return own_terms_[quantity]; }

  void add(const Quantity& quantity) {
    infer::Network& net = out_.network;
    infer::Quantity q;
    q.id = quantity.id;
    q.scope = scope_of(quantity.scope);
    const std::optional<double> nominal = nominal_of(engine_, quantity);
    q.nominal = nominal.value_or((quantity.least + quantity.most) / 2);
    q.spread = reading_spread_of(engine_, quantity);
    own_terms_.push_back(net.terms.size());
    net.terms.push_back("of " + quantity.id);
    q.responses.push_back({own_terms_.back(), infer::Curve{1.0}});
    add_geometry(quantity, q);
    for (const Hearing& hearing : quantity.hears) {
      const double slope =
          hearing.share_of_nominal ? hearing.per_unit / 100 * q.nominal : hearing.per_unit;
      q.responses.push_back({term_index(hearing.term), infer::Curve{slope}});
    }
    out_.quantity_index[quantity.id] = net.quantities.size();
    out_.quantities.push_back(&quantity);
    if (const Cause* wrong = find_id(engine_.knowledge.causes, instrument_cause);
        wrong != nullptr && quantity.wrong_offset > 0) {
      net.instrument_faults.push_back(
          {net.quantities.size(), wrong->prior[history_].front(), 0.0, quantity.wrong_offset});
    }
    net.quantities.push_back(std::move(q));
  }

  void add_geometry(const Quantity& quantity, infer::Quantity& q) {
    if (quantity.geometry.empty()) return;
    const Result<std::vector<calc::TermResponse>> found =
        calc::responses(quantity.geometry, engine_.family, engine_.law.get());
    // A family without the figures leaves the quantity deaf to these terms, not the job without an
    // answer: its cylinders can still be compared.
    if (!found) return;
    for (const calc::TermResponse& response : *found)
      q.responses.push_back({term_index(response.term),
                             response.points.empty() ? infer::Curve{response.slope}
                                                     : infer::Curve{thinned(response.points)}});
  }

  void add(const Symptom& symptom) {
    infer::Symptom s;
    s.id = symptom.id;
    s.scope = scope_of(symptom.scope);
    s.leak = symptom.leak;
    s.missed = symptom.missed;
    s.imagined = symptom.imagined;
    out_.symptom_index[symptom.id] = out_.network.symptoms.size();
    out_.symptoms.push_back(&symptom);
    out_.network.symptoms.push_back(std::move(s));
  }

  void add(const Cause& cause) {
    if (cause.id == instrument_cause) return;
    const std::size_t index = out_.causes.size();
    infer::Cause c;
    c.id = cause.id;
    c.scope = scope_of(cause.scope);
    c.grades = cause.grades.size();
    c.prior.assign(cause.prior.begin(), cause.prior.end());
    for (const Link& link : cause.links)
      out_.network.symptoms[out_.symptom_index.find(link.symptom)->second].links.push_back(
          {index, link.strength});
    for (const Effect& effect : cause.effects)
      add(effect, c);
    out_.cause_index[cause.id] = index;
    out_.causes.push_back(&cause);
    out_.network.causes.push_back(std::move(c));
  }

  void add(const Effect& effect, infer::Cause& cause) {
    infer::Effect e;
    double factor = 1;
    const auto quantity = out_.quantity_index.find(effect.target);
    if (quantity == out_.quantity_index.end()) {
      e.term = term_index(effect.target);
    } else {
      e.term = own_term(quantity->second);
      const infer::Quantity& q = out_.network.quantities[quantity->second];
      if (effect.written == Dimension::share &&
          out_.quantities[quantity->second]->dimension != Dimension::share)
        factor = q.nominal / 100;
    }
    if (!effect.times.empty()) {
      const std::optional<double> unit = size_of(effect);
      if (!unit) return;  // a family without gear figures: the effect is not known here
      factor = *unit;
    }
    e.mean = times(factor, effect.mean);
    e.sd = times(std::abs(factor), effect.sd);
    e.scatter = times(std::abs(factor), effect.scatter);
    cause.effects.push_back(std::move(e));
  }

  // What the effect counts in, in the unit of its target.
  std::optional<double> size_of(const Effect& effect) const {
    if (effect.times == "tooth") return calc::tooth_deg(engine_.family);
    if (effect.times == "rack-tooth") return calc::rack_tooth_mm(engine_.family);
    const Term* term = find_id(engine_.knowledge.terms, effect.target);
    const Dimension dimension = term != nullptr
                                    ? term->dimension
                                    : get_id(engine_.knowledge.quantities, effect.target).dimension;
    if (dimension == Dimension::angle) return calc::lash_limit_deg(engine_.family);
    const auto flank = calc::Flank::of(engine_.family, engine_.law.get());
    return flank ? calc::lash_limit_mm(engine_.family, *flank) : std::nullopt;
  }

  // Present for certain, of a size nobody knows: its shift is common to all cylinders, so that only
  // their differences speak.
  void add_unknown_figure(std::size_t index) {
    const Quantity& quantity = *out_.quantities[index];
    if (quantity.is_coarse() || nominal_of(engine_, quantity)) return;
    infer::Cause c;
    c.id = "no figure of " + quantity.id;
    c.prior.assign(histories.size(), {1.0});
    c.effects.push_back({own_term(index), {0.0}, {(quantity.most - quantity.least) / 4}, {}});
    out_.network.causes.push_back(std::move(c));
  }

  const Engine& engine_;
  std::size_t history_;
  BuiltNetwork out_;
  std::vector<std::size_t> own_terms_;
};

}  // namespace

Result<BuiltNetwork> build_network(const Engine& engine, std::optional<std::size_t> known_history) {
  return Builder{engine, known_history}.build();
}

std::optional<double> nominal_of(const Engine& engine, const Quantity& quantity) {
  if (!quantity.figure.empty())
    if (const std::optional<double> figure = engine.family.nominal(quantity.figure)) return figure;
  if (quantity.usual) return quantity.usual;
  if (quantity.geometry.empty()) return std::nullopt;
  return calc::derived_nominal(quantity.geometry, engine.family, engine.law.get());
}

double spread_of(const Engine& engine, const Quantity& quantity) {
  const Figure* figure = engine.family.figure(quantity.figure);
  if (figure != nullptr && figure->tolerance) return *figure->tolerance / 2;
  // A band is taken as two standard deviations either side of its middle.
  if (figure != nullptr && figure->low && figure->high) return (*figure->high - *figure->low) / 4;
  const double nominal = nominal_of(engine, quantity).value_or(0);
  return std::hypot(quantity.spread, quantity.spread_share / 100 * nominal);
}

double reading_spread_of(const Engine& engine, const Quantity& quantity) {
  const auto flank = calc::Flank::of(engine.family, engine.law.get());
  const auto handling = calc::handling_components(quantity.geometry, calc::DepthBudget{},
                                                  flank ? flank->rate_at_top() : 0);
  return std::hypot(spread_of(engine, quantity), calc::combined(handling, calc::Shared::cylinder));
}

}  // namespace soot
