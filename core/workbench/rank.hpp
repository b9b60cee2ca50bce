// The causes of a job, ranked, and what speaks for and against one of them.
#pragma once

#include "core/report/answers.hpp"
#include "core/workbench/inquiry.hpp"

namespace soot {

enum class Fit { skip, judge };

/// Fit::judge also finds the piece of evidence least to be expected from the others, which asks the
/// network once more for each piece.
Result<RankAnswer> rank(const Engine& engine, const Inquiry& inquiry, Fit fit = Fit::skip);

/// `cylinder` 0 of a cylinder's cause: in any of them. Fails (Kind::use) on an unknown cause or
/// cylinder.
Result<WeighAnswer> weigh(const Engine& engine, const Inquiry& inquiry, const std::string& cause,
                          int cylinder);

}  // namespace soot
