#include "tests/house/tree.hpp"

#include "tests/places.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace soot::test {
namespace {

namespace fs = std::filesystem;

bool is_left_out(const fs::path& top) {
  const std::string name = top.string();
  return name == ".git" || name.starts_with("build");
}

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<SourceFile> read_tree() {
  const fs::path root{source_dir()};
  std::vector<SourceFile> files;
  for (fs::recursive_directory_iterator walk(root), end; walk != end; ++walk) {
    const fs::path path = walk->path().lexically_relative(root);
    if (walk.depth() == 0 && is_left_out(path)) {
      walk.disable_recursion_pending();
    } else if (walk->is_regular_file()) {
      files.push_back({path.generic_string(), text_of(walk->path())});
    }
  }
  std::sort(files.begin(), files.end(),
            [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

}  // namespace

bool SourceFile::is_below(std::string_view folder) const {
  return path.starts_with(folder);
}

const std::vector<SourceFile>& source_tree() {
  static const std::vector<SourceFile> files = read_tree();
  return files;
}

std::vector<std::string> top_level() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(source_dir()))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    lines.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return lines;
}

}  // namespace soot::test
