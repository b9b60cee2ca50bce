// Ids that the program itself must know: the five histories, the geometric engine terms, the
// systems of an engine. Everything else is named in knowledge/ alone.
#pragma once

#include <array>
#include <string_view>

namespace soot {

/// In the order in which priors are kept. DESIGN of the intake: known, or left out.
inline constexpr std::array<std::string_view, 5> histories{
    "just-rebuilt", "just-serviced", "long-service", "long-storage", "ordinary"};

/// Engine terms that core/calc carries to instruments by geometry. All are positive when late.
namespace term {
inline constexpr std::string_view drive_late = "drive-late";        // deg: gears, key, flank
inline constexpr std::string_view lifter_low = "lifter-low";        // mm
inline constexpr std::string_view lobe_worn = "lobe-worn";          // mm
inline constexpr std::string_view plunger_short = "plunger-short";  // mm
inline constexpr std::string_view mark_late = "mark-late";          // deg: reads late against it
}  // namespace term

/// The only grade of a cause that names none.
inline constexpr std::string_view only_grade = "present";

/// The cause that stands for a wrong instrument (one variable of the network, not a link in it).
inline constexpr std::string_view instrument_cause = "instrument-wrong";

/// In the truth of a case: a cause for which no entry of the knowledge stands.
inline constexpr std::string_view not_listed_cause = "not-listed";

}  // namespace soot
