// Part of the oracle: density of all readings given every grade and the wrong instrument.
#pragma once

#include "tests/infer/oracle.hpp"

namespace soot::tests {

/// `fault`: index into Network::instrument_faults.
long double oracle_reading_density(const infer::Network& network, const infer::Evidence& evidence,
                                   const std::vector<OracleInstance>& instances,
                                   const std::vector<std::size_t>& grades,
                                   std::optional<std::size_t> fault);

}  // namespace soot::tests
