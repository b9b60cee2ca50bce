#include "core/report/sum_text.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

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

// What belongs to one cylinder stands together.
void add_results(const std::vector<calc::Amount>& results, const Look& look, std::string& out) {
  std::vector<int> written;
  for (const calc::Amount& result : results) {
    std::string line = fmt::format("{}: {}", result.name, to_text(result));
    if (result.cylinder != 0) {
      if (std::find(written.begin(), written.end(), result.cylinder) != written.end()) continue;
      written.push_back(result.cylinder);
      std::vector<std::string> own;
      for (const calc::Amount& other : results)
        if (other.cylinder == result.cylinder)
          own.push_back(fmt::format("{} {}", other.name, to_text(other)));
      line = fmt::format("cylinder {}: {}", result.cylinder, fmt::join(own, "; "));
    }
    out += fold(line, look.width, "Result:  ", "         ") + "\n";
  }
}

}  // namespace

std::string to_text(const calc::Amount& amount) {
  std::string out = print_in(amount.value, amount.unit, amount.decimals);
  if (amount.expanded)
    out += fmt::format(" +/- {:.{}f}", *amount.expanded / amount.unit.factor, amount.decimals);
  return out;
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
