// dlib's join tree as outside judge.
#include "core/infer/answer.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/infer/dlib_tree.hpp"

#include <doctest/doctest.h>

#include <cmath>

using soot::infer::Network;
using soot::infer::Scope;
using soot::tests::add_cause;
using soot::tests::add_symptom;
using soot::tests::one_history;
using soot::tests::saw;

TEST_CASE("dlib join tree on noisy-OR models") {
  for (int model = 0; model < 3; ++model) {
    CAPTURE(model);
    Network network = one_history();
    const std::size_t causes = 6 + static_cast<std::size_t>(model);
    for (std::size_t i = 0; i < causes; ++i)
      add_cause(network, "c", Scope::engine, 0.01 + 0.013 * static_cast<double>(i % 5));
    std::vector<soot::infer::Finding> findings;
    for (std::size_t s = 0; s < 6; ++s) {
      std::vector<std::pair<std::size_t, double>> links{{0, 0.1 + 0.1 * static_cast<double>(s)}};
      for (std::size_t i = 1; i < causes; ++i)
        if ((i * 5 + s + static_cast<std::size_t>(model)) % 3 != 0)
          links.emplace_back(i, 0.15 + 0.1 * static_cast<double>((i + 2 * s) % 8));
      add_symptom(network, "s", Scope::engine, 0.01 + 0.01 * static_cast<double>(s), links);
      findings.push_back(saw(s, s < 4));
    }
    const auto answer = soot::infer::posterior(network, {{}, findings, {}});
    REQUIRE(answer);
    const std::vector<double> judge =
        soot::tests::Unrolled(network, findings).probabilities(causes);
    for (std::size_t cause = 0; cause < causes; ++cause)
      CHECK(std::abs(answer->instances[cause].grade[1] - judge[cause]) < 1e-9 * judge[cause]);
  }
}
