// Shared by the sources of this folder and nobody else: the parsed text with its complaints.
#pragma once

#include "core/table/reader.hpp"

#include <toml++/toml.h>

#include <string>
#include <vector>

namespace soot {

struct DocumentBody {
  FileName name;
  std::string text;
  toml::table root;
  Problems problems;
  std::size_t unshown = 0;

  void add(int line, int column, Severity severity, std::string words);
};

struct Reader::State {
  DocumentBody* body;
  const toml::table* table;
  std::vector<const toml::node*> asked;  ///< values that were read
  std::vector<std::string> known;        ///< names of keys that were read or looked for

  /// Marks the key as read and gives its node, if there.
  const toml::node* ask(std::string_view key) {
    const toml::node* node = look(key);
    if (node != nullptr) asked.push_back(node);
    return node;
  }

  const toml::node* look(std::string_view key) {
    known.emplace_back(key);
    return table->get(key);
  }

  void complain_of(const toml::node& node, std::string words) const {
    const auto at = node.source().begin;
    body->add(static_cast<int>(at.line), static_cast<int>(at.column), Severity::error,
              std::move(words));
  }
};

}  // namespace soot
