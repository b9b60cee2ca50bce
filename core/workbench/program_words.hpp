// Words of the knowledge that only the program can answer for: rules of geometry, sums, figures
// that steps ask for.
#pragma once

#include "core/knowledge/loader.hpp"

namespace soot {

/// Every such word that the program does not know, at its place. Empty = sound.
Problems unknown_program_words(const Knowledge& knowledge);

/// load_knowledge, and these words: what every command works with.
Result<LoadedKnowledge> load_sound_knowledge(const std::filesystem::path& folder);

}  // namespace soot
