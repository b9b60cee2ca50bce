#include "core/workbench/short_list.hpp"

#include <algorithm>

namespace soot {
namespace {

// Judgement. The expected costs are those of plans that end in handing over what two steps do not
// find, so that differences of a few parts in a hundred say little.
constexpr double trifle_minutes = 5;
constexpr double trifle_share = 0.05;
constexpr double likely = 0.5;
constexpr double worth_naming = 0.1;

using LineKind = ProposalLine::Kind;

}  // namespace

void shorten(NextAnswer& answer, double cost_without_looking) {
  std::vector<ProposalLine>& lines = answer.proposals;
  if (lines.empty()) return;
  const auto work = std::find_if(lines.begin(), lines.end(), [](const ProposalLine& line) {
    return line.kind == LineKind::correction;
  });
  const bool is_likely = work != lines.end() && work->mends >= likely;
  const double in_vain = is_likely ? (1 - work->mends) * work->price : cost_without_looking;
  const double trifle =
      is_likely ? std::max(trifle_minutes, trifle_share * cost_without_looking) : trifle_minutes;
  const auto is_trifle = [=](const ProposalLine& line) {
    return line.kind == LineKind::check &&
           std::min(line.saving_over_not_looking, in_vain - line.price) < trifle;
  };
  if (is_likely && is_trifle(lines.front())) {
    std::rotate(lines.begin(), work, work + 1);
    answer.verdict = Verdict::correct;
  }
  std::vector<ProposalLine> kept;
  for (ProposalLine& line : lines) {
    const bool is_said = line.kind == LineKind::check &&
                         std::any_of(kept.begin(), kept.end(),
                                     [&](const ProposalLine& said) { return said.id == line.id; });
    const bool counts =
        line.kind == LineKind::check ? !is_trifle(line) : line.mends >= worth_naming;
    if (kept.empty() || (counts && !is_said)) kept.push_back(std::move(line));
  }
  lines = std::move(kept);
}

}  // namespace soot
