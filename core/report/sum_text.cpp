#include "core/report/sum_text.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace soot {
namespace {

constexpr int most_sum_decimals = 6;

void add_lines(std::string_view first, const std::vector<std::string>& lines, const Look& look,
               std::string& out) {
  const std::string indent(width_of(first), ' ');
  for (std::size_t i = 0; i < lines.size(); ++i)
    out += fold(lines[i], look.width, i == 0 ? first : indent, indent) + "\n";
}

std::string named(const calc::Amount& amount) {
  return amount.cylinder == 0 ? amount.name
                              : fmt::format("{}, cylinder {}", amount.name, amount.cylinder);
}

// "early 0.1 deg" for "late -0.1 deg": nobody at the engine thinks in negative lateness.
std::string said(const calc::Amount& result, std::string_view after_name) {
  constexpr std::pair<std::string_view, std::string_view> opposites[] = {{"late", "early"},
                                                                         {"raise", "lower"}};
  calc::Amount amount = result;
  for (const auto& [name, opposite] : opposites)
    if (result.name == name && result.value < 0) {
      amount.name = opposite;
      amount.value = -result.value;
    }
  return fmt::format("{}{} {}", amount.name, after_name, to_text(amount));
}

// What belongs to one cylinder stands together.
void add_results(const std::vector<calc::Amount>& results, const Look& look, std::string& out) {
  std::vector<int> written;
  for (const calc::Amount& result : results) {
    std::string line = said(result, ":");
    if (result.cylinder != 0) {
      if (std::find(written.begin(), written.end(), result.cylinder) != written.end()) continue;
      written.push_back(result.cylinder);
      std::vector<std::string> own;
      for (const calc::Amount& other : results)
        if (other.cylinder == result.cylinder) own.push_back(said(other, ""));
      line = fmt::format("cylinder {}: {}", result.cylinder, fmt::join(own, "; "));
    }
    out += fold(line, look.width, "Result:  ", "         ") + "\n";
  }
}

}  // namespace

std::string to_text(const calc::Amount& amount) {
  if (!amount.expanded) return print_in(amount.value, amount.unit, amount.decimals);
  // An uncertainty is never printed as 0.
  const double expanded = *amount.expanded / amount.unit.factor;
  int decimals = amount.decimals;
  while (decimals < most_sum_decimals && expanded > 0 && expanded < 0.5 * std::pow(10, -decimals))
    ++decimals;
  return fmt::format("{} +/- {:.{}f}", print_in(amount.value, amount.unit, decimals), expanded,
                     decimals);
}

std::string to_text(const calc::Sum& sum, const Look& look) {
  std::string out = strong(look, sum.title) + "\n\n";
  add_lines("Rule:    ", sum.formula, look, out);
  for (const calc::Amount& input : sum.inputs)
    out += fold(fmt::format("{} = {} ({})", named(input), to_text(input), input.from), look.width,
                "Put in:  ", "         ") +
           "\n";
  if (!sum.lines.empty()) out += "\n";
  add_lines("         ", sum.lines, look, out);
  out += "\n";
  add_results(sum.results, look, out);
  if (!sum.answer.empty()) out += "\n";
  for (const std::string& line : sum.answer)
    out += fold(line, look.width) + "\n";
  for (const std::string& caution : sum.cautions)
    out += fold(caution, look.width, "CAUTION: ", "         ") + "\n";
  out += "\n";
  add_lines("Taken:   ", sum.assumptions, look, out);
  out += fold(sum.source, look.width, "Source:  ", "         ") + "\n";
  const bool has_uncertainty =
      std::any_of(sum.results.begin(), sum.results.end(),
                  [](const calc::Amount& result) { return result.expanded.has_value(); });
  if (has_uncertainty) out += "+/- is U with k = 2: it holds about nineteen times in twenty.\n";
  return plain(look, out);
}

}  // namespace soot
