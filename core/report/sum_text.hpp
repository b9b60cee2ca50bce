// A worked sum in words, and as JSON in json.hpp.
#pragma once

#include "core/calc/sum.hpp"
#include "core/report/look.hpp"

#include <string>

namespace soot {

/// "29.41 mm +/- 0.05"; the uncertainty is U, k = 2.
std::string to_text(const calc::Amount& amount);
std::string to_text(const calc::Sum& sum, const Look& look);

}  // namespace soot
