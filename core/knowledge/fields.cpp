#include "core/knowledge/fields.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>

namespace soot {

std::string read_id(Reader& entry) {
  std::string id = entry.needed_text("id");
  bool good = !id.empty() && id.front() != '-' && id.back() != '-';
  for (std::size_t i = 0; i < id.size(); ++i) {
    const char c = id[i];
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    good = good && (letter || (c == '-' && id[i - 1] != '-'));
  }
  if (!id.empty() && !good)
    entry.complain("id", fmt::format("'{}' is no id (expected small letters, digits and single "
                                     "hyphens, as gear-tooth-out)",
                                     id));
  return id;
}

Scope read_scope(Reader& entry) {
  const std::string word = entry.text("scope").value_or("engine");
  if (word == "cylinder") return Scope::cylinder;
  if (word != "engine")
    entry.complain("scope", fmt::format("scope is '{}' (expected engine or cylinder)", word));
  return Scope::engine;
}

Unit read_unit(Reader& entry, std::string_view key) {
  const std::string word = entry.text(key).value_or("");
  if (word.empty()) return model_unit(Dimension::number);
  if (const std::optional<Unit> unit = find_unit(word)) return *unit;
  entry.complain(
      key, fmt::format("'{}' is no unit known here{}", word, did_you_mean(word, unit_words())));
  return model_unit(Dimension::number);
}

double read_value(Reader& entry, std::string_view key, Dimension dimension, double if_left_out,
                  bool is_difference) {
  double value = if_left_out;
  if (dimension == Dimension::number && entry.is_number(key)) {
    value = entry.number(key).value_or(if_left_out);
  } else {
    const std::optional<Measure> found = entry.measure(key, dimension);
    if (!found) return if_left_out;
    if (found->bound != Bound::none) complain_of_bound(entry, key, *found);
    value = is_difference ? model_difference(*found) : found->model();
  }
  if (is_difference && value < 0)
    entry.complain(key, fmt::format("{} is negative (expected 0 or more)", key));
  return value;
}

void complain_of_bound(Reader& entry, std::string_view key, const Measure& measure) {
  entry.complain(
      key, fmt::format("{}: '{}' is a bound (expected a plain measure)", key, measure.as_written));
}

double read_share(Reader& entry, std::string_view key) {
  return read_value(entry, key, Dimension::share, 0, true);
}

int read_whole(Reader& entry, std::string_view key, int least, int most, int if_left_out) {
  const std::optional<long> value = entry.integer(key);
  if (!value) return if_left_out;
  if (*value >= least && *value <= most) return static_cast<int>(*value);
  entry.complain(key, fmt::format("{} is {} (expected {} to {})", key, *value, least, most));
  return if_left_out;
}

double read_minutes(Reader& entry, std::string_view key) {
  constexpr double week = 7 * 24 * 60;
  const double minutes = entry.number(key).value_or(0);
  if (minutes < 0 || minutes > week)
    entry.complain(key, fmt::format("{} is {} (expected minutes, 0 to {})", key, minutes, week));
  return minutes;
}

std::string read_source(Reader& entry) {
  return entry.needed_text("source");
}

}  // namespace soot
