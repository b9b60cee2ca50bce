#include "core/workbench/form_builder.hpp"

#include "core/base/text.hpp"
#include "core/calc/firing.hpp"
#include "core/calc/sum.hpp"
#include "core/report/figure_text.hpp"
#include "core/workbench/setting_figures.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

constexpr std::size_t reading_width = 7;
constexpr std::size_t remark_width = 8;

class FormBuilder {
 public:
  explicit FormBuilder(const Engine& engine) : engine_(engine) {}

  BenchForm of(const Check& check) {
    head(check.name, check.cautions);
    if (concerns_timing(engine_, check)) add_setting();
    for (const std::string& id : check.reads)
      add(get_id(engine_.knowledge.quantities, id));
    for (const std::string& id : check.answers) {
      const Symptom& symptom = get_id(engine_.knowledge.symptoms, id);
      form_.questions.push_back(symptom.scope == Scope::cylinder ? symptom.ask + " cylinder: ____"
                                                                 : symptom.ask);
    }
    return std::move(form_);
  }

  // What its sum asks for is what is read before and after.
  BenchForm of(const Correction& correction) {
    head(correction.name, correction.cautions);
    if (concerns_timing(engine_, correction)) add_setting();
    if (const calc::SumForm* sum = calc::find_sum(correction.sum)) {
      std::vector<std::string> seen;
      for (const calc::Need& need : sum->needs) {
        const Quantity* quantity = find_id(engine_.knowledge.quantities, need.quantity);
        const bool is_new = std::find(seen.begin(), seen.end(), need.quantity) == seen.end();
        if (quantity == nullptr || !need.needed || !is_new) continue;
        seen.push_back(quantity->id);
        add(*quantity);
      }
    }
    return std::move(form_);
  }

 private:
  void head(const std::string& name, const std::vector<std::string>& cautions) {
    form_.title = name;
    form_.family = engine_.family.id;
    for (const std::string& id : cautions)
      form_.cautions.push_back(get_id(engine_.knowledge.cautions, id).text);
  }

  void add_setting() {
    for (std::string& line : setting_lines(engine_))
      form_.known.push_back(std::move(line));
  }

  void add(const Quantity& quantity) {
    BenchForm::Table table;
    table.title = fmt::format("{}, {}", quantity.name,
                              quantity.unit.name.empty() ? "a number" : quantity.unit.name);
    if (const Figure* figure = engine_.family.figure(quantity.figure))
      table.title += fmt::format(" (the book says {})", print_figure(*figure));
    table.rows = rows(quantity);
    const bool is_locked = quantity.geometry == "depth" && engine_.family.has("jam-nut");
    const auto round = [&](std::string title, std::string_view first) {
      BenchForm::Round out{std::move(title), {}};
      if (is_locked)
        out.columns = {{std::string{first}, reading_width},
                       {first == "found" ? "slack" : "tight", reading_width},
                       {"tight", reading_width}};
      else
        out.columns = {{"1", reading_width}, {"2", reading_width}, {"3", reading_width}};
      // + come up to, - turned back, ? in doubt
      if (!quantity.geometry.empty()) out.columns.push_back({"+ - ?", remark_width - 3});
      return out;
    };
    table.rounds = {round("first round", "found"), round("second round", "slack")};
    form_.tables.push_back(std::move(table));
    if (!quantity.geometry.empty())
      form_.known.emplace_back(
          "+ come up to in the running direction, - turned back onto it, ? in doubt; the second "
          "round, without a spanner, is the one that counts");
  }

  std::vector<std::string> rows(const Quantity& quantity) const {
    if (quantity.scope == Scope::engine) return {"engine"};
    std::vector<std::string> out;
    if (const auto settings = calc::setting_order(engine_.family))
      for (const calc::Setting& setting : *settings)
        out.push_back(quantity.geometry.empty()
                          ? fmt::format("No. {}", setting.cylinder)
                          : fmt::format("No. {} at {:g}", setting.cylinder, setting.crank_deg));
    return out;
  }

  const Engine& engine_;
  BenchForm form_;
};

}  // namespace

Result<BenchForm> form_of(const Engine& engine, const std::string& id) {
  const Knowledge& knowledge = engine.knowledge;
  if (id.empty()) {
    for (const Correction& correction : knowledge.corrections) {
      if (!concerns_timing(engine, correction)) continue;
      BenchForm form = FormBuilder{engine}.of(correction);
      if (form.tables.empty()) continue;  // set without a reading
      form.title = "setting the timing of every cylinder";
      return form;
    }
    return fail(Kind::use, "nothing sets the timing of {} by readings (expected an id)",
                engine.family.id);
  }
  if (const Check* check = find_id(knowledge.checks, id)) return FormBuilder{engine}.of(*check);
  if (const Correction* correction = find_id(knowledge.corrections, id))
    return FormBuilder{engine}.of(*correction);
  std::vector<std::string> ids = ids_of(knowledge.checks);
  for (const Correction& correction : knowledge.corrections)
    ids.push_back(correction.id);
  return fail(Kind::use, "'{}' is no check or correction of {}{}", id, engine.family.id,
              did_you_mean(id, ids));
}

}  // namespace soot
