#include "core/knowledge/snapshot.hpp"

#include "core/knowledge/entry_archive.hpp"
#include "core/knowledge/knowledge_files.hpp"

#include <boost/crc.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cereal/archives/binary.hpp>
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
  fmt::format_to(std::back_inserter(stamp.text), "{} {} {} {}.{}\n", file.string(), state.st_ino,
                 state.st_size, state.st_ctim.tv_sec, state.st_ctim.tv_nsec);
  stamp.youngest = std::max(stamp.youngest, state.st_ctim.tv_sec);
  return true;
}

}  // namespace

std::optional<Stamp> stamp_of(const fs::path& folder) {
  std::error_code error;
  const std::vector<fs::path> files = knowledge_files(folder, error);
  if (error) return std::nullopt;
  Stamp stamp;
  if (!add_file(stamp, "/proc/self/exe")) return std::nullopt;
  for (const fs::path& file : files)
    if (!add_file(stamp, file)) return std::nullopt;
  return stamp;
}

std::optional<LoadedKnowledge> read_snapshot(const fs::path& file, const Stamp& stamp) {
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
    return loaded;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

void write_snapshot(const fs::path& file, const Stamp& stamp, const LoadedKnowledge& loaded) {
  std::ostringstream body;
  cereal::BinaryOutputArchive{body}(loaded);
  const std::string bytes = body.str();
  boost::crc_32_type body_sum;
  body_sum.process_bytes(bytes.data(), bytes.size());
  const Sum sum = sum_of(body_sum);
  std::error_code error;
  fs::create_directories(file.parent_path(), error);
  const fs::path beside = fmt::format("{}.{}", file.string(), getpid());
  std::ofstream out(beside, std::ios::binary);
  out << head << stamp.text;
  out.write(sum.data(), sum.size());
  out << bytes;
  out.close();
  if (out) fs::rename(beside, file, error);
  if (!out || error) fs::remove(beside, error);
}

}  // namespace soot
