// The graph that is reasoned over, and nothing else: no names a person reads, no files, no engine
// families. Two layers: causes above; symptoms (leaky noisy-OR over the causes' grades) and
// quantities (linear Gaussian given the grades) below; one history over all causes' priors.
//
// Sources: leaky noisy-OR with grades: Diez, "Parameter adjustment in Bayes networks: the
// generalized noisy OR-gate", UAI 1993. Mixed discrete and Gaussian: Lauritzen and Jensen,
// Statistics and Computing 11 (2001).
#pragma once

#include "core/base/problem.hpp"
#include "core/infer/curve.hpp"

#include <boost/container/static_vector.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace soot::infer {

inline constexpr std::size_t most_grades = 4;  ///< of a cause, sound not counted
/// A number for each grade of a cause, sound first. Every answer has hundreds of such rows: they
/// lie in place.
using GradeRow = boost::container::static_vector<double, most_grades + 1>;

/// `engine`: one instance. `cylinder`: one instance a cylinder.
enum class Scope { engine, cylinder };

/// What a cause, when present, adds to one engine term. The magnitude is one Gaussian number an
/// instance: an engine-wide cause's is common to all cylinders, a cylinder's cause has its own.
/// All vectors run over the grades 1..n of the cause.
struct Effect {
  std::size_t term = 0;      ///< index into Network::terms
  std::vector<double> mean;  ///< in the term's unit
  std::vector<double> sd;    ///< >= 0; 0 = known exactly
  /// Engine-wide causes only: a scatter of its own on each cylinder, beside the common number
  /// (>= 0; empty = none). It reaches a quantity through the slope of its curve at the common
  /// shift; a quantity of the engine hears the common number only.
  std::vector<double> scatter;
};

struct Cause {
  std::string id;
  Scope scope = Scope::engine;
  std::size_t grades = 1;  ///< grades 1..n; grade 0 is sound
  /// prior[h][g - 1] of one instance, given history h; the rest is grade 0. Each row sums to <= 1.
  std::vector<std::vector<double>> prior;
  std::vector<Effect> effects;
};

struct Link {
  std::size_t cause = 0;
  std::vector<double> strength;  ///< P(it fires the symptom), one a grade 1..n, in [0, 1]
};

/// P(report absent given the grades) = (1 - leak')*product(1 - strength'): noticing is folded in,
/// strength' = strength (1 - missed), leak' = 1 - (1 - leak)(1 - imagined).
/// A cylinder's symptom hears engine-wide causes and those of its cylinder, an engine's all causes.
struct Symptom {
  std::string id;
  Scope scope = Scope::engine;
  double leak = 0;      ///< in [0, 1)
  double missed = 0;    ///< P(a contribution is not noticed)
  double imagined = 0;  ///< P(reported present though nothing is there)
  std::vector<Link> links;
};

/// How a term moves a quantity. The shifts of several terms add.
struct Response {
  std::size_t term = 0;
  Curve shift;
};

/// reading = nominal + sum of responses + spread (one draw a quantity and cylinder) + instrument.
/// A cylinder's quantity hears engine-wide causes and those of its cylinder, an engine's all
/// causes.
struct Quantity {
  std::string id;
  Scope scope = Scope::engine;
  double nominal = 0;
  double spread = 0;  ///< standard deviation of the sound engine
  std::vector<Response> responses;
};

/// The instrument of one quantity may be wrong: one offset common to all its readings. At most one
/// instrument of the network is wrong at a time (one variable: none, or which). An entry whose
/// quantity has no reading takes no part.
struct InstrumentFault {
  std::size_t quantity = 0;
  double prior = 0;
  double mean = 0;  ///< of the offset, in the quantity's unit
  double sd = 0;    ///< > 0
};

/// Replaces the prior of one instance, whatever the history (after a correction).
struct InstancePrior {
  std::size_t cause = 0;
  int cylinder = 0;           ///< 1..n, 0 for an engine-wide cause
  std::vector<double> grade;  ///< of grades 1..n
};

struct Network {
  std::vector<std::string> histories;  ///< at least one
  std::vector<double> history_prior;   ///< sums to 1
  int cylinders = 1;                   ///< numbered from 1
  std::vector<std::string> terms;
  std::vector<Cause> causes;
  std::vector<Symptom> symptoms;
  std::vector<Quantity> quantities;
  std::vector<InstrumentFault> instrument_faults;
  std::vector<InstancePrior> instance_priors;
};

/// Ranges, sizes, indices: what of the rules above is broken. Empty = sound.
Problems faults_of(const Network& network);

}  // namespace soot::infer
