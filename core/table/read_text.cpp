#include "core/table/read_text.hpp"

#include <algorithm>
#include <fstream>

namespace soot {

std::optional<std::string> read_text(const std::filesystem::path& path, std::size_t most) {
  constexpr std::size_t piece = 16 * 1024;  // most files are smaller: no more is made ready
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  std::string text;
  while (file && text.size() <= most) {
    const std::size_t had = text.size();
    text.resize(std::min(had + piece, most + 1));
    file.read(text.data() + had, static_cast<std::streamsize>(text.size() - had));
    text.resize(had + static_cast<std::size_t>(file.gcount()));
  }
  if (!file && !file.eof()) return std::nullopt;
  return text;
}

}  // namespace soot
