// Which files a folder of knowledge is made of.
#pragma once

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <vector>

namespace soot {

/// Every *.toml below the folder, in the order of their paths; not whole where `error` is set.
inline std::vector<std::filesystem::path> knowledge_files(const std::filesystem::path& folder,
                                                          std::error_code& error) {
  std::vector<std::filesystem::path> files;
  std::filesystem::recursive_directory_iterator walk(folder, error), end;
  for (; !error && walk != end; walk.increment(error))
    if (walk->path().extension() == ".toml") files.push_back(walk->path());
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace soot
