// The same answers as JSON, for other programs. The shapes are a contract: keys may be added, those
// that are there stay. Each names its own version in "format".
#pragma once

#include "core/calc/sum.hpp"
#include "core/report/answers.hpp"
#include "core/report/cases.hpp"
#include "core/report/jobs_text.hpp"

#include <string>

namespace soot {

std::string to_json(const RankAnswer& answer);
std::string to_json(const WeighAnswer& answer);
std::string to_json(const NextAnswer& answer);
std::string to_json(const calc::Sum& sum);
std::string to_json(const std::vector<JobLine>& jobs);
std::string to_json(const std::vector<CaseTitle>& titles);
std::string to_json(const CaseReport& report);

}  // namespace soot
