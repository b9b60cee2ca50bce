// Reads the invented fixtures (tests/data/infer/fNN-*.json): a model, evidence and exact answers of
// twelve digits from joint enumeration. An unsure report's `report` block is literal weights on the
// report, not the symptom's own noticing. Links to causes that a fixture leaves out are skipped.
#pragma once

#include "core/infer/answer.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace soot::tests {

using GradeTable = std::map<std::string, std::vector<double>>;  ///< "id" or "id@cylinder"

struct ExpectedWhatIf {
  infer::Finding finding;  ///< as reported present
  double reported_present = 0;
  GradeTable if_present, if_absent;
};

struct ExpectedWeights {
  bool of_reading = false;
  std::size_t index = 0;
  std::map<std::string, double> change;
};

struct ExpectedExplanation {
  double probability = 0;
  std::map<std::string, std::size_t> grades;
};

struct Fixture {
  infer::Network network;
  infer::Evidence evidence;
  double log_evidence = 0;
  std::vector<double> history;
  GradeTable causes;
  std::vector<std::optional<double>> not_listed;
  std::vector<ExpectedExplanation> top;
  std::vector<ExpectedWhatIf> what_ifs;
  std::vector<ExpectedWeights> weights;
};

Fixture read_fixture(const std::string& name);

/// "id" or "id@cylinder".
std::string label_of(const infer::Network& network, std::size_t cause, int cylinder);

}  // namespace soot::tests
