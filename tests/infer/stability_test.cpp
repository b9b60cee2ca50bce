// The numbers on which the first place hangs, held to the plain way: each number put off by itself
// and the whole network asked anew, none left out because it cannot matter.
#include "core/infer/answer.hpp"
#include "tests/infer/random_model.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace {

using namespace soot;
using Number = std::pair<std::size_t, std::optional<std::size_t>>;  // cause and symptom

double off_by(double factor, double chance, double all) {
  return chance * factor / (1 + (factor - 1) * all);
}

/// Causes in falling order of their chance in any cylinder, instances taken as independent.
std::vector<std::size_t> order_of(const infer::Network& network, const infer::Posterior& answer) {
  std::vector<double> sound(network.causes.size(), 1.0);
  for (const infer::Instance& instance : answer.instances)
    sound[instance.cause] *= 1 - instance.present();
  std::vector<std::size_t> order(sound.size());
  for (std::size_t cause = 0; cause < order.size(); ++cause)
    order[cause] = cause;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sound[a] < sound[b]; });
  return order;
}

void put_off(infer::Network& network, const Number& number, double factor) {
  const auto& [cause, symptom] = number;
  if (!symptom) {
    for (std::vector<double>& row : network.causes[cause].prior) {
      double all = 0;
      for (const double one : row)
        all += one;
      for (double& one : row)
        one = off_by(factor, one, all);
    }
    return;
  }
  for (infer::Link& link : network.symptoms[*symptom].links)
    for (double& one : link.strength)
      if (link.cause == cause) one = off_by(factor, one, one);
}

std::vector<Number> hinges_one_by_one(const tests::RandomModel& model,
                                      const std::vector<std::size_t>& order) {
  std::vector<Number> hinges;
  const auto& findings = model.evidence.findings;
  for (std::size_t place = 0; place < std::min<std::size_t>(2, order.size()); ++place) {
    std::vector<Number> numbers{{order[place], std::nullopt}};
    for (std::size_t s = 0; s < model.network.symptoms.size(); ++s)
      for (const infer::Link& link : model.network.symptoms[s].links)
        if (link.cause == order[place]) numbers.emplace_back(order[place], s);
    for (const Number& number : numbers) {
      const auto found = std::find_if(findings.begin(), findings.end(), [&](const auto& finding) {
        return finding.symptom == number.second;
      });
      if (number.second && found == findings.end()) continue;
      const bool speaks_for = !number.second || found->present;
      infer::Network network = model.network;
      put_off(network, number, speaks_for == (place == 0) ? 0.5 : 2.0);
      const auto answer = infer::posterior(network, model.evidence);
      REQUIRE(answer);
      if (order_of(network, *answer).front() != order.front()) hinges.push_back(number);
    }
  }
  return hinges;
}

/// By more than one number of an engine-wide cause can move: such numbers need not be tried.
bool is_far_ahead(const infer::Posterior& answer, std::size_t first, std::size_t causes) {
  double least = 0;
  std::vector<double> most(causes, 0.0);
  for (const infer::Instance& instance : answer.instances) {
    most[instance.cause] += instance.present();
    if (instance.cause == first) least = std::max(least, instance.present());
  }
  most[first] = 0;
  return least > 4 * *std::max_element(most.begin(), most.end());
}

}  // namespace

TEST_CASE("the hinges are just those numbers that alone let another cause come first") {
  std::size_t with_hinges = 0, without = 0, far_ahead = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    CAPTURE(seed);
    const tests::RandomModel model = tests::random_model(seed);
    const auto ranking =
        infer::ranking(model.network, model.evidence, {}, infer::StabilityQuery{}, {});
    REQUIRE(ranking);
    if (!ranking->stability) continue;
    std::vector<Number> hinges;
    for (const infer::Hinge& hinge : ranking->stability->hinges)
      hinges.emplace_back(hinge.cause, hinge.symptom);
    const std::vector<std::size_t> order = order_of(model.network, ranking->posterior);
    CHECK(hinges == hinges_one_by_one(model, order));
    if (is_far_ahead(ranking->posterior, order.front(), order.size())) ++far_ahead;
    ++(hinges.empty() ? without : with_hinges);
  }
  CHECK(with_hinges > 20);
  CHECK(without > 20);
  CHECK(far_ahead > 20);
}
