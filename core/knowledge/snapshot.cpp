#include "core/knowledge/snapshot.hpp"

#include "core/base/build_id.hpp"
#include "core/knowledge/entry_archive.hpp"
#include "core/knowledge/knowledge_files.hpp"

#include <boost/interprocess/streams/bufferstream.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cereal/archives/binary.hpp>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <functional>
#include <optional>
#include <sstream>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>
#include <vector>

namespace soot {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view head = "sootsayer: knowledge as it was read\n";

constexpr std::uintmax_t most_bytes = std::uintmax_t{1} << 28;  // a hundred times what ships

/// Another library's hash may be another number: then the files are read again.
using Sum = std::array<char, sizeof(std::size_t)>;

Sum sum_of(std::string_view body) {
  return std::bit_cast<Sum>(std::hash<std::string_view>{}(body));
}

std::string head_for(const Stamp& stamp) {
  return std::string{head} + stamp.text;
}

std::optional<std::string> bytes_of(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return std::nullopt;
  const std::uintmax_t size = fs::file_size(file, error);
  if (error || size > most_bytes) return std::nullopt;
  std::string bytes(static_cast<std::size_t>(size), '\0');
  std::ifstream in(file, std::ios::binary);
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!in) return std::nullopt;
  return bytes;
}

/// What follows the head and the sum, if these are right. Looked at before anything of it is
/// believed: a damaged length could ask for all the memory there is.
std::optional<std::string_view> body_of(std::string_view bytes, const Stamp& stamp) {
  const std::string wanted = head_for(stamp);
  if (!bytes.starts_with(wanted)) return std::nullopt;
  bytes.remove_prefix(wanted.size());
  Sum sum{};
  if (bytes.size() < sum.size()) return std::nullopt;
  bytes.copy(sum.data(), sum.size());
  bytes.remove_prefix(sum.size());
  if (sum != sum_of(bytes)) return std::nullopt;
  return bytes;
}

bool add_file(Stamp& stamp, const fs::path& file) {
  struct stat state {};
  if (stat(file.c_str(), &state) != 0) return false;
  fmt::format_to(std::back_inserter(stamp.text), "{} {} {} {} {}.{} {}.{}\n", file.string(),
                 state.st_dev, state.st_ino, state.st_size, state.st_mtim.tv_sec,
                 state.st_mtim.tv_nsec, state.st_ctim.tv_sec, state.st_ctim.tv_nsec);
  stamp.youngest = std::max({stamp.youngest, state.st_mtim.tv_sec, state.st_ctim.tv_sec});
  return true;
}

/// A new file beside `file`, empty, this user's alone; its name is empty if there can be none.
fs::path new_file_beside(const fs::path& file) {
  std::error_code error;
  if (fs::create_directories(file.parent_path(), error))
    fs::permissions(file.parent_path(), fs::perms::owner_all, error);
  std::string name = file.string() + ".XXXXXX";
  const int descriptor = mkstemp(name.data());
  if (descriptor < 0) return {};
  close(descriptor);
  return name;
}

}  // namespace

std::optional<Stamp> stamp_of(const fs::path& folder) {
  std::error_code error;
  const std::vector<fs::path> files = knowledge_files(folder, error);
  if (error) return std::nullopt;
  Stamp stamp{build_id() + "\n", 0};
  if (stamp.text == "\n") return std::nullopt;
  for (const fs::path& file : files)
    if (!add_file(stamp, file)) return std::nullopt;
  return stamp;
}

std::optional<LoadedKnowledge> read_snapshot(const fs::path& file, const Stamp& stamp) {
  const std::optional<std::string> bytes = bytes_of(file);
  if (!bytes) return std::nullopt;
  const std::optional<std::string_view> body = body_of(*bytes, stamp);
  if (!body) return std::nullopt;
  boost::interprocess::ibufferstream in(body->data(), body->size());
  try {
    LoadedKnowledge loaded;
    cereal::BinaryInputArchive{in}(loaded);
    if (in.peek() != std::istream::traits_type::eof()) return std::nullopt;
    return loaded;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

void write_snapshot(const fs::path& file, const Stamp& stamp, const LoadedKnowledge& loaded) {
  std::ostringstream body;
  try {
    cereal::BinaryOutputArchive{body}(loaded);
  } catch (const std::exception&) {
    return;
  }
  const std::string bytes = body.str();
  const Sum sum = sum_of(bytes);
  const fs::path beside = new_file_beside(file);
  if (beside.empty()) return;
  std::ofstream out(beside, std::ios::binary);
  out << head_for(stamp);
  out.write(sum.data(), sum.size());
  out << bytes;
  out.close();
  std::error_code error;
  if (out) fs::rename(beside, file, error);
  if (!out || error) fs::remove(beside, error);
}

Result<LoadedKnowledge> by_snapshot(const fs::path& folder, const fs::path& file, std::time_t now,
                                    const ReadKnowledge& read) {
  // Asked of the files before they are read: what is changed meanwhile then counts as changed.
  const std::optional<Stamp> stamp = stamp_of(folder);
  if (stamp)
    if (std::optional<LoadedKnowledge> kept = read_snapshot(file, *stamp)) return std::move(*kept);
  Result<LoadedKnowledge> loaded = read(folder);
  if (loaded && stamp && stamp->is_settled(now)) write_snapshot(file, *stamp, *loaded);
  return loaded;
}

}  // namespace soot
