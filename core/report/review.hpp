// What `knowledge check` found: whether all is sound, and what a person who tends the knowledge
// should look at.
#pragma once

#include "core/base/problem.hpp"
#include "core/report/look.hpp"

#include <string>
#include <utility>
#include <vector>

namespace soot {

struct KnowledgeReview {
  std::vector<std::pair<std::string, std::size_t>> counts;  ///< kind of entry, how many

  struct Note {
    std::string topic;  ///< notes of one topic stand together
    Place place;
    std::string text;
  };
  std::vector<Note> notes;

  /// Before anything is known of an engine but its history.
  struct Expected {
    std::string family;
    std::string history;
    double causes = 0;  ///< expected number present
    double gross = 0;   ///< share of it of a gross grade
  };
  std::vector<Expected> expected;
};

/// `most`: notes printed of each topic; the others are counted.
std::string to_text(const KnowledgeReview& review, std::size_t most, const Look& look);
/// `errors` alone make it unsound; then the rest is empty.
std::string to_json(const KnowledgeReview& review, const Problems& errors);

}  // namespace soot
