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
#include <set>

namespace soot::cli {
namespace {

struct TypedInput {
  std::string name;
  calc::Given given;
};

// Between a measure and its U (k = 2), as the answers print it.
constexpr std::string_view plus_minus = "+/-";

Result<Measure> read_plain(std::string_view text) {
  Result<Measure> measure = read_measure(text);
  if (measure && measure->bound != Bound::none)
    return fail(Kind::use, "'{}' is a bound (expected a plain measure)", text);
  return measure;
}

Result<void> read_value(std::string_view text, calc::Given& given) {
  const std::size_t mark = text.find(plus_minus);
  const Result<Measure> measure = read_plain(trim(text.substr(0, mark)));
  if (!measure) return tl::unexpected<Problems>(measure.error());
  given.value = measure->model();
  given.unit = measure->unit;
  if (mark == std::string_view::npos) return {};
  const Result<Measure> expanded = read_plain(trim(text.substr(mark + plus_minus.size())));
  if (!expanded) return tl::unexpected<Problems>(expanded.error());
  if (expanded->unit.dimension != given.unit.dimension || !(expanded->value >= 0))
    return fail(Kind::use, "'{}' is no uncertainty of '{}' (expected one of 0 or more, in {})",
                expanded->as_written, measure->as_written, units_of(given.unit.dimension));
  given.uncertainty = model_difference(*expanded) / 2;
  return {};
}

// "depth=29.41mm", "3:depth=29.41mm" for a cylinder's, "depth=29.41mm+/-0.04mm" with its U.
Result<TypedInput> read_input(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos)
    return fail(Kind::use, "'{}' gives no input (expected name=measure, as depth=29.41mm)", text);
  TypedInput typed;
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
  const Result<void> read = read_value(std::string_view{text}.substr(equals + 1), typed.given);
  if (!read) return tl::unexpected<Problems>(read.error());
  return typed;
}

// Inputs by hand take the place of readings of the same name.
Result<void> add_typed(const std::vector<std::string>& inputs, calc::Ask& ask) {
  std::map<std::string, std::vector<calc::Given>, std::less<>> by_hand;
  for (const std::string& text : inputs) {
    const Result<TypedInput> typed = read_input(text);
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

// What of the job's readings goes into it: "lifter-depth of 4 cylinders, backlash".
std::string readings_of(const calc::SumForm& form, const calc::Ask& ask) {
  std::vector<std::string> out;
  for (const calc::Need& need : form.needs) {
    const auto given = ask.given.find(need.name);
    if (given == ask.given.end()) continue;
    std::set<int> cylinders;
    for (const calc::Given& one : given->second)
      cylinders.insert(one.cylinder);
    out.push_back(cylinders.contains(0) ? std::string{need.quantity}
                                        : fmt::format("{} of cylinder {}", need.quantity,
                                                      fmt::join(cylinders, ", ")));
  }
  return fmt::format("{}", fmt::join(out, "; "));
}

// Without a sum's name: what the job's readings make possible, what the family's figures alone do,
// and what the others lack.
void offer(Session& session, const Engine& engine, const Inquiry& inquiry) {
  std::string from_readings, from_family, by_hand;
  for (const calc::SumForm& form : calc::sum_forms()) {
    const calc::Ask ask = ask_of(engine, inquiry, form);
    const std::string lacking = needs_of(form, ask);
    const std::string readings = readings_of(form, ask);
    // Some can be asked in several ways, and some refuse what the readings say.
    const Result<calc::Sum> tried =
        lacking.empty() ? calc::work_out(form, ask) : Result<calc::Sum>{calc::Sum{}};
    std::string& group = !lacking.empty() || !tried ? by_hand
                         : readings.empty()         ? from_family
                                                    : from_readings;
    std::string words{form.title};
    if (!lacking.empty())
      words += fmt::format(" (give {})", lacking);
    else if (!tried)
      words += fmt::format(": {}", tried.error().front().text);
    else if (!readings.empty())
      words += fmt::format(" (from {})", readings);
    const std::string head = fmt::format("  {:<12} ", form.id);
    group += fold(words, session.look().width, head, std::string(head.size(), ' ')) + "\n";
  }
  const auto answer = [&](std::string_view title, const std::string& lines) {
    if (!lines.empty()) session.terminal().answer(fmt::format("{}\n{}", title, lines));
  };
  answer("From this job's readings (sootsayer sum NAME):", from_readings);
  answer("From what is known of the engine (sootsayer sum NAME):", from_family);
  answer("With inputs by hand (sootsayer sum NAME input=measure):", by_hand);
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
