#include "core/knowledge/gate_check.hpp"

#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/references.hpp"
#include "core/model/words.hpp"

#include <algorithm>

namespace soot {
namespace {

void known_word(References& refs, const Gate& gate, std::string_view kind, const std::string& word,
                const std::vector<std::string>& words) {
  if (std::find(words.begin(), words.end(), word) != words.end()) return;
  refs.add(gate.place,
           fmt::format("{} names {} '{}', which is not there{}", gate.id, kind, word,
                       did_you_mean(word, words)),
           word);
}

}  // namespace

Problems gate_faults(const Knowledge& knowledge) {
  const Knowledge no_more;
  References refs(knowledge, no_more);
  const std::vector<std::string> history_words(histories.begin(), histories.end());
  for (const Gate& gate : knowledge.gates) {
    if (!gate.prove.empty()) refs.known(gate.place, refs.checks, "check", gate.prove, gate.id);
    refs.all_known(gate.place, refs.symptoms, "symptom", gate.after_found, gate.id);
    refs.all_known(gate.place, refs.cautions, "caution", gate.after_caution, gate.id);
    for (const std::string& history : gate.after_history)
      known_word(refs, gate, "history", history, history_words);
    if (!gate.within.empty()) known_word(refs, gate, "figure", gate.within, figure_keys());
    refs.cited(gate.place, gate.source, gate.id);
  }
  return refs.take();
}

}  // namespace soot
