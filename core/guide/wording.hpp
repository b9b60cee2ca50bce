// A person's words made comparable: small letters, without endings, and one token for all that the
// thesaurus (knowledge/thesaurus.toml) says for the same thing.
#pragma once

#include "core/model/knowledge.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

/// One token, and which stems of the text it stands for.
struct Token {
  std::string text;
  std::size_t first = 0;
  std::size_t length = 1;
};

class Wording {
 public:
  explicit Wording(const Entries<Synonyms>& thesaurus);

  /// In order; stems that say nothing are left out.
  std::vector<Token> tokens(const std::vector<std::string>& stems) const;
  std::vector<std::string> tokens(std::string_view text) const;

  /// Every stem of the thesaurus.
  std::vector<std::string> stems() const;

 private:
  using Words = std::vector<std::string>;
  std::map<Words, std::string> same_;  ///< "" for what says nothing
  std::size_t longest_ = 1;            ///< words in a phrase of it
};

/// The stems of the words of a text, in order. An apostrophe belongs to its word and is left out.
std::vector<std::string> stems_of(std::string_view text);

/// A word without the endings that only change its form: "smokes", "smoking" and "smoky" are one.
/// ASCII, small letters.
std::string stem(std::string word);

}  // namespace soot
