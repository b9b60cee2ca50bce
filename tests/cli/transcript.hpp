// A conversation with the program as text: "$ command" lines, below each what it prints (standard
// output and error together), and "-> N" if it ends with another code than 0. A line of "..."
// stands for any number of lines, "#" in a line for digits that the knowledge decides and no test
// of words should. What a person reads in the README is the same text.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace soot::test {

struct Exchange {
  int line = 0;  ///< of the command in its file
  std::string command;
  std::vector<std::string> expected;
  int exit_code = 0;
};

std::vector<Exchange> read_transcript(const std::string& text, int first_line = 1);

struct Heard {
  std::vector<std::string> lines;
  int exit_code = 0;
};

/// A folder of its own with a fresh ledger and the program on the path; gone with the object.
class Bench {
 public:
  Bench();
  ~Bench();
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  /// Runs one shell command in the repository's root.
  Heard run(const std::string& command) const;
  const std::filesystem::path& folder() const { return folder_; }

 private:
  std::filesystem::path folder_;
};

bool matches(const std::vector<std::string>& expected, const std::vector<std::string>& heard);
std::string joined(const std::vector<std::string>& lines);
std::string read_file(const std::filesystem::path& path);

}  // namespace soot::test
