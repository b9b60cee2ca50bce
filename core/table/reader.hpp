// The one door to files that people edit. A Document is a parsed TOML text; a Reader walks one of
// its tables, asking for keys by type. What is missing, of the wrong type or unknown is collected
// with file, line, column and the source line, and reading goes on, so that one run tells all.
//
// A Document must outlive its Readers. Nothing here throws.
#pragma once

#include "core/base/measure.hpp"
#include "core/base/problem.hpp"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

struct DocumentBody;  // the parsed text; core/table/reader.cpp alone knows the TOML library

/// Walks one table. Every getter marks its key as known; `done()` complains of the keys that were
/// never asked for. Optional getters give nothing for a key that is left out; needed ones complain.
class Reader {
 public:
  bool has(std::string_view key) const;

  std::optional<std::string> text(std::string_view key);
  std::string needed_text(std::string_view key);  ///< "" after a complaint; refuses an empty one
  std::optional<double> number(std::string_view key);
  std::optional<long> integer(std::string_view key);
  std::optional<bool> boolean(std::string_view key);
  std::vector<std::string> texts(std::string_view key);  ///< an array of strings; empty if left out
  std::vector<long> integers(std::string_view key);
  /// A written number with its unit, of that dimension.
  std::optional<Measure> measure(std::string_view key, Dimension dimension);
  std::optional<Measure> measure(std::string_view key);

  std::optional<Reader> table(std::string_view key);
  /// An array of tables, or of inline tables; empty if left out.
  std::vector<Reader> tables(std::string_view key);
  /// An array whose entries are strings or tables: visits each with (text, no reader) or ("",
  /// reader).
  void each(std::string_view key,
            const std::function<void(std::optional<std::string>, std::optional<Reader>)>& visit);

  bool is_text(std::string_view key) const;
  bool is_number(std::string_view key) const;
  bool is_table(std::string_view key) const;
  /// All keys, in alphabetical order.
  std::vector<std::string> keys() const;

  Place place() const;                         ///< of the table
  Place place_of(std::string_view key) const;  ///< of the key's value, else of the table
  /// Complains at a key's value (or the table, if the key is not there).
  void complain(std::string_view key, std::string text, Severity severity = Severity::error);
  /// Complains of every key that nobody asked for, with the nearest known one.
  void done();

 private:
  friend class Document;
  struct State;
  explicit Reader(std::shared_ptr<State> state) : state_(std::move(state)) {}
  std::shared_ptr<State> state_;
};

class Document {
 public:
  /// `name` is what messages call the text. Fails on text that is not TOML 1.0, is not UTF-8 or is
  /// longer than `max_bytes`.
  static Result<Document> parse(std::string name, std::string text);
  /// Reads and parses a file; fails (Kind::data) if it cannot be read.
  static Result<Document> load(const std::filesystem::path& path);

  Reader root();
  /// All complaints so far, in order; at most `max_problems`, then one that counts the rest.
  Problems problems() const;

  static constexpr std::size_t max_bytes = 2'000'000;
  static constexpr std::size_t max_problems = 20;

 private:
  explicit Document(std::shared_ptr<DocumentBody> body) : body_(std::move(body)) {}
  std::shared_ptr<DocumentBody> body_;
};

/// Two text lines: the source line cut to 72 columns, and a caret below `column`. "" out of range.
std::string excerpt_of(std::string_view text, int line, int column);

}  // namespace soot
