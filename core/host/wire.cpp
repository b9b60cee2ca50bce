#include "core/host/wire.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

namespace soot::host {

namespace {
constexpr char separator = '\x1f';
constexpr char line_end = '\x1e';  // within a text
constexpr std::array<std::string_view, 5> names{"step", "named", "family", "problem", "done"};
constexpr int last_kind = static_cast<int>(Kind::trouble);
constexpr int last_severity = static_cast<int>(Severity::note);

std::optional<int> number_in(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc{} && end == text.data() + text.size() && number >= 0
             ? std::optional(number)
             : std::nullopt;
}

std::optional<Problem> problem_of(const std::vector<std::string>& parts) {
  if (parts.size() != 8) return std::nullopt;
  const std::optional<int> kind = number_in(parts[1]), severity = number_in(parts[2]),
                           line = number_in(parts[4]), column = number_in(parts[5]);
  if (!kind || !severity || !line || !column || *kind > last_kind || *severity > last_severity)
    return std::nullopt;
  return Problem{static_cast<Kind>(*kind), static_cast<Severity>(*severity),
                 Place{parts[3], *line, *column}, parts[6], parts[7]};
}

std::optional<Word> word_of(std::string line) {
  std::replace(line.begin(), line.end(), line_end, '\n');
  const std::vector<std::string> parts = split(line, separator);
  const auto found = std::find(names.begin(), names.end(), parts.front());
  if (found == names.end()) return std::nullopt;
  Word word;
  word.kind = static_cast<Word::Kind>(found - names.begin());
  if (word.kind == Word::problem) {
    const std::optional<Problem> what = problem_of(parts);
    if (!what) return std::nullopt;
    word.what = *what;
    return word;
  }
  if (parts.size() != 3) return std::nullopt;
  word.text = parts[1];
  word.version = parts[2];
  return word;
}
}  // namespace

std::string encode(const Word& word) {
  const std::string name(names.at(word.kind));
  std::vector<std::string> parts{name, word.text, word.version};
  if (word.kind == Word::problem) {
    const Problem& what = word.what;
    parts = {name,
             std::to_string(static_cast<int>(what.kind)),
             std::to_string(static_cast<int>(what.severity)),
             what.place.file,
             std::to_string(what.place.line),
             std::to_string(what.place.column),
             what.text,
             what.excerpt};
  }
  for (std::string& part : parts)
    std::replace(part.begin(), part.end(), '\n', line_end);
  return fmt::format("{}\n", fmt::join(parts, std::string(1, separator)));
}

std::vector<Word> decode(std::string& bytes) {
  std::vector<Word> words;
  for (std::size_t end = bytes.find('\n'); end != std::string::npos; end = bytes.find('\n')) {
    if (std::optional<Word> word = word_of(bytes.substr(0, end))) words.push_back(std::move(*word));
    bytes.erase(0, end + 1);
  }
  return words;
}

}  // namespace soot::host
