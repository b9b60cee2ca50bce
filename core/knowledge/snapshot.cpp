#include "core/knowledge/snapshot.hpp"

#include "core/base/build_id.hpp"
#include "core/knowledge/entry_archive.hpp"
#include "core/knowledge/knowledge_files.hpp"

#include <boost/crc.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cereal/archives/binary.hpp>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <sstream>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>
#include <vector>

namespace soot {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view head = "sootsayer: knowledge as it was read\n";

constexpr std::size_t piece_size = 64 * 1024;  // read at a time

using Sum = std::array<char, sizeof(std::uint32_t)>;

Sum sum_of(const boost::crc_32_type& sum) {
  return std::bit_cast<Sum>(static_cast<std::uint32_t>(sum.checksum()));
}

// Before anything of it is believed: a damaged length could ask for all the memory there is.
Sum sum_to_end(std::istream& in) {
  boost::crc_32_type sum;
  std::array<char, piece_size> piece;
  while (in) {
    in.read(piece.data(), piece.size());
    sum.process_bytes(piece.data(), static_cast<std::size_t>(in.gcount()));
  }
  return sum_of(sum);
}

bool has_head(std::istream& in, const Stamp& stamp) {
  const std::string wanted = std::string{head} + stamp.text;
  std::string found(wanted.size(), '\0');
  in.read(found.data(), static_cast<std::streamsize>(found.size()));
  return in && found == wanted;
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
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return std::nullopt;
  std::array<char, piece_size> buffer;
  std::ifstream in;
  in.rdbuf()->pubsetbuf(buffer.data(), buffer.size());
  in.open(file, std::ios::binary);
  if (!has_head(in, stamp)) return std::nullopt;
  Sum sum{};
  in.read(sum.data(), sum.size());
  const std::istream::pos_type body = in.tellg();
  if (!in || sum != sum_to_end(in)) return std::nullopt;
  in.clear();
  in.seekg(body);
  try {
    LoadedKnowledge loaded;
    cereal::BinaryInputArchive{in}(loaded);
    if (in.peek() != std::ifstream::traits_type::eof()) return std::nullopt;
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
  boost::crc_32_type body_sum;
  body_sum.process_bytes(bytes.data(), bytes.size());
  const Sum sum = sum_of(body_sum);
  const fs::path beside = new_file_beside(file);
  if (beside.empty()) return;
  std::ofstream out(beside, std::ios::binary);
  out << head << stamp.text;
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
