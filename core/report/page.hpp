// The record of a job to print and keep: complaint, cause, correction, with every line of evidence
// in between, crossed-out ones with their reason.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct PageLine {
  long number = 0;
  std::string at;  ///< ISO 8601, UTC
  std::string text;
  bool is_struck = false;
  std::string reason;  ///< why it was struck
};

struct Page {
  long job = 0;
  std::string engine_name;  ///< its own; may be empty
  std::string family;
  std::string family_name;
  std::string served_by;  ///< "tabular 1.0, family version 1"
  std::string opened_at;
  bool is_open = true;
  std::string history;
  std::vector<PageLine> complaint;  ///< told and seen as complaint
  std::vector<PageLine> evidence;   ///< seen, gauged, skipped
  std::vector<PageLine> advice;     ///< ranked and proposed at the time
  std::vector<PageLine> correction;
  std::vector<PageLine> confirmation;
  std::vector<PageLine> other;      ///< notes, closing, reopening
  std::vector<std::string> causes;  ///< as closed, else as they stand now, likeliest first
  std::vector<std::string> left_open;
};

std::string to_text(const Page& page, const Look& look);

}  // namespace soot
