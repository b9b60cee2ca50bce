// The next move on a job: built from the posterior, answered by the planner, named again.
#pragma once

#include "core/report/answers.hpp"
#include "core/workbench/inquiry.hpp"

#include <string>
#include <vector>

namespace soot {

/// `skipped`: ids of checks that cannot be made here. Tools are the job's own list, else those that
/// an ordinary shop has at hand and those that its readings were taken with. Without a complaint it
/// goes by the causes that move what was read, and measuring again takes the place of the run.
/// Fails (Kind::use) while nothing is complained of and nothing read.
Result<NextAnswer> next(const Engine& engine, const Inquiry& inquiry,
                        const std::vector<std::string>& skipped);

}  // namespace soot
