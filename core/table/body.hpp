// Shared by the sources of this folder and nobody else: the parsed text with its complaints.
#pragma once

#include "core/table/reader.hpp"

#include <toml++/toml.h>

#include <string>

namespace soot {

struct DocumentBody {
  std::string name;
  std::string text;
  toml::table root;
  Problems problems;
  std::size_t unshown = 0;

  void add(int line, int column, Severity severity, std::string words);
};

struct Reader::State {
  DocumentBody* body;
  const toml::table* table;
  std::set<std::string, std::less<>> asked;  ///< keys that were read
  std::set<std::string, std::less<>> known;  ///< those, and keys that were only looked for

  /// Marks the key as known and gives its node, if there.
  const toml::node* ask(std::string_view key) {
    asked.insert(std::string{key});
    return look(key);
  }

  const toml::node* look(std::string_view key) {
    known.insert(std::string{key});
    return table->get(key);
  }

  void complain_of(const toml::node& node, std::string words) const {
    const auto at = node.source().begin;
    body->add(static_cast<int>(at.line), static_cast<int>(at.column), Severity::error,
              std::move(words));
  }
};

}  // namespace soot
