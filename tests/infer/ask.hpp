// The posterior where there must be one.
#pragma once

#include "core/infer/answer.hpp"

#include <doctest/doctest.h>

namespace soot::tests {

inline infer::Posterior ask(const infer::Network& network, const infer::Evidence& evidence) {
  const auto posterior = infer::posterior(network, evidence);
  REQUIRE(posterior);
  return *posterior;
}

}  // namespace soot::tests
