// plugin list, add, remove, new.
#include "core/cli/commands.hpp"
#include "core/cli/plugin_trial.hpp"
#include "core/host/consent.hpp"
#include "core/host/new_plugin.hpp"
#include "core/report/catalogue.hpp"
#include "core/report/json.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot::cli {

namespace {
bool is_in_use(const Bench& bench, const std::string& id) {
  return std::any_of(bench.plugins().begin(), bench.plugins().end(),
                     [&](const host::Manifest& manifest) { return manifest.id == id; });
}

std::string state_of(const Bench& bench, const host::Standing& standing) {
  if (!standing.may_load()) return "not in use: " + standing.why_not;
  return is_in_use(bench, standing.manifest.id) ? "in use" : "not in use: left out, see above";
}

tl::unexpected<Problems> refuse(const host::Manifest& manifest, std::string why) {
  Problem problem = make_problem(Kind::trouble, "plugin {} is not added: {}", manifest.id, why);
  problem.place.file = manifest.main_file().string();
  return tl::unexpected(Problems{std::move(problem)});
}

bool came_with_program(const Session& session, const std::string& id) {
  const std::vector<std::filesystem::path>& folders = session.surroundings().places.plugins;
  return std::any_of(folders.begin(), folders.end(), [&](const std::filesystem::path& folder) {
    std::error_code ignored;
    return std::filesystem::exists(folder / id / "plugin.toml", ignored);
  });
}

/// What must be so before it is worth a trial.
Result<host::Manifest> candidate(const Session& session, const std::string& path) {
  Result<host::Manifest> manifest = host::plugin_at(path);
  if (!manifest) return manifest;
  if (manifest->id.empty())
    return refuse(*manifest, "no plugin.toml beside it names it (expected one)");
  if (came_with_program(session, manifest->id))
    return refuse(*manifest, "one of that id came with the program (expected another id)");
  std::error_code ignored;
  if (!manifest->is_text() && !std::filesystem::exists(manifest->folder / host::seal_name, ignored))
    return refuse(*manifest, fmt::format("there is no {0} to show that it came whole (expected it "
                                         "from sootsayer_add_plugin or: sha256sum FILES > {0})",
                                         host::seal_name));
  return manifest;
}
}  // namespace

Result<void> run(Session& session, const PluginList& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  std::vector<CatalogueLine> lines;
  for (const host::Standing& standing : (*bench)->standings())
    lines.push_back(
        {standing.manifest.id, standing.manifest.about,
         fmt::format("version {}, {}", standing.manifest.version, state_of(**bench, standing))});
  session.terminal().answer(request.as_json ? to_json("plugin", lines)
                                            : to_text(lines, session.look()));
  return {};
}

Result<void> run(Session& session, const PluginAdd& request) {
  const Result<host::Manifest> manifest = candidate(session, request.path);
  if (!manifest) return pass_on(manifest);
  const Result<host::Seal> before = host::take_seal(manifest->folder);
  if (!before) return pass_on(before);
  const host::Trial trial = try_plugin_in_child(session, *manifest, request.path, request.seconds);
  if (!trial.is_usable()) return tl::unexpected<Problems>(trial.problems);
  const Result<host::Seal> after = host::take_seal(manifest->folder);
  if (!after) return pass_on(after);
  if (const std::string change = host::difference(*before, *after); !change.empty())
    return refuse(*manifest, change + " while it was checked");
  const Result<void> noted = note_consent(*manifest, *after, session.surroundings().places.added);
  if (!noted) return noted;
  session.terminal().answer(usable_line(trial));
  session.terminal().answer(
      fmt::format("{0}: added; to use it no longer: sootsayer plugin remove {0}\n", manifest->id));
  return {};
}

Result<void> run(Session& session, const PluginRemove& request) {
  const std::filesystem::path& added = session.surroundings().places.added;
  const std::vector<std::string> ids = host::added_ids(added);
  std::string id = request.name;
  if (std::find(ids.begin(), ids.end(), id) == ids.end())
    if (const Result<host::Manifest> manifest = host::plugin_at(request.name))
      if (!manifest->id.empty()) id = manifest->id;
  if (came_with_program(session, id))
    return fail(Kind::use, "plugin {} came with the program (expected one that was added)", id);
  const Result<void> forgotten = host::forget_consent(id, added);
  if (!forgotten) return forgotten;
  session.terminal().answer(fmt::format("{}: no longer used; its folder is left as it is\n", id));
  return {};
}

Result<void> run(Session& session, const PluginNew& request) {
  const std::filesystem::path from =
      session.surroundings().templates / (request.tabular ? "tabular" : "compiled");
  const Result<std::filesystem::path> made = host::new_plugin(from, "", request.name);
  if (!made) return pass_on(made);
  session.terminal().answer(
      request.tabular
          ? fmt::format("{0}/ is there: fill in the form {0}/families/{0}-1.toml\n"
                        "({0}/README.md leads through it), then\n"
                        "  sootsayer plugin check {0}\n  sootsayer plugin add {0}\n",
                        request.name)
          : fmt::format("{0}/ is there: put your figures into {0}/families/{0}-1.toml and\n"
                        "your cam into {0}/{0}.cpp, then\n  cd {0}\n  cmake -B build && cmake "
                        "--build build "
                        "&& ctest --test-dir build\n  sootsayer plugin add build/plugins/{0}\n",
                        request.name));
  return {};
}

}  // namespace soot::cli
