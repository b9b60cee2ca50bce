// Evidence by index, in words.
#pragma once

#include "core/report/answers.hpp"
#include "core/workbench/inquiry.hpp"

namespace soot {

EvidenceName name_finding(const Inquiry& inquiry, std::size_t finding);
EvidenceName name_reading(const Inquiry& inquiry, std::size_t reading);

}  // namespace soot
