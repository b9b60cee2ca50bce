#include "core/guide/parting.hpp"

#include "core/infer/answer.hpp"

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

constexpr double one_in_eight = 0.125;
constexpr double least_share = 0.05;  // of a grade, to be looked for by itself

std::vector<infer::Graded> alone(const BuiltNetwork& built, std::size_t cause, std::size_t grade) {
  if (cause == built.causes.size()) return {};  // the sound engine
  const bool engine_wide = built.causes[cause]->scope == Scope::engine;
  return {{cause, engine_wide ? 0 : 1, grade}};
}

bool is_complaint(const Symptom& symptom) {
  return !symptom.id.ends_with("-found");
}

template <class Density>
double density(const std::vector<Density>& mixture, double at) {
  double sum = 0;
  for (const auto& part : mixture) {
    const double z = (at - part.mean) / part.sd;
    sum += part.weight * std::exp(-z * z / 2) / part.sd;
  }
  return sum;
}

}  // namespace

Result<Parting> Parting::on(const Engine& engine) {
  Parting parting(engine);
  Result<BuiltNetwork> built = build_network(engine, std::nullopt);
  if (!built) return pass_on(built);
  parting.built_ = std::move(*built);
  for (const Cause* cause : parting.built_.causes) {
    std::size_t best = 0;
    double most = -1;
    for (std::size_t h = 0; h < cause->prior.size(); ++h) {
      double sum = 0;
      for (const double p : cause->prior[h])
        sum += p;
      if (sum > most) best = h;
      most = std::max(most, sum);
    }
    parting.history_.push_back(best);
  }
  parting.add_findings();
  parting.add_readings();
  return parting;
}

std::optional<std::size_t> Parting::index_of(std::string_view cause) const {
  const auto found = built_.cause_index.find(cause);
  if (found == built_.cause_index.end()) return std::nullopt;
  return found->second;
}

std::vector<double> Parting::shares_of(std::size_t cause) const {
  if (cause == sound()) return {1.0};
  std::vector<double> shares = built_.causes[cause]->prior[history_[cause]];
  double sum = 0;
  for (const double p : shares)
    sum += p;
  for (double& p : shares)
    p = sum > 0 ? p / sum : 1.0 / static_cast<double>(shares.size());
  return shares;
}

// A coarse quantity's reading is the finding that it shows.
const Check* Parting::check_of(std::string_view id) const {
  const auto names = [&](const std::vector<std::string>& ids, std::string_view wanted) {
    return std::find(ids.begin(), ids.end(), wanted) != ids.end();
  };
  for (const Check& check : engine_->knowledge.checks) {
    if (names(check.answers, id) || names(check.reads, id)) return &check;
    for (const Quantity& quantity : engine_->knowledge.quantities)
      for (const Showing& showing : quantity.shows)
        if (showing.symptom == id && names(check.reads, quantity.id)) return &check;
  }
  return nullptr;
}

void Parting::add_findings() {
  const int cylinders = built_.network.cylinders;
  for (std::size_t s = 0; s < built_.symptoms.size(); ++s) {
    const Symptom& symptom = *built_.symptoms[s];
    const bool each = symptom.scope == Scope::cylinder;
    for (int cylinder = each ? 1 : 0; cylinder <= (each ? std::min(2, cylinders) : 0); ++cylinder) {
      std::vector<Shown> row;
      for (std::size_t c = 0; c <= sound(); ++c) {
        Shown shown;
        const std::vector<double> shares = shares_of(c);
        for (std::size_t g = 0; g < shares.size(); ++g)
          shown.chance += shares[g] * infer::chance_of_symptom(built_.network, s, cylinder,
                                                               alone(built_, c, g + 1));
        row.push_back(std::move(shown));
      }
      if (is_complaint(symptom) && cylinder <= 1) complaints_.push_back(signs_.size());
      signs_.push_back({false, symptom.id, cylinder > 1, check_of(symptom.id)});
      shown_.push_back(std::move(row));
    }
  }
}

std::vector<Parting::Normal> Parting::reading_of(std::size_t quantity, std::size_t cause,
                                                 int cylinder) const {
  const Quantity& q = *built_.quantities[quantity];
  const std::vector<double> shares = shares_of(cause);
  std::vector<Normal> out;
  for (std::size_t g = 0; g < shares.size(); ++g) {
    const infer::Normal n =
        infer::expected_reading(built_.network, quantity, cylinder, alone(built_, cause, g + 1));
    const double instrument = std::hypot(q.instrument, q.instrument_share / 100 * n.mean);
    out.push_back({shares[g], n.mean, std::hypot(n.sd, instrument)});
  }
  return out;
}

// Of a quantity without a figure only the difference between cylinders speaks; what is common to
// them falls out of it.
std::vector<Parting::Normal> Parting::difference_of(std::size_t quantity, std::size_t cause) const {
  std::vector<Normal> here = reading_of(quantity, cause, 1);
  const std::vector<Normal> there = reading_of(quantity, cause, 2);
  const bool engine_wide = cause == sound() || built_.causes[cause]->scope == Scope::engine;
  const double unmoved = std::hypot(built_.network.quantities[quantity].spread,
                                    built_.quantities[quantity]->instrument);
  for (std::size_t g = 0; g < here.size(); ++g) {
    here[g].mean -= there[g].mean;
    here[g].sd =
        std::hypot(engine_wide ? unmoved : here[g].sd, engine_wide ? unmoved : there[g].sd);
  }
  return here;
}

void Parting::add_readings() {
  const int cylinders = built_.network.cylinders;
  for (std::size_t q = 0; q < built_.quantities.size(); ++q) {
    const Quantity& quantity = *built_.quantities[q];
    if (quantity.is_coarse()) continue;
    const bool each = quantity.scope == Scope::cylinder;
    const bool has_figure = nominal_of(*engine_, quantity).has_value();
    if (!has_figure && (!each || cylinders < 2)) continue;
    const int last = !each ? 0 : has_figure ? std::min(2, cylinders) : 1;
    for (int cylinder = each ? 1 : 0; cylinder <= last; ++cylinder) {
      std::vector<Shown> row;
      for (std::size_t c = 0; c <= sound(); ++c)
        row.push_back({0, has_figure ? reading_of(q, c, cylinder) : difference_of(q, c)});
      signs_.push_back({true, quantity.id, cylinder > 1, check_of(quantity.id)});
      shown_.push_back(std::move(row));
    }
  }
}

double Parting::ratio(std::size_t sign, std::size_t a, std::size_t b) const {
  const Shown& one = shown_[sign][a];
  const Shown& other = shown_[sign][b];
  double best = 1;
  if (!signs_[sign].is_reading) {
    if (other.chance > 0) best = std::max(best, one.chance / other.chance);
    if (other.chance < 1) best = std::max(best, (1 - one.chance) / (1 - other.chance));
    return best;
  }
  for (const Normal& grade : one.reading) {
    if (grade.weight < least_share) continue;
    const double under_other = density(other.reading, grade.mean);
    const double under_one = density(one.reading, grade.mean);
    best = std::max(best, under_other > 0 ? under_one / under_other : 1e9);
  }
  return best;
}

std::optional<std::size_t> Parting::rival_of(std::size_t cause) const {
  std::optional<std::size_t> best_sign;
  const auto take_strongest = [&](bool complaints_only) {
    for (std::size_t s = 0; s < signs_.size(); ++s) {
      if (signs_[s].is_reading || signs_[s].elsewhere) continue;
      const bool is_one = std::find(complaints_.begin(), complaints_.end(), s) != complaints_.end();
      if (complaints_only && !is_one) continue;
      const double chance = shown_[s][cause].chance;
      if (chance >= one_in_eight && (!best_sign || chance > shown_[*best_sign][cause].chance))
        best_sign = s;
    }
  };
  take_strongest(true);
  if (!best_sign) take_strongest(false);
  if (!best_sign) return std::nullopt;

  const std::size_t symptom = built_.symptom_index.find(signs_[*best_sign].id)->second;
  std::optional<std::size_t> rival;
  double most = 0;
  for (const infer::Link& link : built_.network.symptoms[symptom].links) {
    if (link.cause == cause) continue;
    const Cause& other = *built_.causes[link.cause];
    double chance = 0;
    for (std::size_t g = 0; g < link.strength.size(); ++g)
      chance += other.prior[history_[cause]][g] * link.strength[g];
    const bool each =
        other.scope == Scope::cylinder && !(built_.symptoms[symptom]->scope == Scope::cylinder);
    if (each) chance *= built_.network.cylinders;
    if (chance > most) rival = link.cause;
    most = std::max(most, chance);
  }
  return rival;
}

double Parting::likeness(std::size_t a, std::size_t b) const {
  double both = 0, either = 0;
  for (const std::size_t s : complaints_) {
    const double leak = shown_[s][sound()].chance;
    both += std::min(shown_[s][a].chance, shown_[s][b].chance) - leak;
    either += std::max(shown_[s][a].chance, shown_[s][b].chance) - leak;
  }
  return either > 0 ? both / either : 0;
}

bool Parting::share_a_complaint(std::size_t a, std::size_t b) const {
  return std::any_of(complaints_.begin(), complaints_.end(), [&](std::size_t s) {
    return shown_[s][a].chance >= one_in_eight && shown_[s][b].chance >= one_in_eight;
  });
}

}  // namespace soot
