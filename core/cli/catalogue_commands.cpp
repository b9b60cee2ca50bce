// case, family: what there is to work with.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/report/cases.hpp"
#include "core/report/catalogue.hpp"
#include "core/report/json.hpp"
#include "core/workbench/case_run.hpp"
#include "core/workbench/family_check.hpp"
#include "core/workbench/spec_builder.hpp"

#include <fmt/format.h>

namespace soot::cli {
Result<void> run(Session& session, const CaseList& request) {
  const CaseShelf shelf = shelf_of(session.surroundings().places.cases);
  session.terminal().answer(request.as_json ? to_json(shelf.titles)
                                            : to_text(shelf.titles, session.look()));
  if (has_errors(shelf.problems)) return tl::unexpected<Problems>(shelf.problems);
  return {};
}

Result<void> run(Session& session, const CaseRun& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<CaseReport> report =
      run_case(**bench, session.surroundings().places.cases, request.name);
  if (!report) return pass_on(report);
  session.terminal().answer(request.as_json ? to_json(*report) : to_text(*report, session.look()));
  return {};
}

Result<void> run(Session& session, const FamilyList& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  std::vector<CatalogueLine> lines;
  for (const Bench::Served& served : (*bench)->families())
    lines.push_back(
        {served.family.id, served.family.name,
         fmt::format("{} cylinder{}, plugin {}", served.family.cylinders,
                     served.family.cylinders == 1 ? "" : "s", served.family.plugin_id)});
  session.terminal().answer(request.as_json ? to_json("family", lines)
                                            : to_text(lines, session.look()));
  return {};
}

Result<void> run(Session& session, const FamilyShow& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<Engine> engine = (*bench)->engine(request.family);
  if (!engine) return pass_on(engine);
  const SpecSheet sheet = spec_of(*engine);
  session.terminal().answer(request.as_json ? to_json(sheet) : to_text(sheet, session.look()));
  return {};
}

Result<void> run(Session& session, const FamilyCheck& request) {
  const Result<const Bench*> bench = session.bench(request.file);
  if (!bench) return pass_on(bench);
  const Result<FamilyFindings> found = check_family(**bench, request.file);
  if (!found) return pass_on(found);
  session.terminal().answer(to_text(*found, session.look()));
  return {};
}

}  // namespace soot::cli
