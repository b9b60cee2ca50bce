// A told case as a job on a plain engine: its engine's parts, its context as a history, what was
// seen as symptoms and readings.
#pragma once

#include "core/model/job.hpp"
#include "tests/judges/code_map.hpp"
#include "tests/judges/plain_engines.hpp"
#include "tests/solved/told_case.hpp"

namespace soot::judges {

/// Four cylinders where the number is unknown.
int cylinders_of(const ToldCase& told);
std::set<std::string> features_of(const PlainEngines& engines, const ToldCase& told);

/// Codes that the map leaves out, and signs that this engine cannot show, are passed over. A sign
/// of one cylinder is put on the first: the stories do not tell which. Fails (Kind::data) on a code
/// that the map does not know.
Result<Job> job_of(const Engine& engine, const CodeMap& map, const ToldCase& told);

}  // namespace soot::judges
