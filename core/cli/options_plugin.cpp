#include "core/cli/options_plugin.hpp"

#include <utility>

namespace soot::cli {

namespace {
constexpr unsigned most_seconds = 600;

void seconds(CLI::App* sub, unsigned& into) {
  sub->add_option("--timeout", into,
                  "seconds of the processor it may take (10; five times that by the clock)")
      ->check(CLI::Range(1U, most_seconds));
}
}  // namespace

void PluginWords::add(CLI::App& plugin, const AddCommand& add_command) {
  CLI::App* sub = add_command(plugin, "list", "list the plugins, those not in use too",
                              "  sootsayer plugin list", [this] { return Request{list_}; });
  sub->add_option_function<std::string>(
         "--format", [this](const std::string& word) { list_.as_json = word == "json"; },
         "text or json")
      ->check(CLI::IsMember({"text", "json"}));

  sub = add_command(plugin, "check", "try a plugin in a process of its own, and read its families",
                    "  sootsayer plugin check build/plugins/winch\n"
                    "  sootsayer plugin check winch.so --timeout 2",
                    [this] { return Request{check_}; });
  sub->add_option("plugin", check_.path, "its folder, its plugin.toml or its library")->required();
  seconds(sub, check_.seconds);

  sub = add_command(plugin, "add", "check a plugin, and use it from now on",
                    "  sootsayer plugin add build/plugins/winch\n"
                    "A file of it that changes afterwards keeps it out until it is added again.",
                    [this] { return Request{add_}; });
  sub->add_option("folder", add_.path, "its folder")->required();
  seconds(sub, add_.seconds);

  sub = add_command(plugin, "remove", "use an added plugin no longer",
                    "  sootsayer plugin remove winch\n"
                    "Its folder is left as it is; jobs on its families stay in the record.",
                    [this] { return Request{remove_}; });
  sub->add_option("plugin", remove_.name, "its id, or its folder")->required();

  sub = add_command(plugin, "new", "start a plugin of your own from the template",
                    "  sootsayer plugin new winch --tabular   a text file, no compiler\n"
                    "  sootsayer plugin new winch             C++, for a cam no table describes",
                    [this] { return Request{new_}; });
  sub->add_option("name", new_.name, "its id and folder: small letters, digits, hyphens")
      ->required();
  sub->add_flag("--tabular", new_.tabular, "its families are text alone");

  sub = add_command(plugin, "probe", "what `plugin check` runs", "",
                    [this] { return Request{probe_}; });
  sub->add_option("plugin", probe_.path)->required();
  seconds(sub, probe_.seconds);
  sub->group("");  // nobody types this
}

}  // namespace soot::cli
