// A file's bytes, up to a limit.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>

namespace soot {

/// At most `most` bytes and one more, which tells that there are more: a file of gigabytes is never
/// read whole. Nothing if it cannot be read.
std::optional<std::string> read_text(const std::filesystem::path& path, std::size_t most);

}  // namespace soot
