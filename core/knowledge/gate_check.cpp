#include "core/knowledge/gate_check.hpp"

#include "core/base/text.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

class GateCheck {
 public:
  explicit GateCheck(const Gate& gate) : gate_(gate) {}

  void known(std::string_view kind, const std::vector<std::string>& wanted,
             const std::vector<std::string>& there) {
    for (const std::string& id : wanted) {
      if (std::find(there.begin(), there.end(), id) != there.end()) continue;
      Problem problem = make_problem(Kind::data, "{} names {} '{}', which is not there{}", gate_.id,
                                     kind, id, did_you_mean(id, there));
      problem.place = gate_.place;
      problems.push_back(std::move(problem));
    }
  }

  Problems problems;

 private:
  const Gate& gate_;
};

std::vector<std::string> if_any(const std::string& word) {
  return word.empty() ? std::vector<std::string>{} : std::vector<std::string>{word};
}

}  // namespace

Problems gate_faults(const Knowledge& knowledge) {
  Problems all;
  const std::vector<std::string> history_words(histories.begin(), histories.end());
  for (const Gate& gate : knowledge.gates) {
    GateCheck check{gate};
    check.known("check", if_any(gate.prove), ids_of(knowledge.checks));
    check.known("symptom", gate.after_found, ids_of(knowledge.symptoms));
    check.known("caution", gate.after_caution, ids_of(knowledge.cautions));
    check.known("history", gate.after_history, history_words);
    check.known("figure", if_any(gate.within), figure_keys());
    all.insert(all.end(), check.problems.begin(), check.problems.end());
  }
  return all;
}

}  // namespace soot
