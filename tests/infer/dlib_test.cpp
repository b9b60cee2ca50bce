// A general-purpose library as outside judge: the exact join tree of dlib on noisy-OR models, each
// finding unrolled into a chain of two-parent OR nodes. (Its time explodes above seven present
// findings, and it wants a connected graph.)
#include "core/infer/answer.hpp"
#include "tests/infer/build_network.hpp"

#include <dlib/bayes_utils.h>
#include <dlib/directed_graph.h>
#include <dlib/graph.h>
#include <dlib/graph_utils.h>
#include <doctest/doctest.h>

#include <cmath>

namespace {

using dlib::assignment;
using soot::infer::Network;
using soot::infer::Scope;
using soot::tests::add_cause;
using soot::tests::add_symptom;
using soot::tests::one_history;
using soot::tests::saw;
namespace bayes = dlib::bayes_node_utils;

using Graph = dlib::directed_graph<dlib::bayes_node>::kernel_1a_c;

/// Chain form: link k hears link k - 1 (the first hears the leak alone) and one cause.
class Unrolled {
 public:
  Unrolled(const Network& network, const std::vector<soot::infer::Finding>& findings) {
    const std::size_t causes = network.causes.size();
    std::size_t nodes = causes;
    for (const auto& finding : findings)
      nodes += network.symptoms[finding.symptom].links.size();
    graph_.set_number_of_nodes(nodes);
    for (std::size_t node = 0; node < nodes; ++node)
      bayes::set_node_num_values(graph_, node, 2);
    for (std::size_t cause = 0; cause < causes; ++cause)
      set(cause, {}, network.causes[cause].prior[0][0]);
    std::size_t next = causes;
    for (const auto& finding : findings) {
      const auto& symptom = network.symptoms[finding.symptom];
      for (std::size_t k = 0; k < symptom.links.size(); ++k, ++next) {
        const std::size_t cause = symptom.links[k].cause;
        const double strength = symptom.links[k].strength[0];
        graph_.add_edge(cause, next);
        if (k > 0) graph_.add_edge(next - 1, next);
        for (const unsigned long on : {0UL, 1UL})
          for (const unsigned long before : {0UL, 1UL}) {
            if (k == 0 && before == 1) continue;
            const double quiet = (k == 0        ? 1 - symptom.leak
                                  : before == 1 ? 0
                                                : 1) *
                                 (on == 1 ? 1 - strength : 1);
            assignment parents;
            parents.add(cause, on);
            if (k > 0) parents.add(next - 1, before);
            set(next, parents, 1 - quiet);
          }
      }
      bayes::set_node_value(graph_, next - 1, finding.present ? 1 : 0);
      bayes::set_node_as_evidence(graph_, next - 1);
    }
  }

  /// One a cause: P(present).
  std::vector<double> probabilities(std::size_t causes) {
    using Sets = dlib::set<unsigned long>::compare_1b_c;
    dlib::graph<Sets, Sets>::kernel_1a_c tree;
    dlib::create_moral_graph(graph_, tree);
    dlib::graph<Sets, Sets>::kernel_1a_c join;
    dlib::create_join_tree(tree, join);
    dlib::bayesian_network_join_tree solution(graph_, join);
    std::vector<double> result;
    for (std::size_t cause = 0; cause < causes; ++cause)
      result.push_back(solution.probability(cause)(1));
    return result;
  }

 private:
  void set(std::size_t node, const assignment& parents, double on) {
    bayes::set_node_probability(graph_, node, 1, parents, on);
    bayes::set_node_probability(graph_, node, 0, parents, 1 - on);
  }

  Graph graph_;
};

}  // namespace

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
    const std::vector<double> judge = Unrolled(network, findings).probabilities(causes);
    for (std::size_t cause = 0; cause < causes; ++cause)
      CHECK(std::abs(answer->instances[cause].grade[1] - judge[cause]) < 1e-9 * judge[cause]);
  }
}
