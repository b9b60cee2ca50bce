// The words of `sootsayer knowledge ...`, beside options.cpp.
#pragma once

#include "core/cli/request.hpp"

#include <CLI/CLI.hpp>

#include <functional>
#include <string>

namespace soot::cli {

/// Adds one command below `parent`; `make` gives its request once the words are read.
using AddCommand =
    std::function<CLI::App*(CLI::App& parent, const std::string& name, const std::string& about,
                            const std::string& examples, std::function<Request()> make)>;

/// Lives as long as the apps: the words are read into it.
class KnowledgeWords {
 public:
  void add(CLI::App& knowledge, const AddCommand& add_command);

 private:
  KnowledgeList list_;
  KnowledgeShow show_;
  KnowledgeFind find_;
  KnowledgeCheck check_;
};

}  // namespace soot::cli
