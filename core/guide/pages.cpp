#include "core/guide/pages.hpp"

#include "core/base/text.hpp"
#include "core/guide/page_makers.hpp"
#include "core/knowledge/id_index.hpp"

#include <algorithm>

namespace soot {
namespace {

// A family's own entry that another family has too is told once.
template <class Entry>
void add_new(Entries<Entry>& list, const Entries<Entry>& more) {
  for (const Entry& entry : more) {
    const bool there = std::any_of(
        list.begin(), list.end(), [&](const Entry& known) { return id_of(known) == id_of(entry); });
    if (!there) list.push_back(entry);
  }
}

class Pages {
 public:
  Pages(const Shelf& shelf, const std::string& id) : shelf_(shelf), id_(id) {}

  template <class Entry>
  void look(const Entries<Entry>& list) {
    for (const Entry& entry : list) {
      ids_.push_back(id_of(entry));
      if (id_of(entry) == id_) found_.push_back(page_of(shelf_, entry));
    }
  }

  Result<std::vector<EntryPage>> take() {
    if (!found_.empty()) return std::move(found_);
    const std::string near = did_you_mean(id_, ids_);
    return fail(Kind::use, "nothing in the knowledge is called '{}'{}", id_,
                near.empty() ? " (search it: sootsayer knowledge find WORDS)" : near);
  }

 private:
  const Shelf& shelf_;
  const std::string& id_;
  std::vector<std::string> ids_;
  std::vector<EntryPage> found_;
};

}  // namespace

Knowledge whole_knowledge(const Bench& bench) {
  Knowledge all = bench.knowledge();
  for (const Bench::Served& served : bench.families()) {
    add_new(all.terms, served.own.terms);
    add_new(all.symptoms, served.own.symptoms);
    add_new(all.quantities, served.own.quantities);
    add_new(all.causes, served.own.causes);
    add_new(all.checks, served.own.checks);
    add_new(all.corrections, served.own.corrections);
    add_new(all.procedures, served.own.procedures);
    add_new(all.cautions, served.own.cautions);
    add_new(all.covers, served.own.covers);
    add_new(all.tools, served.own.tools);
    add_new(all.features, served.own.features);
    add_new(all.sources, served.own.sources);
  }
  return all;
}

Result<std::vector<EntryPage>> pages_of(const Bench& bench, const std::string& id) {
  const Knowledge all = whole_knowledge(bench);
  const Shelf shelf{bench, all, bench.scale()};
  Pages pages(shelf, id);
  pages.look(all.causes);
  pages.look(all.symptoms);
  pages.look(all.quantities);
  pages.look(all.checks);
  pages.look(all.corrections);
  pages.look(all.procedures);
  pages.look(all.cautions);
  pages.look(all.tools);
  pages.look(all.covers);
  pages.look(all.terms);
  pages.look(all.features);
  pages.look(all.sources);
  return pages.take();
}

}  // namespace soot
