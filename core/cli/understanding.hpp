// A person's words for what he saw, and the symptom they mean.
#pragma once

#include "core/cli/session.hpp"

#include <string>

namespace soot::cli {

/// The id of the symptom: as it stands, or found by words. What was understood is said in the talk;
/// where it is not certain, a person at the terminal is asked, and anybody else is refused with the
/// offer. An unknown id comes back as it is, for its own complaint.
Result<std::string> understood_symptom(Session& session, const Engine& engine,
                                       const std::string& words);

/// Answers which symptoms a complaint speaks of, with the commands that would enter them. Enters
/// nothing.
void offer_heard(Session& session, const Engine& engine, const std::string& complaint);

}  // namespace soot::cli
