#include "core/workbench/program_words.hpp"

#include "core/base/text.hpp"
#include "core/calc/geometry.hpp"
#include "core/calc/sum.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/pinpoint.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

class Words {
 public:
  Words() {
    for (const char* word : {"firing-order", "rotation", "numbering"})
      known_.emplace_back(word);
  }

  Problems take() { return std::move(problems_); }

  void look(const Quantity& quantity) {
    if (quantity.geometry.empty() || calc::is_geometry_word(quantity.geometry)) return;
    add(quantity.place,
        fmt::format("{} follows the geometry of '{}', which is none (expected one of {})",
                    quantity.id, quantity.geometry, fmt::join(calc::geometry_words, ", ")),
        quantity.geometry);
  }

  void look(const Correction& correction) {
    look_at_sum(correction, correction.sum);
    for (const WorkVariant& variant : correction.variants)
      look_at_sum(correction, variant.sum.value_or(""));
  }

  void look(const Procedure& procedure) {
    for (const Step& step : procedure.steps)
      look_at_figures(procedure, step.saying.text);
    for (const Saying& saying : procedure.means)
      look_at_figures(procedure, saying.text);
  }

 private:
  void look_at_sum(const Correction& correction, const std::string& sum) {
    if (sum.empty() || calc::find_sum(sum) != nullptr) return;
    std::vector<std::string> ids;
    for (const calc::SumForm& form : calc::sum_forms())
      ids.emplace_back(form.id);
    add(correction.place,
        fmt::format("{} names sum '{}', which is not there{}", correction.id, sum,
                    did_you_mean(sum, ids)),
        sum);
  }

  // "{lifter-depth}" is filled in with the family's figure.
  void look_at_figures(const Procedure& procedure, const std::string& text) {
    for (std::size_t open = text.find('{'); open != std::string::npos;
         open = text.find('{', open + 1)) {
      const std::size_t close = text.find('}', open);
      if (close == std::string::npos) {
        add(procedure.place, fmt::format("{}: a brace is not closed in '{}'", procedure.id, text),
            text);
        return;
      }
      const std::string key =
          text.substr(open + 1, std::min(close, text.find('|', open)) - open - 1);
      // A family may give figures of its own: wrong is only what looks like a known one.
      const bool is_known = std::find(known_.begin(), known_.end(), key) != known_.end();
      const std::string near = is_known ? std::string{} : did_you_mean(key, known_);
      if (!near.empty())
        add(procedure.place,
            fmt::format("{} asks for figure '{}', which is not known{}", procedure.id, key, near),
            text);
    }
  }

  void add(const Place& place, std::string words, std::string_view name) {
    Problem problem = make_problem(Kind::data, "{}", words);
    problem.place = place;
    problems_.push_back(pinpoint_.at(std::move(problem), name));
  }

  std::vector<std::string> known_ = figure_keys();
  Problems problems_;
  Pinpoint pinpoint_;
};

}  // namespace

Problems unknown_program_words(const Knowledge& knowledge) {
  Words words;
  for (const Quantity& quantity : knowledge.quantities)
    words.look(quantity);
  for (const Correction& correction : knowledge.corrections)
    words.look(correction);
  for (const Procedure& procedure : knowledge.procedures)
    words.look(procedure);
  return words.take();
}

Result<LoadedKnowledge> load_sound_knowledge(const std::filesystem::path& folder) {
  Result<LoadedKnowledge> loaded = load_knowledge(folder);
  if (!loaded) return loaded;
  Problems problems = unknown_program_words(loaded->knowledge);
  if (!problems.empty()) return tl::unexpected<Problems>(std::move(problems));
  return loaded;
}

}  // namespace soot
