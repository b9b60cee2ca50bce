// One function a command: does it, answers on the terminal, and gives what went wrong as a value.
#pragma once

#include "core/cli/request.hpp"
#include "core/cli/session.hpp"

namespace soot::cli {

Result<void> run(Session& session, const Open& request);
Result<void> run(Session& session, const Tell& request);
Result<void> run(Session& session, const Saw& request);
Result<void> run(Session& session, const Gauge& request);
Result<void> run(Session& session, const Strike& request);
Result<void> run(Session& session, const Rank& request);
Result<void> run(Session& session, const Weigh& request);
Result<void> run(Session& session, const Next& request);
Result<void> run(Session& session, const Steps& request);
Result<void> run(Session& session, const DoSum& request);
Result<void> run(Session& session, const Done& request);
Result<void> run(Session& session, const Prove& request);
Result<void> run(Session& session, const Close& request);
Result<void> run(Session& session, const Reopen& request);
Result<void> run(Session& session, const Page& request);
Result<void> run(Session& session, const Jobs& request);
Result<void> run(Session& session, const CaseList& request);
Result<void> run(Session& session, const CaseRun& request);
Result<void> run(Session& session, const FamilyList& request);
Result<void> run(Session& session, const FamilyShow& request);
Result<void> run(Session& session, const FamilyCheck& request);
Result<void> run(Session& session, const KnowledgeList& request);
Result<void> run(Session& session, const KnowledgeShow& request);
Result<void> run(Session& session, const KnowledgeFind& request);
Result<void> run(Session& session, const KnowledgeCheck& request);
Result<void> run(Session& session, const PluginList& request);
Result<void> run(Session& session, const PluginCheck& request);
Result<void> run(Session& session, const PluginAdd& request);
Result<void> run(Session& session, const PluginRemove& request);
Result<void> run(Session& session, const PluginNew& request);
Result<void> run(Session& session, const PluginProbe& request);

}  // namespace soot::cli
