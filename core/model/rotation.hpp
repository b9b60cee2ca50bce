// Which way an engine turns, and from which end that is seen: half a statement is none, for the
// same shaft turns the other way when seen from its other end.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace soot {

struct Rotation {
  bool clockwise = true;
  std::string end;  ///< "the fan"
};

/// Reads "clockwise seen from the fan", also within a longer sentence (the end goes up to the next
/// comma, bracket or semicolon). Nothing if sense or end is missing.
inline std::optional<Rotation> rotation_of(std::string_view words) {
  constexpr std::string_view sense = "clockwise seen from ";
  const std::size_t at = words.find(sense);
  if (at == std::string_view::npos) return std::nullopt;
  constexpr std::string_view anti = "anti";
  const bool against = at >= anti.size() && words.substr(at - anti.size(), anti.size()) == anti;
  const std::string_view rest = words.substr(at + sense.size());
  std::string_view end = rest.substr(0, rest.find_first_of(",;("));
  while (!end.empty() && end.back() == ' ')
    end.remove_suffix(1);
  if (end.empty()) return std::nullopt;
  return Rotation{!against, std::string{end}};
}

inline std::string_view sense_of(const Rotation& rotation) {
  return rotation.clockwise ? "clockwise" : "anticlockwise";
}

/// As the same shaft looks from its other end, which has no name of its own here.
inline Rotation from_other_end(const Rotation& rotation) {
  return Rotation{!rotation.clockwise, "the other end"};
}

}  // namespace soot
