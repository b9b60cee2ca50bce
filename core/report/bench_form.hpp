// A blank to write on at the engine, 80 columns: what is known printed, what is to be read left
// open, a line for each cylinder in the order in which it is done.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct BenchForm {
  struct Column {
    std::string head;
    std::size_t width = 6;
  };
  struct Round {
    std::string title;
    std::vector<Column> columns;
  };
  /// One quantity, or one that is set.
  struct Table {
    std::string title;
    std::vector<Round> rounds;
    std::vector<std::string> rows;  ///< "1 at 0 deg"; of the engine's own quantity one, "engine"
  };

  std::string title;
  std::string family;
  std::vector<std::string> known;     ///< figures and rules
  std::vector<std::string> cautions;  ///< before anything is touched
  std::vector<Table> tables;
  std::vector<std::string> questions;  ///< of findings: yes, no or unsure
};

std::string to_text(const BenchForm& form, const Look& look);

}  // namespace soot
