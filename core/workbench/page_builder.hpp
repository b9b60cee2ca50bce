// A job's record as the page to print.
#pragma once

#include "core/ledger/entry.hpp"
#include "core/ledger/header.hpp"
#include "core/report/answers.hpp"
#include "core/report/page.hpp"
#include "core/workbench/engine.hpp"

#include <vector>

namespace soot {

/// One line of the record in words.
std::string words_of(const ledger::Payload& payload);

/// `rank` and `engine` may be null: a page can be printed of a job whose family is gone.
Page build_page(const ledger::Header& header, const std::vector<ledger::Entry>& entries,
                const Engine* engine, const RankAnswer* rank);

}  // namespace soot
