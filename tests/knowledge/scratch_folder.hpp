// A small folder of knowledge of its own for one test: good as it is made, to be spoilt.
#pragma once

#include "core/knowledge/loader.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace soot::test {

inline const std::string scale_text = R"([strength]
often = 0.6
seldom = 0.12
[common]
everyday = 0.1
rare = 0.002
[after]
more = 2
never = 0
[cure]
certain = 0.98
[history]
just-rebuilt = 0.2
just-serviced = 0.2
long-service = 0.2
long-storage = 0.2
ordinary = 0.2
)";

/// The five terms of the geometry, one of everything else.
inline const std::string frame_text = R"([[term]]
id = "drive-late"
name = "drive late"
unit = "deg"
source = "practice"
[[term]]
id = "lifter-low"
name = "lifter low"
unit = "mm"
source = "practice"
[[term]]
id = "lobe-worn"
name = "lobe worn"
unit = "mm"
source = "practice"
[[term]]
id = "plunger-short"
name = "plunger short"
unit = "mm"
source = "practice"
[[term]]
id = "mark-late"
name = "mark late"
unit = "deg"
source = "practice"
[[symptom]]
id = "hard-start"
name = "hard to start"
ask = "Is it hard to start?"
leak = "seldom"
source = "practice"
[[quantity]]
id = "depth"
name = "depth of the lifter"
scope = "cylinder"
unit = "mm"
instrument = "0.02 mm"
range = ["10 mm", "80 mm"]
source = "practice"
[[quantity]]
id = "supply"
name = "supply pressure"
unit = "bar"
instrument = "0.1 bar"
range = ["0 bar", "5 bar"]
source = "practice"
[[correction]]
id = "lifter-set"
name = "set the lifter"
scope = "cylinder"
mends = [ { cause = "lifter-one", cure = "certain" } ]
each = 20
source = "practice"
[[source]]
key = "BOOK-31"
citation = "An invented book, 1931"
[[check]]
id = "depth-gauge"
name = "measure the depth"
tells = "whether a lifter is set wrong"
each = 10
reads = ["depth"]
source = "practice"
)";

inline const std::string cause_text = R"([[cause]]
id = "lifter-one"
name = "lifter set wrong"
system = "pump"
scope = "cylinder"
about = "one lifter is too low or too high"
common = "rare"
grades = [ { id = "late", share = 0.5 }, { id = "early", share = 0.5 } ]
corrections = ["lifter-set"]
source = "practice"
[[cause.symptom]]
id = "hard-start"
how = { late = "often" }
[[cause.effect]]
on = "lifter-low"
size = { late = "0.2 mm", early = "-0.2 mm" }
sd = "0.05 mm"
)";

class ScratchFolder {
 public:
  ScratchFolder() {
    std::string pattern =
        (std::filesystem::temp_directory_path() / "knowledge-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = pattern;
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  /// The three good files.
  void fill() const {
    write("scale.toml", scale_text);
    write("frame.toml", frame_text);
    write("causes.toml", cause_text);
  }

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
  }

  const std::filesystem::path& path() const { return path_; }

  /// What loading says, one problem a line, without excerpts and without this folder's name (FOLDER
  /// where it stands alone); "" if it loads.
  std::string complaints() const {
    const Result<LoadedKnowledge> loaded = load_knowledge(path_);
    if (loaded) return "";
    std::string out;
    for (Problem problem : loaded.error()) {
      problem.excerpt.clear();
      std::string line = to_string(problem);
      if (problem.place.file == path_.string()) line.replace(0, path_.string().size(), "FOLDER");
      for (std::size_t at = line.find(path_.string()); at != std::string::npos;
           at = line.find(path_.string()))
        line.replace(at, path_.string().size() + 1, "");
      out += line + "\n";
    }
    return out;
  }

 private:
  std::filesystem::path path_;
};

/// `text` with the first `from` replaced; the test is broken if it is not there.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in the text: " + from);
  return text.replace(at, from.size(), to);
}

}  // namespace soot::test
