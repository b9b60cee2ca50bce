// From a person's words to entries of the knowledge: "smokes black pulling" is smoke-black-load.
// Each entry is known by its name, its id and the phrases of its `words`; what it says of itself
// helps a little. Words are weighed by how few entries have them; misspelt ones count as the
// nearest word known.
#pragma once

#include "core/guide/wording.hpp"
#include "core/model/knowledge.hpp"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

struct Found {
  std::string kind;  ///< "symptom", "cause", ...
  std::string id;
  std::string name;
  double score = 0;  ///< 0 to 1: these very words
};

/// A symptom that a complaint speaks of, perhaps as missing ("no smoke").
struct Heard {
  const Symptom* symptom = nullptr;
  bool absent = false;
  std::string phrase;  ///< by which it was known
};

class Finder {
 public:
  /// `knowledge` must outlive it.
  explicit Finder(const Knowledge& knowledge);

  /// Best first, at most `most`; nothing below a quarter of the words, nor below half of the best.
  /// `kind`: only this one.
  std::vector<Found> find(std::string_view words, std::size_t most = 10,
                          std::string_view kind = "") const;

  /// The symptoms whose phrase, whole or nearly so, is in one sentence of the complaint. Of a
  /// general one and its special form only the special one. In the order of the complaint.
  std::vector<Heard> heard(std::string_view complaint) const;

 private:
  struct Phrase {
    std::string written;
    std::vector<std::string> tokens;
    double weight = 0;
  };
  struct Entry {
    std::string_view kind;
    std::string id, name;
    const Symptom* symptom = nullptr;
    std::vector<Phrase> phrases;
    std::vector<std::string> about;  ///< tokens of what it says of itself
  };
  struct Word {
    std::string token;
    double trust = 1;  ///< less for one that had to be guessed
  };
  struct Match {
    std::size_t at = 0;
    double covered = 0;  ///< weight of what was found of the phrase
    bool absent = false;
  };

  void add(std::string_view kind, const std::string& id, const std::string& name,
           const std::vector<std::string>& phrases, const std::string& about,
           const Symptom* symptom = nullptr);
  void weigh();
  double weight_of(const std::string& token) const;
  std::vector<Word> understood(std::string_view words) const;
  double score(const Entry& entry, const std::vector<Word>& words) const;
  Match match(const Phrase& phrase, const std::vector<Word>& sentence) const;

  Wording wording_;
  std::vector<Entry> entries_;
  std::map<std::string, double> weights_;
  std::set<std::string, std::less<>> stems_;  ///< of every word that is known
};

}  // namespace soot
