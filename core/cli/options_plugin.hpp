// The words of `sootsayer plugin ...`, beside options.cpp, which has all others.
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
class PluginWords {
 public:
  void add(CLI::App& plugin, const AddCommand& add_command);

 private:
  PluginList list_;
  PluginCheck check_;
  PluginAdd add_;
  PluginRemove remove_;
  PluginNew new_;
  PluginProbe probe_;
};

}  // namespace soot::cli
