// The job that a record tells: what stands of its lines, as the value that everything else works
// on.
#pragma once

#include "core/ledger/entry.hpp"
#include "core/ledger/header.hpp"
#include "core/model/job.hpp"

#include <vector>

namespace soot::ledger {

/// Leaves out what is crossed out. The last history told counts. Where a symptom was seen both
/// present and absent, both observations are in the job, in the order of their lines. Every value's
/// place is its line in the ledger ("ledger:12").
Job job_of(const Header& header, const std::vector<Entry>& entries);

}  // namespace soot::ledger
