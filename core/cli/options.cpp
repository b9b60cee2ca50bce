#include "core/cli/options.hpp"

#include "core/base/text.hpp"
#include "core/cli/exit_code.hpp"
#include "core/cli/options_knowledge.hpp"
#include "core/cli/options_plugin.hpp"
#include "core/cli/version.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <functional>
#include <map>

namespace soot::cli {
namespace {

constexpr std::size_t help_width = 80;
constexpr std::size_t description_column = 30;

/// One command under construction: its CLI11 app and what makes its request.
class Words {
 public:
  Words() {
    app_.name("sootsayer");
    app_.description(
        "Finds what is wrong with an old low-speed diesel from what you see and measure,\n"
        "says what to check next, does the sum for the correction and keeps the record.");
    app_.set_version_flag("--version", std::string{version_line});
    app_.add_option("--plugin-path", plugin_path_, "folders with plugins, before all others")
        ->delimiter(':')
        ->type_name("FOLDER");
    app_.fallthrough();
    app_.get_formatter()->column_width(description_column);
    app_.require_subcommand(0, 1);
    app_.footer(
        "A first round:\n"
        "  sootsayer family list\n"
        "  sootsayer open hagmoss-4\n"
        "  sootsayer tell \"slow to start since Easter\" --history just-rebuilt\n"
        "  sootsayer saw hard-start-cold\n"
        "  sootsayer next\n"
        "  sootsayer gauge lifter-depth 1=29.22mm 2=29.19mm 3=29.41mm 4=29.21mm\n"
        "  sootsayer rank\n"
        "SOOTSAYER_LEDGER names another ledger. Exit codes: 0 answered, 2 wrong use,\n"
        "3 bad data file, 4 plugin or ledger trouble, 70 internal.");
    add_job_commands();
    add_question_commands();
    add_finish_commands();
    add_catalogues();
  }

  Parsed parse(const std::vector<std::string>& arguments) {
    Parsed parsed;
    if (const std::string complaint = misspelt(arguments); !complaint.empty()) {
      parsed.text = complaint + "\n";
      parsed.is_complaint = true;
      parsed.exit_code = wrong_use;
      return parsed;
    }
    try {
      std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
      app_.parse(reversed);
    } catch (const CLI::CallForHelp&) {
      parsed.text = help_of(deepest(&app_));
      return parsed;
    } catch (const CLI::CallForVersion&) {
      parsed.text = std::string{version_line} + "\n";
      return parsed;
    } catch (const CLI::ParseError& error) {
      const CLI::App* asked = deepest(&app_);
      parsed.text = fmt::format("sootsayer: {} (see: {} --help)\n", first_line(error.what()),
                                asked == &app_ ? "sootsayer" : full_name(asked));
      parsed.is_complaint = true;
      parsed.exit_code = wrong_use;
      return parsed;
    }
    parsed.plugin_path = plugin_path_;
    const CLI::App* asked = deepest(&app_);
    const auto made = makers_.find(asked);
    if (made == makers_.end()) {
      parsed.text = help_of(asked);
      parsed.exit_code = asked == &app_ ? answered : wrong_use;
      parsed.is_complaint = asked != &app_;
      return parsed;
    }
    parsed.request = made->second();
    return parsed;
  }

 private:
  template <class R>
  CLI::App* command(CLI::App& parent, const std::string& name, const std::string& about, R& request,
                    const std::string& examples) {
    CLI::App* sub = parent.add_subcommand(name, about);
    sub->footer("Examples:\n" + examples);
    makers_[sub] = [&request] { return Request{request}; };
    return sub;
  }

  static void job(CLI::App* sub, std::optional<long>& into) {
    sub->add_option("--job", into, "number of the job, instead of the current one");
  }

  void about(CLI::App* sub, About& into) {
    CLI::Option* number =
        sub->add_option("--job", into.job, "number of the job, instead of the current one");
    sub->add_option("--file", into.file, "a job file, instead of the ledger")->excludes(number);
    format(sub, into.as_json);
  }

  static void format(CLI::App* sub, bool& as_json) {
    sub->add_option_function<std::string>(
           "--format", [&as_json](const std::string& word) { as_json = word == "json"; },
           "text or json")
        ->check(CLI::IsMember({"text", "json"}));
  }

  void add_job_commands() {
    CLI::App* sub = command(app_, "open", "open a job on an engine of a family", open_,
                            "  sootsayer open hagmoss-4\n"
                            "  sootsayer open hagmoss-4 --engine \"winch 2\"");
    sub->add_option("family", open_.family, "id of the family (sootsayer family list)")->required();
    sub->add_option("--engine", open_.engine, "the engine's own name");

    sub = command(app_, "tell", "tell the complaint in plain words, and the history", tell_,
                  "  sootsayer tell \"slow to start since Easter\" --history just-rebuilt\n"
                  "Histories: just-rebuilt, just-serviced, long-service, long-storage, ordinary.");
    sub->add_option("words", tell_.words, "the owner's own words");
    sub->add_option("--history", tell_.history, "what was done to it, or not, before");
    job(sub, tell_.job);

    sub = command(app_, "saw", "enter a symptom: there, or looked for and not there", saw_,
                  "  sootsayer saw hard-start-cold\n"
                  "  sootsayer saw smoke-black-load --absent\n"
                  "  sootsayer saw exhaust-temp-low-one 3 --unsure\n"
                  "  sootsayer saw \"smokes black pulling\"\n"
                  "Symptoms: sootsayer knowledge list symptom");
    sub->add_option("symptom", saw_.symptom, "id of the symptom, or your own words for it")
        ->required();
    sub->add_option("cylinder", saw_.cylinders, "cylinders, for a symptom of a cylinder");
    sub->add_flag("--absent", saw_.absent, "looked for, and not there");
    sub->add_flag("--unsure", saw_.unsure, "think so, but would not swear to it");
    sub->add_flag("--complaint", saw_.complaint,
                  "this is what the job is about (none so marked: everything present is)");
    job(sub, saw_.job);

    sub = command(app_, "gauge", "enter readings, with their units", gauge_,
                  "  sootsayer gauge lifter-depth 1=29.22mm 2=29.19mm 3=29.41mm\n"
                  "  sootsayer gauge supply-pressure \"15 psi\"\n"
                  "  sootsayer gauge nozzle-opening 2=\">140 bar\"\n"
                  "  sootsayer gauge lifter-depth 3=29.35mm --came-up doubtful\n"
                  "Quantities: sootsayer knowledge list quantity");
    sub->add_option("quantity", gauge_.quantity, "id of the quantity")->required();
    sub->add_option("reading", gauge_.readings,
                    "CYLINDER=VALUE, or VALUE for the whole engine; > and < are bounds")
        ->required();
    sub->add_option("--came-up", gauge_.came_up,
                    "was the mark reached in the running direction: yes, no, doubtful");
    sub->add_option("--uncertainty", gauge_.uncertainty,
                    "standard uncertainty of these readings, instead of the instrument's usual");
    sub->add_flag("--as-typed", gauge_.as_typed, "insist on a value that looks absurd");
    job(sub, gauge_.job);

    sub = command(app_, "strike", "cross out a mistaken line of the record", strike_,
                  "  sootsayer strike 7 --why \"read off the wrong cylinder\"");
    sub->add_option("line", strike_.line, "number of the line (sootsayer page)")->required();
    sub->add_option("--why", strike_.why, "the reason, which stays in the record")->required();
    job(sub, strike_.job);
  }

  void add_question_commands() {
    CLI::App* sub = command(app_, "rank", "rank the causes", rank_,
                            "  sootsayer rank\n"
                            "  sootsayer rank --file cases/late-lifter.toml --format json");
    sub->add_option("--show", rank_.shown, "how many causes to print")->check(CLI::Range(1, 1000));
    sub->add_flag("--fit", rank_.fit, "say which piece of evidence fits worst (takes a while)");
    about(sub, rank_.about);

    sub = command(app_, "weigh", "what speaks for and against one cause", weigh_,
                  "  sootsayer weigh lifter-one 3\n"
                  "Causes: sootsayer knowledge list cause");
    sub->add_option("cause", weigh_.cause, "id of the cause")->required();
    sub->add_option("cylinder", weigh_.cylinder, "its cylinder; left out = any of them");
    about(sub, weigh_.about);

    sub = command(app_, "next", "what to do next, and what it costs", next_,
                  "  sootsayer next\n"
                  "  sootsayer next --skip lifter-depth --why \"no depth gauge here\"");
    sub->add_option("--skip", next_.skip, "a check that cannot be made here")->take_all();
    sub->add_option("--why", next_.why, "why it cannot be made");
    about(sub, next_.about);

    sub = command(app_, "steps", "how to make a check or a correction, step by step", steps_,
                  "  sootsayer steps lifter-depth\n"
                  "  sootsayer steps set-lifter --family hagmoss-4\n"
                  "  sootsayer steps --sheet");
    sub->add_option("id", steps_.id, "id of a check, correction or procedure");
    sub->add_flag("--sheet", steps_.as_form, "a form to write on at the bench");
    CLI::Option* family =
        sub->add_option("--family", steps_.family, "for an engine of this family, without a job");
    sub->add_option("--job", steps_.job, "number of the job, instead of the current one")
        ->excludes(family);

    sub = command(app_, "sum", "the arithmetic of a correction", sum_,
                  "  sootsayer sum\n"
                  "  sootsayer sum lifter\n"
                  "  sootsayer sum lifter --family hagmoss-4 3:depth=29.41mm 3:jam-rise=0.05mm\n"
                  "  sootsayer sum order --family hagmoss-4");
    sub->add_option("sum", sum_.sum, "which sum; left out = those that can be done");
    sub->add_option("input", sum_.inputs, "name=measure, or CYLINDER:name=measure");
    sub->add_option("--family", sum_.family, "for an engine of this family, without a job");
    about(sub, sum_.about);
  }

  void add_finish_commands() {
    CLI::App* sub =
        command(app_, "done", "note a correction that was made", done_,
                "  sootsayer done set-lifter 3 --note \"29.41 to 29.20, 1.3 flats out\"");
    sub->add_option("correction", done_.correction, "id of the correction")->required();
    sub->add_option("cylinder", done_.cylinders, "cylinders it was made on");
    sub->add_option("--note", done_.note, "what was set, from what to what");
    sub->add_option("--parts", done_.parts, "parts used");
    sub->add_option("--minutes", done_.minutes, "time it took")->check(CLI::NonNegativeNumber);
    job(sub, done_.job);

    sub = command(app_, "prove", "how the confirming run went", prove_,
                  "  sootsayer prove cured --note \"cold start at 9 C on the first pull\"\n"
                  "Results: cured, improved, unchanged, worse, not-tested.");
    sub->add_option("result", prove_.result, "how it went")->required();
    sub->add_option("--note", prove_.note, "conditions and what was seen");
    job(sub, prove_.job);

    sub = command(app_, "close", "close the job", close_,
                  "  sootsayer close --cause lifter-one:3 --note \"look again in 20 h\"");
    sub->add_option("--cause", close_.causes, "what it was: CAUSE or CAUSE:CYLINDER")->take_all();
    sub->add_option("--note", close_.note, "what is left open");
    job(sub, close_.job);

    sub = command(app_, "reopen", "take a closed job up again", reopen_,
                  "  sootsayer reopen --job 3 --why \"smokes again after 10 h\"");
    sub->add_option("--why", reopen_.why, "the reason");
    job(sub, reopen_.job);

    sub = command(app_, "page", "print the record", page_,
                  "  sootsayer page\n  sootsayer page --job 3");
    job(sub, page_.job);

    sub = command(app_, "jobs", "list the jobs, or take one up", jobs_,
                  "  sootsayer jobs --all\n  sootsayer jobs --take-up 3");
    sub->add_flag("--all", jobs_.all, "closed ones too");
    sub->add_option("--take-up", jobs_.take_up, "make this job the current one");
    format(sub, jobs_.as_json);
  }

  CLI::App* group(const std::string& name, const std::string& about) {
    CLI::App* sub = app_.add_subcommand(name, about);
    sub->require_subcommand(0, 1);
    return sub;
  }

  void add_catalogues() {
    CLI::App* cases = group("case", "prepared cases, for teaching");
    CLI::App* sub = command(*cases, "list", "list the cases", case_list_, "  sootsayer case list");
    format(sub, case_list_.as_json);
    sub = command(*cases, "run", "put a case to the program and compare with the truth", case_run_,
                  "  sootsayer case run late-lifter");
    sub->add_option("name", case_run_.name, "name of the case")->required();
    format(sub, case_run_.as_json);

    CLI::App* family = group("family", "engine families");
    sub = command(*family, "list", "list the families", family_list_, "  sootsayer family list");
    format(sub, family_list_.as_json);
    sub = command(*family, "show", "the spec table of a family", family_show_,
                  "  sootsayer family show hagmoss-4");
    sub->add_option("family", family_show_.family, "id of the family")->required();
    format(sub, family_show_.as_json);

    sub = command(*family, "check", "read a family's file and name every fault in it",
                  family_check_, "  sootsayer family check families/mine-3.toml");
    sub->add_option("file", family_check_.file, "the family's TOML file")->required();

    const auto add = [this](CLI::App& parent, const std::string& name, const std::string& about,
                            const std::string& examples, std::function<Request()> make) {
      CLI::App* added = parent.add_subcommand(name, about);
      added->footer("Examples:\n" + examples);
      makers_[added] = std::move(make);
      return added;
    };
    knowledge_words_.add(*group("knowledge", "what the program knows"), add);
    plugin_words_.add(*group("plugin", "plugins that serve families"), add);
  }

  // The command that the words reached.
  static const CLI::App* deepest(const CLI::App* app) {
    while (!app->get_subcommands().empty())
      app = app->get_subcommands().front();
    return app;
  }

  // The library does not fold: long descriptions go on below themselves.
  static std::string help_of(const CLI::App* app) {
    const std::string whole =
        app->get_parent() == nullptr ? app->help() : app->help(full_name(app->get_parent()));
    std::string out;
    for (const std::string& line : split(whole, '\n')) {
      const bool is_long = width_of(line) > help_width && line.size() > description_column;
      out += is_long
                 ? fold(line.substr(description_column), help_width,
                        line.substr(0, description_column), std::string(description_column, ' '))
                 : line;
      out += '\n';
    }
    while (out.size() > 1 && out[out.size() - 2] == '\n')
      out.pop_back();
    return out;
  }

  static std::string full_name(const CLI::App* app) {
    std::string name = app->get_name();
    for (const CLI::App* up = app->get_parent(); up != nullptr; up = up->get_parent())
      name = up->get_name() + " " + name;
    return name;
  }

  static std::string first_line(std::string_view text) {
    std::string line{text.substr(0, text.find('\n'))};
    while (!line.empty() && line.back() == '.')
      line.pop_back();
    if (!line.empty() && line[0] >= 'A' && line[0] <= 'Z')
      line[0] = static_cast<char>(line[0] - 'A' + 'a');
    return line;
  }

  // A first word, or the word after a group's name, that no command has.
  std::string misspelt(const std::vector<std::string>& arguments) {
    const CLI::App* app = &app_;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
      const std::string& word = arguments[i];
      if (word == "--plugin-path") ++i;
      if (word.empty() || word[0] == '-') continue;
      std::vector<std::string> known;
      const CLI::App* found = nullptr;
      for (const CLI::App* sub : app->get_subcommands([](const CLI::App*) { return true; })) {
        known.push_back(sub->get_name());
        if (sub->get_name() == word) found = sub;
      }
      if (found == nullptr) {
        const std::string near = did_you_mean(word, known);
        return fmt::format("sootsayer: '{}' is no command of {}{}", word, full_name(app),
                           near.empty() ? fmt::format(" (see: {} --help)", full_name(app)) : near);
      }
      if (found->get_subcommands([](const CLI::App*) { return true; }).empty()) return {};
      app = found;
    }
    return {};
  }

  CLI::App app_;
  std::map<const CLI::App*, std::function<Request()>> makers_;
  std::vector<std::string> plugin_path_;
  Open open_;
  Tell tell_;
  Saw saw_;
  Gauge gauge_;
  Rank rank_;
  Weigh weigh_;
  Next next_;
  Steps steps_;
  DoSum sum_;
  Done done_;
  Prove prove_;
  Close close_;
  Reopen reopen_;
  Page page_;
  Jobs jobs_;
  Strike strike_;
  CaseList case_list_;
  CaseRun case_run_;
  FamilyList family_list_;
  FamilyShow family_show_;
  FamilyCheck family_check_;
  KnowledgeWords knowledge_words_;
  PluginWords plugin_words_;
};

}  // namespace

Parsed parse(const std::vector<std::string>& arguments) {
  return Words{}.parse(arguments);
}

}  // namespace soot::cli
