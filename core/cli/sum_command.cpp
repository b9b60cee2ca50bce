// sum: the arithmetic of a correction, from the job's readings, the family's figures and what is
// given by hand.
#include "core/base/text.hpp"
#include "core/calc/sum.hpp"
#include "core/cli/commands.hpp"
#include "core/report/json.hpp"
#include "core/report/sum_text.hpp"
#include "core/workbench/sum_inputs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>

namespace soot::cli {
namespace {

struct Typed {
  std::string name;
  calc::Given given;
};

// "depth=29.41mm", or "3:depth=29.41mm" for a cylinder's.
Result<Typed> read_typed(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos)
    return fail(Kind::use, "'{}' gives no input (expected name=measure, as depth=29.41mm)", text);
  Typed typed;
  typed.name = text.substr(0, equals);
  const std::size_t colon = typed.name.find(':');
  if (colon != std::string::npos) {
    const std::string number = typed.name.substr(0, colon);
    const auto [end, error] =
        std::from_chars(number.data(), number.data() + number.size(), typed.given.cylinder);
    if (error != std::errc{} || end != number.data() + number.size())
      return fail(Kind::use,
                  "'{}' does not begin with a cylinder (expected one, as 3:depth=29.41mm)", text);
    typed.name = typed.name.substr(colon + 1);
  }
  const Result<Measure> measure = read_measure(text.substr(equals + 1));
  if (!measure) return pass_on(measure);
  if (measure->bound != Bound::none)
    return fail(Kind::use, "'{}' is a bound (expected a plain measure)", text);
  typed.given.value = measure->model();
  typed.given.unit = measure->unit;
  return typed;
}

// Inputs by hand take the place of readings of the same name.
Result<void> add_typed(const std::vector<std::string>& inputs, calc::Ask& ask) {
  std::map<std::string, std::vector<calc::Given>, std::less<>> by_hand;
  for (const std::string& text : inputs) {
    const Result<Typed> typed = read_typed(text);
    if (!typed) return tl::unexpected<Problems>(typed.error());
    by_hand[typed->name].push_back(typed->given);
  }
  for (auto& [name, given] : by_hand)
    ask.given[name] = std::move(given);
  return {};
}

Result<Subject> engine_of(Session& session, const DoSum& request) {
  if (request.family.empty()) return subject_of(session, request.about);
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  Result<Engine> engine = (*bench)->engine(request.family);
  if (!engine) return pass_on(engine);
  return Subject{std::move(*engine), Job{}, std::nullopt};
}

std::string needs_of(const calc::SumForm& form, const calc::Ask& ask) {
  std::vector<std::string> out;
  for (const std::string& name : calc::missing_inputs(form, ask))
    out.push_back(name);
  return fmt::format("{}", fmt::join(out, ", "));
}

// Without a sum's name: which can be done with what is known, and what the others lack.
void offer(Session& session, const Engine& engine, const Inquiry& inquiry) {
  std::string possible, others;
  for (const calc::SumForm& form : calc::sum_forms()) {
    const calc::Ask ask = ask_of(engine, inquiry, form);
    const std::string lacking = needs_of(form, ask);
    const std::string head = fmt::format("  {:<12} ", form.id);
    const std::string indent(head.size(), ' ');
    if (lacking.empty()) {
      possible += fold(std::string{form.title}, session.look().width, head, indent) + "\n";
    } else {
      others += fold(fmt::format("{} (give {})", form.title, lacking), session.look().width, head,
                     indent) +
                "\n";
    }
  }
  if (!possible.empty())
    session.terminal().answer("With what is known (sootsayer sum NAME):\n" + possible);
  if (!others.empty())
    session.terminal().answer("With inputs by hand (sootsayer sum NAME input=measure):\n" + others);
}

}  // namespace

Result<void> run(Session& session, const DoSum& request) {
  const Result<Subject> subject = engine_of(session, request);
  if (!subject) return pass_on(subject);
  const Result<Inquiry> inquiry = inquire(subject->engine, subject->job);
  if (!inquiry) return pass_on(inquiry);
  if (request.sum.empty()) {
    offer(session, subject->engine, *inquiry);
    return {};
  }
  const calc::SumForm* form = calc::find_sum(request.sum);
  if (form == nullptr) {
    std::vector<std::string> ids;
    for (const calc::SumForm& known : calc::sum_forms())
      ids.emplace_back(known.id);
    return fail(Kind::use, "'{}' is no sum{} (there are {})", request.sum,
                did_you_mean(request.sum, ids), fmt::join(ids, ", "));
  }
  calc::Ask ask = ask_of(subject->engine, *inquiry, *form);
  const Result<void> added = add_typed(request.inputs, ask);
  if (!added) return added;
  const Result<calc::Sum> sum = calc::work_out(*form, ask);
  if (!sum) return pass_on(sum);
  session.terminal().answer(request.about.as_json ? to_json(*sum) : to_text(*sum, session.look()));
  return {};
}

}  // namespace soot::cli
