#include "core/calc/contradictions.hpp"

#include "core/calc/derived.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace soot::calc {
namespace {

constexpr double slip_share = 1e-9;  // of sums in floating point

/// The first is never more than the second.
constexpr std::pair<std::string_view, std::string_view> in_order[] = {
    {"pre-stroke", "plunger-lift"},       {"delivery-end-lift", "plunger-lift"},
    {"rack-no-delivery", "rack-full"},    {"idle-speed", "rated-speed"},
    {"rated-speed", "no-load-speed"},     {"no-load-speed", "overspeed-limit"},
    {"cranking-least", "cranking-speed"}, {"cranking-speed", "idle-speed"}};

int decimals_of(const Figure& figure) {
  constexpr int enough = 3;
  if (figure.step <= 0) return enough;
  return std::max(0, static_cast<int>(std::lround(-std::log10(figure.step / figure.unit.factor))));
}

/// Both with the figure's own places, or as many more as it takes to part them.
std::pair<std::string, std::string> both(const Figure& figure, double typed, double expected) {
  constexpr int most_decimals = 9;
  for (int decimals = decimals_of(figure);; ++decimals) {
    std::string a = print_in(typed, figure.unit, decimals);
    std::string b = print_in(expected, figure.unit, decimals);
    if (a != b || decimals >= most_decimals) return {std::move(a), std::move(b)};
  }
}

Figure shifted(Figure figure, double by) {
  for (std::optional<double>* part :
       {&figure.value, &figure.low, &figure.high, &figure.least, &figure.most, &figure.tolerance})
    if (*part) **part += by;
  return figure;
}

class Comparer {
 public:
  Comparer(const Family& family, const LiftLaw* law)
      : family_(family), full_(completed(family, law)), law_(law) {}

  Problems all() {
    for (const Derivation& rule : derivations()) {
      const Figure* figure = family_.figure(std::string{rule.key});
      if (figure == nullptr || rule.fills_only) continue;
      compare(*figure, rule);
    }
    for (const auto& [smaller, larger] : in_order)
      order(family_.figure(std::string{smaller}), family_.figure(std::string{larger}));
    for (const auto& [key, figure] : family_.figures)
      if (figure.source == "derived" && !derive(key, full_, law_).any()) complain_of_source(figure);
    std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
      return a.place.line < b.place.line;
    });
    return std::move(problems_);
  }

 private:
  void order(const Figure* smaller, const Figure* larger) {
    if (smaller == nullptr || larger == nullptr) return;
    const std::optional<double> less = smaller->nominal();
    const std::optional<double> more = larger->nominal() ? larger->nominal() : larger->most;
    if (!less || !more || *less <= *more * (1 + slip_share)) return;
    add(*smaller, fmt::format("{} is {} (expected at most {}, which is {})", smaller->key,
                              print_in(*less, smaller->unit, decimals_of(*smaller)), larger->key,
                              print_in(*more, larger->unit, decimals_of(*larger))));
  }

  void compare(const Figure& figure, const Derivation& rule) {
    const DerivedParts expected = rule.work(full_, law_);
    if (expected.value && !figure.value && figure.low && figure.high) {
      compare_range(figure, rule, *expected.value);
    } else {
      part(figure, rule, "", figure.value, &DerivedParts::value);
    }
    part(figure, rule, "low", figure.low, &DerivedParts::low);
    part(figure, rule, "high", figure.high, &DerivedParts::high);
    part(figure, rule, "most", figure.most, &DerivedParts::most);
  }

  using Part = std::optional<double> DerivedParts::*;

  void part(const Figure& figure, const Derivation& rule, std::string_view name,
            const std::optional<double>& typed, Part which) {
    const std::optional<double> expected = rule.work(full_, law_).*which;
    if (!typed || !expected) return;
    const double allowed = figure.step / 2 + rounding_of(rule, which, *expected);
    if (std::fabs(*typed - *expected) <= allowed * (1 + slip_share) + slip_share) return;
    const auto [is, wanted] = both(figure, *typed, *expected);
    add(figure, fmt::format("{}{} is {} (expected {}, from {})", figure.key,
                            name.empty() ? "" : fmt::format(": {}", name), is, wanted, rule.from));
  }

  void compare_range(const Figure& figure, const Derivation& rule, double expected) {
    const double slack = figure.step / 2;
    if (expected >= *figure.low - slack && expected <= *figure.high + slack) return;
    const auto [low, wanted] = both(figure, *figure.low, expected);
    add(figure,
        fmt::format("{} is {} to {} (expected {} within, from {})", figure.key, low,
                    print_in(*figure.high, figure.unit, decimals_of(figure)), wanted, rule.from));
  }

  // How far the rounding of derived inputs can move the expected value.
  double rounding_of(const Derivation& rule, Part which, double expected) const {
    double all = 0;
    for (const auto& [key, input] : family_.figures) {
      if (input.source != "derived" || input.step <= 0 || key == rule.key) continue;
      Family other = full_;
      other.figures[key] = shifted(input, input.step / 2);
      const std::optional<double> moved = rule.work(other, law_).*which;
      if (moved) all += std::fabs(*moved - expected);
    }
    return all;
  }

  void complain_of_source(const Figure& figure) {
    const Derivation* rule = find_derivation(figure.key);
    add(figure, rule == nullptr
                    ? fmt::format("{} is marked derived, and no rule derives it (expected given)",
                                  figure.key)
                    : fmt::format("{} is marked derived, and what it follows from is missing "
                                  "(expected {})",
                                  figure.key, rule->from));
  }

  void add(const Figure& figure, std::string text) {
    Problem problem;
    problem.kind = Kind::data;
    problem.place = figure.place;
    problem.text = std::move(text);
    problems_.push_back(std::move(problem));
  }

  const Family& family_;
  const Family full_;  ///< what is not given stands for itself, unrounded
  const LiftLaw* law_;
  Problems problems_;
};

std::optional<Problem> too_high(const Figure& depth, double expected_mm, double room_mm) {
  const double higher_mm = expected_mm - *depth.nominal();
  if (higher_mm <= room_mm + slip_share) return std::nullopt;
  Problem problem =
      make_problem(Kind::data,
                   "{} {} would put the plunger through the head: {} higher than the other figures "
                   "make it, with "
                   "{} of room (expected {}; set nothing by it)",
                   depth.key, print_in(*depth.nominal(), depth.unit, decimals_of(depth)),
                   print_in(higher_mm, depth.unit, decimals_of(depth)),
                   print_in(room_mm, depth.unit, decimals_of(depth)),
                   print_in(expected_mm, depth.unit, decimals_of(depth)));
  problem.place = depth.place;
  return problem;
}

}  // namespace

Problems contradictions(const Family& family, const LiftLaw* law) {
  return Comparer{family, law}.all();
}

std::optional<Problem> plunger_meets_head(const Family& family, const LiftLaw* law) {
  const auto room_mm = family.nominal("head-clearance");
  if (!room_mm) return std::nullopt;
  const Family full = completed(family, law);
  for (const char* key : {"lifter-depth", "lifter-depth-base"}) {
    const Figure* depth = family.figure(key);
    const auto expected_mm = derive(key, full, law).value;
    if (depth == nullptr || !depth->nominal() || !expected_mm) continue;
    if (auto problem = too_high(*depth, *expected_mm, *room_mm)) return problem;
  }
  return std::nullopt;
}

}  // namespace soot::calc
