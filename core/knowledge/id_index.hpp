// Entries by id, over several lists: what the cross-checks look up thousands of times in one run.
#pragma once

#include "core/model/knowledge.hpp"

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace soot {

template <class Entry>
const std::string& id_of(const Entry& entry) {
  return entry.id;
}
inline const std::string& id_of(const Source& source) {
  return source.key;
}

/// Points into the lists, which must stay where they are. Of two entries with one id the first is
/// found.
template <class Entry>
class IdIndex {
 public:
  /// Gives the entries whose id was there already, each with the one that was.
  std::vector<std::pair<const Entry*, const Entry*>> add(const Entries<Entry>& list) {
    std::vector<std::pair<const Entry*, const Entry*>> again;
    for (const Entry& entry : list) {
      if (id_of(entry).empty()) continue;  // told by the reader
      const auto [at, is_new] = entries_.emplace(id_of(entry), &entry);
      if (is_new)
        order_.push_back(&entry);
      else
        again.emplace_back(&entry, at->second);
    }
    return again;
  }

  const Entry* find(std::string_view id) const {
    const auto found = entries_.find(id);
    return found == entries_.end() ? nullptr : found->second;
  }

  /// In the order of the lists.
  std::vector<std::string> ids() const {
    std::vector<std::string> out;
    for (const Entry* entry : order_)
      out.push_back(id_of(*entry));
    return out;
  }

 private:
  std::unordered_map<std::string_view, const Entry*> entries_;
  std::vector<const Entry*> order_;
};

}  // namespace soot
