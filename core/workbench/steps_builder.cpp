#include "core/workbench/steps_builder.hpp"

#include "core/base/text.hpp"
#include "core/report/figure_text.hpp"
#include "core/workbench/gates.hpp"
#include "core/workbench/left_out.hpp"
#include "core/workbench/setting_figures.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

namespace soot {
namespace {

std::string with_unit(std::string text, const Unit& unit) {
  return unit.name.empty() ? text : fmt::format("{} {}", text, unit.name);
}

class StepsBuilder {
 public:
  StepsBuilder(const Engine& engine, const Job* job) : engine_(engine), job_(job) {}

  StepsSheet of(const Check& check) {
    const bool by_cylinder =
        std::any_of(check.reads.begin(), check.reads.end(),
                    [&](const std::string& id) {
                      return get_id(engine_.knowledge.quantities, id).scope == Scope::cylinder;
                    }) ||
        std::any_of(check.answers.begin(), check.answers.end(), [&](const std::string& id) {
          return get_id(engine_.knowledge.symptoms, id).scope == Scope::cylinder;
        });
    head(check.id, check.name, "check", check.tells, check.minutes, by_cylinder);
    describe(check.running, check.covers, check.hot, check.cold, check.tools, check.cautions);
    if (check.procedure.empty()) {
      sheet_.lines.push_back({{}, check.name + "."});
    } else {
      add(get_id(engine_.knowledge.procedures, check.procedure));
    }
    for (const std::string& id : check.reads) {
      const Quantity& quantity = get_id(engine_.knowledge.quantities, id);
      if (!quantity.figure.empty()) add_figure(quantity);
    }
    if (concerns_timing(engine_, check)) sheet_.setting = setting_lines(engine_);
    if (sheet_.means.empty()) sheet_.means = meaning_of(check);
    add_entry_lines(check);
    return std::move(sheet_);
  }

  StepsSheet of(const Correction& correction) {
    std::vector<std::string> mends;
    for (const Mend& mend : correction.mends)
      mends.push_back(get_id(engine_.knowledge.causes, mend.cause).name);
    head(correction.id, correction.name, "correction",
         fmt::format("Mends: {}.", fmt::join(mends, "; ")), correction.minutes,
         correction.scope == Scope::cylinder);
    describe(correction.running, correction.covers, false, false, correction.tools,
             correction.cautions);
    if (correction.procedure.empty()) {
      sheet_.lines.push_back({{}, correction.name + "."});
    } else {
      add(get_id(engine_.knowledge.procedures, correction.procedure));
    }
    if (concerns_timing(engine_, correction)) sheet_.setting = setting_lines(engine_);
    if (!correction.sum.empty())
      sheet_.remarks.push_back(fmt::format("the sum for it: sootsayer sum {}", correction.sum));
    sheet_.remarks.push_back(fmt::format("when it is done: sootsayer done {}{}", correction.id,
                                         correction.scope == Scope::cylinder ? " CYLINDER" : ""));
    return std::move(sheet_);
  }

  StepsSheet of(const Procedure& procedure) {
    sheet_.id = procedure.id;
    sheet_.name = procedure.name;
    sheet_.kind = "procedure";
    sheet_.family = engine_.family.id;
    add(procedure);
    return std::move(sheet_);
  }

 private:
  void head(const std::string& id, const std::string& name, std::string kind, std::string tells,
            const Minutes& minutes, bool by_cylinder) {
    sheet_.id = id;
    sheet_.name = name;
    sheet_.kind = std::move(kind);
    sheet_.tells = std::move(tells);
    sheet_.family = engine_.family.id;
    sheet_.cylinders = engine_.family.cylinders;
    sheet_.minutes = minutes.set_up + minutes.each;
    if (by_cylinder) sheet_.all_minutes = minutes.set_up + minutes.each * sheet_.cylinders;
  }

  void describe(Running running, const std::vector<std::string>& covers, bool hot, bool cold,
                const std::vector<std::string>& tools, const std::vector<std::string>& cautions) {
    constexpr std::string_view states[] = {"stopped", "turned by the starter", "running"};
    sheet_.state = states[static_cast<std::size_t>(running)];
    if (hot) sheet_.state += ", hot";
    if (cold) sheet_.state += ", cold";
    for (const std::string& id : covers) {
      const Cover& cover = get_id(engine_.knowledge.covers, id);
      sheet_.state += "; " + cover.name;
      sheet_.opening_minutes += cover.open_minutes + cover.close_minutes;
    }
    for (const std::string& id : tools)
      sheet_.tools.push_back(get_id(engine_.knowledge.tools, id).name);
    sheet_.cautions = caution_texts(cautions);
    if (job_ == nullptr) return;
    std::vector<std::string> asked;
    for (const Gate& gate : engine_.knowledge.gates)
      if (guards(gate, running) && !is_open(engine_, gate, *job_)) asked.push_back(ask_words(gate));
    sheet_.cautions.insert(sheet_.cautions.begin(), asked.begin(), asked.end());
  }

  std::vector<std::string> caution_texts(const std::vector<std::string>& ids) const {
    std::vector<std::string> out;
    for (const std::string& id : ids)
      out.push_back(get_id(engine_.knowledge.cautions, id).text);
    return out;
  }

  // A caution that stands before a step is not said at the top as well.
  void add(const Procedure& procedure) {
    for (const Step& step : procedure.steps) {
      sheet_.lines.push_back({caution_texts(step.cautions), fill(step.saying.text)});
      for (const std::string& caution : sheet_.lines.back().cautions)
        std::erase(sheet_.cautions, caution);
    }
    for (const Saying& saying : procedure.means)
      sheet_.means += (sheet_.means.empty() ? "" : " ") + fill(saying.text);
  }

  // Puts the family's figures in the places {figure-key}.
  std::string fill(const std::string& text) {
    std::string out;
    std::size_t at = 0;
    while (at < text.size()) {
      const std::size_t open = text.find('{', at);
      const std::size_t close = open == std::string::npos ? open : text.find('}', open);
      if (close == std::string::npos) break;
      out += text.substr(at, open - at);
      out += figure_text(text.substr(open + 1, close - open - 1));
      at = close + 1;
    }
    return out + text.substr(std::min(at, text.size()));
  }

  // "key", or "key|words to say where there is no figure".
  std::string figure_text(const std::string& asked) {
    const std::size_t bar = asked.find('|');
    const std::string key = asked.substr(0, bar);
    if (key == "firing-order")
      return fmt::format("{}", fmt::join(engine_.family.firing_order, "-"));
    if (key == "rotation") return engine_.family.rotation;
    if (key == "numbering") return engine_.family.numbering;
    const Figure* figure = engine_.family.figure(key);
    if (figure != nullptr) return print_figure(*figure);
    if (bar != std::string::npos) return asked.substr(bar + 1);
    return fmt::format("(no figure of {} is known: see the engine's own book)", key);
  }

  void add_figure(const Quantity& quantity) {
    const std::string& key = quantity.figure;
    const Figure* figure = engine_.family.figure(key);
    if (figure != nullptr) {
      sheet_.figures.push_back(fmt::format("{} {}", key, print_figure(*figure)));
    } else {
      const bool comparable = quantity.scope == Scope::cylinder && engine_.family.cylinders > 1;
      sheet_.remarks.push_back(fmt::format(
          "no figure of {} is known for {}: {}", key, engine_.family.id,
          comparable ? "compare the cylinders with each other" : "see the engine's own book"));
    }
  }

  // For a check whose procedure does not say: what its findings speak for most.
  std::string meaning_of(const Check& check) const {
    std::string out;
    for (const std::string& id : check.answers) {
      const std::vector<std::string> causes = likeliest_causes(id);
      if (causes.empty()) continue;
      out += fmt::format("{}{}: speaks for {}.", out.empty() ? "" : " ",
                         get_id(engine_.knowledge.symptoms, id).name, fmt::join(causes, ", or "));
    }
    return out;
  }

  std::vector<std::string> likeliest_causes(const std::string& symptom) const {
    std::multimap<double, std::string, std::greater<>> by_strength;
    for (const Cause& cause : engine_.knowledge.causes)
      for (const Link& link : cause.links)
        if (link.symptom == symptom && !link.strength.empty())
          by_strength.emplace(*std::max_element(link.strength.begin(), link.strength.end()),
                              cause.name);
    std::vector<std::string> out;
    for (const auto& [strength, name] : by_strength)
      if (out.size() < most_causes_named && strength >= least_strength_named) out.push_back(name);
    return out;
  }

  void add_entry_lines(const Check& check) {
    for (const std::string& id : check.reads) {
      const Quantity& quantity = get_id(engine_.knowledge.quantities, id);
      const bool each = quantity.scope == Scope::cylinder;
      sheet_.remarks.push_back(fmt::format("enter it: sootsayer gauge {} {}{}", id,
                                           each ? "1=" : "", with_unit("...", quantity.unit)));
    }
    for (const Scope scope : {Scope::engine, Scope::cylinder}) {
      std::vector<std::string> ids;
      for (const std::string& id : check.answers)
        if (get_id(engine_.knowledge.symptoms, id).scope == scope) ids.push_back(id);
      add_saw_line(ids, scope == Scope::cylinder ? " CYLINDER" : "");
    }
  }

  void add_saw_line(const std::vector<std::string>& ids, std::string_view cylinder) {
    if (ids.size() == 1)
      sheet_.remarks.push_back(
          fmt::format("enter it: sootsayer saw {}{} (or --absent)", ids.front(), cylinder));
    if (ids.size() > 1)
      sheet_.remarks.push_back(
          fmt::format("enter each: sootsayer saw FINDING{} (or --absent), where FINDING is {}",
                      cylinder, fmt::join(ids, ", ")));
  }

  static constexpr std::size_t most_causes_named = 3;
  static constexpr double least_strength_named = 0.3;

  const Engine& engine_;
  const Job* job_;
  StepsSheet sheet_;
};

}  // namespace

Result<StepsSheet> steps_of(const Engine& engine, const std::string& id, const Job* job) {
  if (const Check* check = find_id(engine.knowledge.checks, id))
    return StepsBuilder{engine, job}.of(*check);
  if (const Correction* correction = find_id(engine.knowledge.corrections, id))
    return StepsBuilder{engine, job}.of(*correction);
  if (const Procedure* procedure = find_id(engine.knowledge.procedures, id))
    return StepsBuilder{engine, job}.of(*procedure);
  const std::string reason = why_left_out(engine, id);
  if (!reason.empty())
    return fail(Kind::use, "'{}' is not for {} ({})", id, engine.family.id, reason);
  std::vector<std::string> ids = ids_of(engine.knowledge.checks);
  for (const Procedure& procedure : engine.knowledge.procedures)
    ids.push_back(procedure.id);
  for (const Correction& correction : engine.knowledge.corrections)
    ids.push_back(correction.id);
  return fail(Kind::use, "'{}' is no check, correction or procedure of {}{}", id, engine.family.id,
              did_you_mean(id, ids));
}

}  // namespace soot
