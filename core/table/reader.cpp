#include "core/table/reader.hpp"

#include "core/base/text.hpp"
#include "core/table/body.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

std::string_view name_of_type(toml::node_type type) {
  switch (type) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or time";
  }
}

std::string expected(const toml::node& node, std::string_view key, std::string_view wanted) {
  return fmt::format("{} is {} (expected {})", key, name_of_type(node.type()), wanted);
}

}  // namespace

bool Reader::has(std::string_view key) const {
  return state_->look(key) != nullptr;
}

std::optional<std::string> Reader::text(std::string_view key) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return std::nullopt;
  if (const auto* value = node->as_string()) return value->get();
  complain(key, expected(*node, key, "a text in quotes"));
  return std::nullopt;
}

std::string Reader::needed_text(std::string_view key) {
  const bool there = has(key);
  std::optional<std::string> found = text(key);
  if (!there) complain(key, fmt::format("{} is missing (expected a text)", key));
  if (found && trim(*found).empty()) complain(key, fmt::format("{} is empty", key));
  return found.value_or("");
}

std::optional<double> Reader::number(std::string_view key) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return std::nullopt;
  std::optional<double> value;
  if (const auto* whole = node->as_integer()) value = static_cast<double>(whole->get());
  if (const auto* real = node->as_floating_point()) value = real->get();
  if (value && std::isfinite(*value)) return value;
  complain(key, value ? fmt::format("{} is not a finite number", key)
                      : expected(*node, key, "a number"));
  return std::nullopt;
}

std::optional<long> Reader::integer(std::string_view key) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return std::nullopt;
  if (const auto* value = node->as_integer()) return static_cast<long>(value->get());
  complain(key, expected(*node, key, "a whole number"));
  return std::nullopt;
}

std::optional<bool> Reader::boolean(std::string_view key) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return std::nullopt;
  if (const auto* value = node->as_boolean()) return value->get();
  complain(key, expected(*node, key, "true or false"));
  return std::nullopt;
}

std::vector<std::string> Reader::texts(std::string_view key) {
  const toml::node* node = state_->ask(key);
  std::vector<std::string> out;
  if (node == nullptr) return out;
  const toml::array* list = node->as_array();
  if (list == nullptr) {
    complain(key, expected(*node, key, "a list of texts"));
    return out;
  }
  for (const toml::node& entry : *list) {
    if (const auto* value = entry.as_string()) {
      out.push_back(value->get());
    } else {
      state_->complain_of(entry,
                          expected(entry, fmt::format("an entry of {}", key), "a text in quotes"));
    }
  }
  return out;
}

std::vector<long> Reader::integers(std::string_view key) {
  const toml::node* node = state_->ask(key);
  std::vector<long> out;
  if (node == nullptr) return out;
  const toml::array* list = node->as_array();
  if (list == nullptr) {
    complain(key, expected(*node, key, "a list of whole numbers"));
    return out;
  }
  for (const toml::node& entry : *list) {
    if (const auto* value = entry.as_integer()) {
      out.push_back(static_cast<long>(value->get()));
    } else {
      state_->complain_of(entry,
                          expected(entry, fmt::format("an entry of {}", key), "a whole number"));
    }
  }
  return out;
}

std::optional<Measure> Reader::measure(std::string_view key, Dimension dimension) {
  const std::optional<std::string> written = text(key);
  if (!written) return std::nullopt;
  Result<Measure> found = read_measure(*written, dimension);
  if (found) return *found;
  complain(key, fmt::format("{}: {}", key, found.error().front().text));
  return std::nullopt;
}

std::optional<Measure> Reader::measure(std::string_view key) {
  const std::optional<std::string> written = text(key);
  if (!written) return std::nullopt;
  Result<Measure> found = read_measure(*written);
  if (found) return *found;
  complain(key, fmt::format("{}: {}", key, found.error().front().text));
  return std::nullopt;
}

std::optional<Reader> Reader::table(std::string_view key) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return std::nullopt;
  const toml::table* inner = node->as_table();
  if (inner == nullptr) {
    complain(key, expected(*node, key, "a table"));
    return std::nullopt;
  }
  return Reader{std::make_shared<State>(State{state_->body, inner, {}, {}})};
}

std::vector<Reader> Reader::tables(std::string_view key) {
  std::vector<Reader> out;
  each(key, [&](std::optional<std::string> words, std::optional<Reader> reader) {
    if (reader) out.push_back(*reader);
    if (words) complain(key, fmt::format("an entry of {} is a text (expected a table)", key));
  });
  return out;
}

void Reader::each(
    std::string_view key,
    const std::function<void(std::optional<std::string>, std::optional<Reader>)>& visit) {
  const toml::node* node = state_->ask(key);
  if (node == nullptr) return;
  const toml::array* list = node->as_array();
  if (list == nullptr) {
    complain(key,
             expected(*node, key,
                      node->is_table() ? fmt::format("a list of them: [[{}]]", key) : "a list"));
    return;
  }
  for (const toml::node& entry : *list) {
    if (const auto* words = entry.as_string()) {
      visit(words->get(), std::nullopt);
    } else if (const toml::table* inner = entry.as_table()) {
      visit(std::nullopt, Reader{std::make_shared<State>(State{state_->body, inner, {}, {}})});
    } else {
      state_->complain_of(entry,
                          expected(entry, fmt::format("an entry of {}", key), "a text or a table"));
    }
  }
}

bool Reader::is_text(std::string_view key) const {
  const toml::node* node = state_->look(key);
  return node != nullptr && node->is_string();
}

bool Reader::is_number(std::string_view key) const {
  const toml::node* node = state_->look(key);
  return node != nullptr && node->is_number();
}

bool Reader::is_table(std::string_view key) const {
  const toml::node* node = state_->look(key);
  return node != nullptr && node->is_table();
}

std::vector<std::string> Reader::keys() const {
  std::vector<std::string> out;
  for (const auto& [key, node] : *state_->table)
    out.emplace_back(key.str());
  return out;
}

Place Reader::place() const {
  const auto at = state_->table->source().begin;
  return Place{state_->body->name, static_cast<int>(at.line), static_cast<int>(at.column)};
}

Place Reader::place_of(std::string_view key) const {
  const toml::node* node = state_->table->get(key);
  if (node == nullptr) return place();
  const auto at = node->source().begin;
  return Place{state_->body->name, static_cast<int>(at.line), static_cast<int>(at.column)};
}

void Reader::complain(std::string_view key, std::string text, Severity severity) {
  const Place at = place_of(key);
  state_->body->add(at.line, at.column, severity, std::move(text));
}

void Reader::done() {
  for (const auto& [key, node] : *state_->table) {
    const std::vector<const toml::node*>& asked = state_->asked;
    if (std::find(asked.begin(), asked.end(), &node) != asked.end()) continue;
    std::vector<std::string> known = state_->known;
    std::erase(known, key.str());
    std::sort(known.begin(), known.end());
    const auto at = key.source().begin;
    state_->body->add(
        static_cast<int>(at.line), static_cast<int>(at.column), Severity::error,
        fmt::format("{} is no key known here{}", key.str(), did_you_mean(key.str(), known)));
  }
}

}  // namespace soot
