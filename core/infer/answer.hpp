// The questions that can be put to a network and the shapes of the answers. Pure functions: the
// same input gives the same bits on one machine, and nothing is kept between calls.
//
// Every function fails (Kind::data) on a network or evidence that faults_of() complains of, and on
// work beyond `Limits` (the sentence says how much was asked). Evidence that is impossible under
// the model (probability 0) is an answer: Posterior::impossible.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace soot::infer {

struct Limits {
  double log2_work = 32;  ///< elementary steps, estimated before the work starts
  /// Share of the evidence that joint grades of the engine-wide causes which the readings hardly
  /// allow may be given up for (but never every state of a grade); what was given up is counted in
  /// Posterior::error_bound. 0: nothing that any figure would show.
  double tolerance = 0;
  bool by_cause = true;  ///< also what holds in any cylinder: Posterior::any and none
};

/// One instance of a cause. grade[0] is sound; the grades sum to 1.
struct Instance {
  std::size_t cause = 0;
  int cylinder = 0;  ///< 0 for an engine-wide cause
  GradeRow grade;

  double present() const;  ///< sum of the grades above 0, summed from the small side
};

struct Posterior {
  /// Evidence probability 0 (or below e^-700 of what the readings alone allow): of the rest only
  /// log_evidence is filled, with minus infinity.
  bool impossible = false;
  double log_evidence = 0;  ///< natural log; densities of exact readings in their unit
  /// Too much work for an exact answer: why. The rest is then an estimate by seeded random walks,
  /// without log_evidence (not a number).
  std::optional<std::string> sampled;
  double standard_error = 0;  ///< of a sampled answer, the largest of all its chances
  /// Of quadrature and of the nodes left out, as a share of what the readings alone allow: what was
  /// left out is taken to fit the symptoms as well as the rest does.
  double error_bound = 0;
  std::vector<double> history;      ///< one a history
  std::vector<Instance> instances;  ///< all, engine-wide causes first, then by cause and cylinder
  std::vector<double> any;   ///< one a cause: P(present in any cylinder), exact; if asked for
  std::vector<double> none;  ///< one a cause: P(sound in every cylinder), not as 1 - any
  /// One a finding of the evidence: P(truly there and no listed cause fired it), for those reported
  /// present; nothing for those reported absent. A listed contribution that went unnoticed has not
  /// fired; a report that was only imagined is not "truly there".
  std::vector<std::optional<double>> not_listed;
  std::vector<double> instrument_wrong;  ///< one an entry of Network::instrument_faults
};

Result<Posterior> posterior(const Network& network, const Evidence& evidence,
                            const Limits& limits = {});

struct Graded {
  std::size_t cause = 0;
  int cylinder = 0;
  std::size_t grade = 1;
};

/// One joint assignment of the causes of interest, the others summed out. What is not in `present`
/// is sound. The instrument variable is summed out too.
struct Explanation {
  double probability = 0;
  std::vector<Graded> present;
};

struct ExplanationQuery {
  std::size_t count = 10;
  std::vector<bool> of_interest;  ///< one a cause; empty = every cause that touches the evidence
};

/// The most probable joint explanations, best first, exactly the best ones; probabilities exact.
Result<std::vector<Explanation>> explanations(const Network& network, const Evidence& evidence,
                                              const ExplanationQuery& query,
                                              const Limits& limits = {});

/// Log-odds (natural) of "cause present" (cylinder 0 of a cylinder's cause: in any cylinder) with
/// everything, minus the same without one piece of evidence. Infinite where an odds is 0.
struct Weights {
  double log_odds = 0;         ///< with everything
  double prior_log_odds = 0;   ///< with the history as known, nothing else
  std::vector<double> pieces;  ///< one a piece
};

/// What is weighed as one: indices into the evidence. Repeats belong together: left out one by one
/// each would look worthless, since the others say the same.
struct Piece {
  std::vector<std::size_t> findings;
  std::vector<std::size_t> readings;
};

/// One piece for the findings of each symptom and cylinder, one for the readings of each quantity
/// and cylinder, in the order in which they first come.
std::vector<Piece> pieces_of(const Evidence& evidence);

Result<Weights> weights(const Network& network, const Evidence& evidence, std::size_t cause,
                        int cylinder, const std::vector<Piece>& pieces, const Limits& limits = {});

/// The piece of evidence least to be expected from all the others.
struct WorstFit {
  bool is_reading = false;
  std::size_t index = 0;   ///< into findings or readings
  double probability = 0;  ///< of it given the others; for an exact reading its two-sided tail
};

/// Nothing if there is no evidence.
Result<std::optional<WorstFit>> worst_fit(const Network& network, const Evidence& evidence,
                                          const Limits& limits = {});

/// What an unmade look would change: added findings (all of one outcome) or readings in a band.
struct WhatIf {
  std::vector<Finding> findings;
  std::vector<Reading> readings;
};

struct Outcome {
  double probability = 0;  ///< of the addition given the evidence (a density if exact readings)
  Posterior posterior;     ///< after it
};

/// One an entry of `additions`, in order.
Result<std::vector<Outcome>> what_ifs(const Network& network, const Evidence& evidence,
                                      const std::vector<WhatIf>& additions,
                                      const Limits& limits = {});

/// Does the order hold when the knowledge's numbers are off? All priors and strengths are drawn
/// off by up to `factor` (odds, evenly in the log, all grades of one number together); then single
/// numbers of the first two causes are put off by the whole factor, against the first.
struct StabilityQuery {
  double factor = 2;       ///< 1 or more
  std::size_t draws = 20;  ///< fewer, down to 10, where each takes long
  std::uint64_t seed = 1;
  double log2_work = 27;  ///< nothing is answered beyond that
};

/// A number on which the first place hangs: a cause's prior, or its strength on a symptom.
struct Hinge {
  std::size_t cause = 0;
  std::optional<std::size_t> symptom;
};

struct Stability {
  double factor = 2;
  std::size_t draws = 0;
  double stays_first = 0;     ///< share of the draws in which the first cause stays so
  double stays_in_three = 0;  ///< among the first three
  std::vector<Hinge> hinges;  ///< each alone lets another cause come first
};

/// What a ranking shows, from one preparation.
struct Ranking {
  Posterior posterior;
  std::vector<Explanation> explanations;
  std::optional<Stability> stability;  ///< nothing where it would take too long
};

/// Stability only if asked for.
Result<Ranking> ranking(const Network& network, const Evidence& evidence,
                        const ExplanationQuery& explained,
                        const std::optional<StabilityQuery>& stable, const Limits& limits = {});

/// P(report present) of a symptom, and mean and standard deviation of a new reading of a quantity
/// (instrument left out), given exactly these causes present and all others sound, and no evidence.
/// What a planner builds its tables from. Where a curve bends, the spread is taken along its slope
/// at the mean common shift. Arguments must be sound: nothing is checked.
double chance_of_symptom(const Network& network, std::size_t symptom, int cylinder,
                         const std::vector<Graded>& present);
struct Normal {
  double mean = 0;
  double sd = 0;
};
Normal expected_reading(const Network& network, std::size_t quantity, int cylinder,
                        const std::vector<Graded>& present);

}  // namespace soot::infer
