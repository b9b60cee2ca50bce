#include "core/calc/sum.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

const Need* find_need(const SumForm& form, std::string_view name) {
  const auto found = std::find_if(form.needs.begin(), form.needs.end(),
                                  [&](const Need& need) { return need.name == name; });
  return found == form.needs.end() ? nullptr : &*found;
}

bool is_known(const Need& need, const Ask& ask) {
  const auto given = ask.given.find(need.name);
  if (given != ask.given.end() && !given->second.empty()) return true;
  return need.usual || ask.family.nominal(std::string{need.figure}).has_value();
}

void check_given(const Need& need, const Given& given, const Family& family, Problems& problems) {
  if (given.unit.dimension != need.dimension)
    problems.push_back(make_problem(Kind::use, "{} is {} (expected {} in {})", need.name,
                                    name_of(given.unit.dimension), name_of(need.dimension),
                                    units_of(need.dimension)));
  if (!std::isfinite(given.value) || (given.uncertainty && !(*given.uncertainty >= 0)))
    problems.push_back(make_problem(Kind::use, "{} is no number to count with", need.name));
  const bool exists =
      given.cylinder >= 0 && (family.cylinders == 0 || given.cylinder <= family.cylinders);
  if (!exists)
    problems.push_back(make_problem(Kind::use, "cylinder {} of {} (expected 1 to {})",
                                    given.cylinder, family.cylinders, family.cylinders));
}

}  // namespace

const SumForm* find_sum(std::string_view id) {
  const std::vector<SumForm>& forms = sum_forms();
  const auto found =
      std::find_if(forms.begin(), forms.end(), [&](const SumForm& form) { return form.id == id; });
  return found == forms.end() ? nullptr : &*found;
}

std::vector<std::string> missing_inputs(const SumForm& form, const Ask& ask) {
  std::vector<std::string> names;
  for (const Need& need : form.needs)
    if (need.needed && !is_known(need, ask)) names.emplace_back(need.name);
  return names;
}

Result<Sum> work_out(const SumForm& form, const Ask& ask) {
  Problems problems;
  std::vector<std::string> known;
  for (const Need& need : form.needs)
    known.emplace_back(need.name);
  for (const auto& [name, values] : ask.given) {
    const Need* need = find_need(form, name);
    if (!need) {
      problems.push_back(make_problem(Kind::use, "the sum {} takes no '{}' (expected {}{})",
                                      form.id, name, fmt::join(known, ", "),
                                      did_you_mean(name, known)));
      continue;
    }
    for (const Given& given : values)
      check_given(*need, given, ask.family, problems);
  }
  for (const std::string& name : missing_inputs(form, ask)) {
    const Need* need = find_need(form, name);
    problems.push_back(make_problem(Kind::use, "the sum {} needs {}, {} (expected {}=MEASURE)",
                                    form.id, name, need->meaning, name));
  }
  if (!problems.empty()) return tl::unexpected(problems);
  return form.work(form, ask);
}

}  // namespace soot::calc
