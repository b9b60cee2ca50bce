// What the planner proposed, cut to what a man at the engine would weigh.
#pragma once

#include "core/report/answers.hpp"

namespace soot {

/// A look that saves a trifle gives way to the best work if that will more likely than not mend
/// something: the verdict is then `correct`. Looking can be done after the work as well, so that
/// looking first saves at most the work that would be in vain. After the first proposal stay only
/// checks that save more than a trifle, each in its best form, and corrections with a tenth's
/// chance of mending something. A trifle: under 5 minutes; beside likely work also
/// under a twentieth of what the job will cost without looking.
void shorten(NextAnswer& answer, double cost_without_looking);

}  // namespace soot
