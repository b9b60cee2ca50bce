#include "core/cli/record.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>

namespace soot::cli {

Result<void> record(Session& session, long job, const std::vector<ledger::Payload>& payloads,
                    const std::vector<std::string>& said) {
  const Result<ledger::Ledger*> ledger = session.ledger(ledger::Mode::write);
  if (!ledger) return pass_on(ledger);
  const Result<std::vector<long>> lines = (*ledger)->append(job, payloads);
  if (!lines) return pass_on(lines);
  for (std::size_t i = 0; i < said.size(); ++i)
    session.terminal().answer(fold(fmt::format("job {}, line {}: {}", job, (*lines)[i], said[i]),
                                   session.look().width, "", "  ") +
                              "\n");
  return {};
}

}  // namespace soot::cli
