// Ranked causes, the weights of one, and the next move, in words for a terminal.
#pragma once

#include "core/report/answers.hpp"
#include "core/report/look.hpp"

#include <string>

namespace soot {

/// `shown`: how many causes at most; the rest is counted in one line.
std::string to_text(const RankAnswer& answer, const Look& look, std::size_t shown = 8);
std::string to_text(const WeighAnswer& answer, const Look& look);
std::string to_text(const NextAnswer& answer, const Look& look, std::size_t shown = 3);

}  // namespace soot
