// The list of jobs in the ledger.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct JobLine {
  long number = 0;
  std::string family;
  std::string engine;
  std::string opened_at;
  std::string last_at;
  bool is_open = true;
  bool is_current = false;
  long lines = 0;
  std::string words;  ///< the complaint in the owner's words; may be empty
};

std::string to_text(const std::vector<JobLine>& jobs, const Look& look);

}  // namespace soot
