// Pieces that several kinds of entry share: an id, a unit, a duration, a measure as plain number.
#pragma once

#include "core/model/knowledge.hpp"
#include "core/table/reader.hpp"

#include <string>
#include <string_view>

namespace soot {

/// The entry's `id` (kebab-case: lower-case letters, digits, single hyphens), or "" and a
/// complaint.
std::string read_id(Reader& entry);
/// `scope`, "engine" if left out.
Scope read_scope(Reader& entry);
/// A unit's word; complains of unknown ones.
Unit read_unit(Reader& entry, std::string_view key);
/// A measure of that dimension as model value (of a difference, if `is_difference`: then 0 or
/// more), else `if_left_out`. Bounds are refused.
double read_value(Reader& entry, std::string_view key, Dimension dimension, double if_left_out,
                  bool is_difference = false);
/// For those who read a measure themselves and want no ">" or "<".
void complain_of_bound(Reader& entry, std::string_view key, const Measure& measure);
/// A percentage "2 %" of 0 or more, else 0.
double read_share(Reader& entry, std::string_view key);
/// A whole number in [least, most], else `if_left_out`; complains of one outside.
int read_whole(Reader& entry, std::string_view key, int least, int most, int if_left_out);
/// Minutes as a plain number, 0 to a week; 0 if left out.
double read_minutes(Reader& entry, std::string_view key);
/// `source`: needed in every entry.
std::string read_source(Reader& entry);

}  // namespace soot
