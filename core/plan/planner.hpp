// The next move: least expected cost until the complaint's own run is right again, over checks,
// corrections, that run and giving the job away. Every move is valued by looking one step ahead and
// pricing what follows as a plan of corrections only; the best few again by two steps.
//
// Pure and repeatable: the same situation gives the same answer, bit for bit. Equal costs (to
// 1e-6) go to the run, then a check, a correction, handing over; among corrections to the lower
// order; then to the cheaper move, the one that changes fewer bits, the lower index.
#pragma once

#include "core/base/problem.hpp"
#include "core/plan/answer.hpp"
#include "core/plan/situation.hpp"

namespace soot::plan {

struct Options {
  /// Updates of the belief times its hypotheses that the second step may take; 0 = one step only.
  /// The unit does not depend on the machine; the figure keeps an answer well under 0.3 s.
  std::size_t work = 1'500'000;
  double stuck_share = 0.15;  ///< weight that both groups must have to be called stuck
  double stuck_risk = 30;     ///< cost of a wrong guess times its chance, above which it is dear
};

/// Fails (Kind::data) with faults_of(situation) if there are any.
///
/// If the run is not open nothing can be proved, and every job ends by being handed over: the
/// verdict is then hand_over. Whoever wants a run after a safety check gives that check as a bit
/// the run asks for.
Result<Answer> next_move(const Situation& situation, const Options& options = {});

}  // namespace soot::plan
