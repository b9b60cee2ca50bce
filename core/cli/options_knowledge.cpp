#include "core/cli/options_knowledge.hpp"

namespace soot::cli {
namespace {

void format(CLI::App* sub, bool& as_json) {
  sub->add_option_function<std::string>(
         "--format", [&as_json](const std::string& word) { as_json = word == "json"; },
         "text or json")
      ->check(CLI::IsMember({"text", "json"}));
}

}  // namespace

void KnowledgeWords::add(CLI::App& knowledge, const AddCommand& add_command) {
  CLI::App* sub =
      add_command(knowledge, "list", "list the entries of a kind",
                  "  sootsayer knowledge list symptom\n"
                  "Kinds: symptom quantity cause check correction procedure caution cover tool\n"
                  "term feature source.",
                  [this] { return Request{list_}; });
  sub->add_option("kind", list_.kind, "kind of entry")->required();
  format(sub, list_.as_json);

  sub = add_command(knowledge, "show", "one entry as a page to read",
                    "  sootsayer knowledge show lifter-one\n"
                    "  sootsayer knowledge show smoke-black-load",
                    [this] { return Request{show_}; });
  sub->add_option("id", show_.id, "id of the entry, of whatever kind")->required();
  format(sub, show_.as_json);

  sub = add_command(knowledge, "find", "find entries by a mechanic's words",
                    "  sootsayer knowledge find won't idle\n"
                    "  sootsayer knowledge find smokes black pulling",
                    [this] { return Request{find_}; });
  sub->add_option("words", find_.words, "what you would call it; misspelt is no matter")
      ->required();
  format(sub, find_.as_json);

  sub = add_command(knowledge, "check", "read all of it, name every fault, and what to look at",
                    "  sootsayer knowledge check\n  sootsayer knowledge check --all",
                    [this] { return Request{check_}; });
  sub->add_flag("--all", check_.all, "every note, however many");
  format(sub, check_.as_json);
}

}  // namespace soot::cli
