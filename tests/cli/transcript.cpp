#include "tests/cli/transcript.hpp"

#include "tests/places.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace soot::test {
namespace fs = std::filesystem;

std::vector<Exchange> read_transcript(const std::string& text, int first_line) {
  std::vector<Exchange> out;
  std::istringstream lines(text);
  std::string line;
  for (int number = first_line; std::getline(lines, line); ++number) {
    if (line.rfind("$ ", 0) == 0) {
      out.push_back({number, line.substr(2), {}, 0});
    } else if (line.rfind("-> ", 0) == 0 && !out.empty()) {
      out.back().exit_code = std::atoi(line.c_str() + 3);
    } else if (!out.empty()) {
      out.back().expected.push_back(line);
    }
  }
  for (Exchange& exchange : out)
    while (!exchange.expected.empty() && exchange.expected.back().empty())
      exchange.expected.pop_back();
  return out;
}

Bench::Bench() {
  std::string name = (fs::temp_directory_path() / "sootsayer-test-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) std::abort();
  folder_ = name;
  fs::create_directory_symlink(fs::path{source_dir()} / "knowledge", folder_ / "knowledge");
  fs::create_directory_symlink(fs::path{source_dir()} / "cases", folder_ / "cases");
  fs::create_directory_symlink(fs::path{binary_dir()} / "plugins", folder_ / "plugins");
}

Bench::~Bench() {
  std::error_code error;
  fs::remove_all(folder_, error);
}

Heard Bench::run(const std::string& command) const {
  const std::string f = folder_.string();
  const std::string whole = "cd '" + source_dir() + "' && HOME='" + f + "' XDG_DATA_HOME='" + f +
                            "/data' XDG_CACHE_HOME='" + f + "/cache' SOOTSAYER_HOME='" + f +
                            "' SOOTSAYER_LEDGER='" + f + "/ledger.sqlite' BENCH='" + f +
                            "' LC_ALL=C NO_COLOR=1 PATH='" + binary_dir() +
                            "':\"$PATH\"; export HOME XDG_DATA_HOME XDG_CACHE_HOME SOOTSAYER_HOME "
                            "SOOTSAYER_LEDGER BENCH LC_ALL NO_COLOR PATH; { " +
                            command + "\n} 2>&1 </dev/null";
  Heard heard;
  std::FILE* pipe = popen(whole.c_str(), "r");
  if (pipe == nullptr) std::abort();
  std::string text;
  char buffer[4096];
  for (std::size_t got = 0; (got = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
    text.append(buffer, got);
  const int status = pclose(pipe);
  heard.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    heard.lines.push_back(line);
  while (!heard.lines.empty() && heard.lines.back().empty())
    heard.lines.pop_back();
  return heard;
}

namespace {

// As written, but for "#", which stands for digits.
bool is_like(const std::string& expected, const std::string& heard) {
  std::size_t at = 0;
  for (const char c : expected) {
    if (c != '#') {
      if (at >= heard.size() || heard[at++] != c) return false;
      continue;
    }
    const std::size_t first = at;
    while (at < heard.size() && heard[at] >= '0' && heard[at] <= '9')
      ++at;
    if (at == first) return false;
  }
  return at == heard.size();
}

}  // namespace

bool matches(const std::vector<std::string>& expected, const std::vector<std::string>& heard) {
  // reached[j]: the first i lines expected can be the first j lines heard.
  std::vector<bool> reached(heard.size() + 1, false);
  reached[0] = true;
  for (const std::string& line : expected) {
    std::vector<bool> next(heard.size() + 1, false);
    for (std::size_t j = 0; j <= heard.size(); ++j) {
      if (line == "...") {
        next[j] = reached[j] || (j > 0 && next[j - 1]);
      } else {
        next[j] = j > 0 && reached[j - 1] && is_like(line, heard[j - 1]);
      }
    }
    reached = std::move(next);
  }
  return reached[heard.size()];
}

std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines)
    out += line + "\n";
  return out;
}

std::string read_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace soot::test
