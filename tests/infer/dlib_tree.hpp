// A general-purpose library as outside judge: the exact join tree of dlib on noisy-OR models, each
// finding unrolled into a chain of two-parent OR nodes. (Its time explodes above seven present
// findings, and it wants a connected graph.)
#pragma once

#include "core/infer/evidence.hpp"

#include <dlib/bayes_utils.h>
#include <dlib/directed_graph.h>
#include <dlib/graph.h>
#include <dlib/graph_utils.h>

#include <vector>

namespace soot::tests {

using dlib::assignment;
namespace bayes = dlib::bayes_node_utils;

using Graph = dlib::directed_graph<dlib::bayes_node>::kernel_1a_c;

/// Chain form: link k hears link k - 1 (the first hears the leak alone) and one cause.
class Unrolled {
 public:
  Unrolled(const infer::Network& network, const std::vector<infer::Finding>& findings) {
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

}  // namespace soot::tests
