// Reads the TOML form of a job: a case, a test, a job passed from shop to shop, or a question
// without a ledger. Only the shape is looked at here; whether families, symptoms, quantities,
// cylinders and units exist and fit each other is for those who have the knowledge and the family
// at hand, and every value carries its place for their complaints.
//
//   family                needed
//   history               one of the five, left out = unknown
//   at                    ISO 8601 in UTC, as "2031-04-02T09:10:00Z" or a date alone
//   tools                 ids of what is at hand, left out = the shop's own list
//   [state]               covers = ids of what is off, head-off, running, hot (all false if left
//   out)
//   [[symptom]]           id; present (true if left out), unsure, complaint, cylinder
//   [[reading]]           quantity, value with its unit; uncertainty, came-up (yes), cylinder
//   [[work]]              correction; cylinders, note
//   [[proof]]             result: cured, improved, unchanged, worse, not-tested; note
//   [case]                title; story, route, source
//   [[case.cause]]        id, "not-listed" for one that no entry stands for; cylinder, grade
//   ("present"
//                         if left out), within (how far down the ranking it may stand)
//
// The order in which symptoms, readings, work and proofs stand in the file is the order in time:
// each one's `line` is its position among them, from 1.
#pragma once

#include "core/base/problem.hpp"
#include "core/model/job.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace soot {

/// What `head-off = true` adds to the covers that are off.
inline constexpr std::string_view head_cover = "head-off";

/// `name` is what messages call the text.
Result<Job> read_job(std::string name, std::string text);
Result<Job> load_job(const std::filesystem::path& path);

}  // namespace soot
