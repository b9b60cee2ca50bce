// The words for a job's choices, as they stand in job files, in the ledger and on the command line.
// Each list is in the order of its enumeration.
#pragma once

#include "core/model/job.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace soot {

inline constexpr std::array<std::string_view, 3> came_up_words{"yes", "no", "doubtful"};
inline constexpr std::array<std::string_view, 5> proof_words{"cured", "improved", "unchanged",
                                                             "worse", "not-tested"};

inline std::string_view word_of(CameUp came_up) {
  return came_up_words.at(static_cast<std::size_t>(came_up));
}

inline std::string_view word_of(Proof proof) {
  return proof_words.at(static_cast<std::size_t>(proof));
}

inline std::optional<CameUp> find_came_up(std::string_view word) {
  for (std::size_t i = 0; i < came_up_words.size(); ++i)
    if (came_up_words[i] == word) return static_cast<CameUp>(i);
  return std::nullopt;
}

inline std::optional<Proof> find_proof(std::string_view word) {
  for (std::size_t i = 0; i < proof_words.size(); ++i)
    if (proof_words[i] == word) return static_cast<Proof>(i);
  return std::nullopt;
}

}  // namespace soot
