// Adding lines to a job's record, and saying so in one line each.
#pragma once

#include "core/cli/session.hpp"
#include "core/ledger/entry.hpp"

#include <string>
#include <vector>

namespace soot::cli {

/// Adds the lines, all or none, and answers "job N, line M: said" once a line.
Result<void> record(Session& session, long job, const std::vector<ledger::Payload>& payloads,
                    const std::vector<std::string>& said);

}  // namespace soot::cli
