// How the pages of the knowledge say things: the scale's words for its numbers, minutes, parts,
// sources in full.
#pragma once

#include "core/knowledge/scale.hpp"
#include "core/model/knowledge.hpp"
#include "core/report/entry_page.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

/// Index into `histories` of the one that `common` speaks of.
inline constexpr std::size_t ordinary = 4;

bool names(const std::vector<std::string>& ids, std::string_view id);
/// 0 of none.
double most_of(const std::vector<double>& values);

/// The word that stands for this number, else "N in 100".
std::string word_of(const std::map<std::string, double>& words, double value);

/// The id, where the vocabulary lacks it.
std::string feature_name(const Knowledge& knowledge, const std::string& id);
std::string minutes_words(const Minutes& minutes, bool each_cylinder);
/// "stopped", "running, hot"; with the covers that must be off.
std::string state_words(const Knowledge& knowledge, Running running,
                        const std::vector<std::string>& covers, bool hot, bool cold);
/// "nothing", "consumables", ...
std::string_view parts_words(int parts_class);
std::string scope_words(Scope scope);

/// Lines are added to it; a section without lines is left out of the page.
class PageMaker {
 public:
  PageMaker(std::string kind, std::string id, std::string name, std::string about = "");

  PageMaker& section(std::string title);
  void line(std::string mark, std::string text);
  /// Ids with their names.
  template <class Entry>
  void names(const std::vector<std::string>& ids, const Entries<Entry>& list) {
    for (const std::string& id : ids)
      if (const Entry* entry = find_id(list, id)) line(id, entry->name);
  }
  void cautions(const Knowledge& knowledge, const std::vector<std::string>& ids);
  void features(const Knowledge& knowledge, const std::vector<std::string>& needs,
                const std::vector<std::string>& without);
  /// Each key of these `source` texts once, in full, with what it stands for.
  void sources(const Knowledge& knowledge, const std::vector<std::string>& texts);

  EntryPage take();

 private:
  EntryPage page_;
};

}  // namespace soot
