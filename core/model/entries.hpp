// A list of entries that its copies share: an engine's part of the knowledge holds the common
// entries themselves, and its own copies only of those that differ there.
#pragma once

#include <boost/iterator/indirect_iterator.hpp>

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <memory>
#include <utility>
#include <vector>

namespace soot {

/// A reference to an entry holds as long as a list has that entry; from `edit` on a list may have
/// another in its place, and what `edit` gave is this list's alone only until the list is copied.
/// Lists that share entries may be changed by different threads as long as one that nobody changes
/// has them too.
template <class Entry>
class Entries {
  using List = std::vector<std::shared_ptr<Entry>>;

 public:
  using value_type = Entry;
  using const_iterator = boost::indirect_iterator<typename List::const_iterator, const Entry>;

  Entries() = default;
  Entries(std::initializer_list<Entry> entries) {
    for (const Entry& entry : entries)
      push_back(entry);
  }

  const_iterator begin() const { return const_iterator{list_.begin()}; }
  const_iterator end() const { return const_iterator{list_.end()}; }
  std::size_t size() const { return list_.size(); }
  bool empty() const { return list_.empty(); }
  const Entry& operator[](std::size_t place) const { return *list_[place]; }
  const Entry& front() const { return *list_.front(); }
  const Entry& back() const { return *list_.back(); }

  /// Entry by entry, shared or not.
  bool operator==(const Entries& other) const {
    return std::equal(begin(), end(), other.begin(), other.end());
  }

  /// The entry of this list alone, copied first if another list has it too.
  Entry& edit(std::size_t place) {
    std::shared_ptr<Entry>& entry = list_[place];
    if (entry.use_count() > 1) entry = std::make_shared<Entry>(*entry);
    return *entry;
  }

  void push_back(Entry entry) { list_.push_back(std::make_shared<Entry>(std::move(entry))); }

  /// `more` is another list.
  void append(const Entries& more) {
    list_.insert(list_.end(), more.list_.begin(), more.list_.end());
  }

  /// Takes out the entries of which `is_out` holds.
  template <class Predicate>
  void erase_if(Predicate is_out) {
    std::erase_if(
        list_, [&](const std::shared_ptr<Entry>& entry) { return is_out(std::as_const(*entry)); });
  }

 private:
  List list_;
};

}  // namespace soot
