// The slow truth: every joint state of history, instrument and grades counted through, the readings
// one multivariate normal given all of them, bounds and curves by numerical integration. Written
// from the model's definition alone, in long double, and shares no code with core/infer.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <map>
#include <optional>
#include <vector>

namespace soot::tests {

struct OracleAnswer {
  bool impossible = false;
  double log_evidence = 0;
  std::vector<double> history;
  std::vector<std::vector<double>> grades;  ///< instances: engine-wide first, by cause and cylinder
  std::vector<double> any, none;
  std::vector<std::optional<double>> not_listed;
  std::vector<double> instrument_wrong;
  std::map<std::vector<std::size_t>, double> joint;  ///< grades of all instances -> probability
};

struct OracleInstance {
  std::size_t cause = 0;
  int cylinder = 0;
};

std::vector<OracleInstance> oracle_instances(const infer::Network& network);

OracleAnswer ask_oracle(const infer::Network& network, const infer::Evidence& evidence);

}  // namespace soot::tests
