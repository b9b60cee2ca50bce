#include "tests/house/layers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string_view>

namespace soot::test {
namespace {

using Folders = std::vector<std::string_view>;

// A folder of core may include itself and what stands here.
const std::map<std::string_view, Folders, std::less<>> allowed{
    {"sdk", {}},
    {"base", {}},
    {"table", {"base"}},
    {"model", {"base"}},
    {"knowledge", {"base", "table", "model"}},
    {"infer", {"base"}},
    {"plan", {"base"}},
    {"calc", {"base", "model"}},
    {"host", {"base", "table", "model", "calc", "sdk"}},
    {"ledger", {"base", "model"}},
    {"report", {"base", "model", "infer", "plan", "calc"}},
    {"workbench",
     {"sdk", "base", "table", "model", "knowledge", "infer", "plan", "calc", "host", "ledger",
      "report"}},
    {"guide", {"base", "model", "knowledge", "infer", "calc", "report", "workbench"}},
    {"cli",
     {"sdk", "base", "table", "model", "knowledge", "infer", "plan", "calc", "host", "ledger",
      "report", "workbench", "guide"}},
};

struct Keeper {
  std::string_view header;  // how the library's headers begin
  std::string_view below;   // the one place that may know it
};

constexpr std::array keepers{Keeper{"toml++/", "core/table/"}, Keeper{"boost/dll", "core/host/"},
                             Keeper{"SQLiteCpp/", "core/ledger/"},
                             Keeper{"sqlite3", "core/ledger/"}, Keeper{"CLI/", "core/cli/options"}};

bool is_source(const SourceFile& file) {
  constexpr std::string_view endings[] = {".cpp", ".hpp", ".c", ".h", ".hpp.in"};
  return std::any_of(std::begin(endings), std::end(endings),
                     [&](std::string_view ending) { return file.ends_with(ending); });
}

// "core/infer/answer.hpp" is in "infer"; nothing for a path that is not in a folder of core.
std::string_view folder_of(std::string_view path) {
  constexpr std::string_view core = "core/";
  if (!path.starts_with(core)) return {};
  path.remove_prefix(core.size());
  const std::size_t slash = path.find('/');
  return slash == std::string_view::npos ? std::string_view{} : path.substr(0, slash);
}

struct Include {
  std::string name;
  bool is_quoted = false;
};

std::optional<Include> include_of(std::string_view line) {
  constexpr std::string_view blanks = " \t";
  const auto skip = [&] {
    line.remove_prefix(std::min(line.find_first_not_of(blanks), line.size()));
  };
  skip();
  if (!line.starts_with('#')) return std::nullopt;
  line.remove_prefix(1);
  skip();
  if (!line.starts_with("include")) return std::nullopt;
  line.remove_prefix(7);
  skip();
  if (line.empty() || (line.front() != '"' && line.front() != '<')) return std::nullopt;
  const bool is_quoted = line.front() == '"';
  line.remove_prefix(1);
  return Include{std::string{line.substr(0, line.find(is_quoted ? '"' : '>'))}, is_quoted};
}

class Judge {
 public:
  explicit Judge(const SourceFile& file) : file_(file) {}

  std::vector<std::string> judge() {
    const std::string_view own = folder_of(file_.path);
    const bool is_core = file_.is_below("core/");
    if (!is_core && !file_.is_below("plugins/") && !file_.is_below("tests/"))
      add("is under no rule");
    if (is_core && !allowed.contains(own)) add("is under no rule");
    if (!out_.empty() || file_.is_below("tests/")) return std::move(out_);
    for (const std::string& line : lines_of(file_.text))
      if (const std::optional<Include> include = include_of(line))
        is_core ? judge_core(own, *include) : judge_plugin(*include);
    return std::move(out_);
  }

 private:
  void add(const std::string& words) { out_.push_back(file_.path + " " + words); }

  void judge_core(std::string_view own, const Include& include) {
    for (const Keeper& keeper : keepers)
      if (include.name.starts_with(keeper.header) && !file_.is_below(keeper.below))
        add(fmt::format("includes {}, which belongs to {}", include.name, keeper.below));
    const bool is_sdk = include.name.starts_with("sootsayer/");
    if (!include.is_quoted && !is_sdk) return;
    const std::string_view to = is_sdk ? "sdk" : folder_of(include.name);
    if (to.empty()) {
      add(fmt::format("includes {}, which is not written from the root", include.name));
      return;
    }
    const Folders& below = allowed.find(own)->second;
    if (to != own && std::find(below.begin(), below.end(), to) == below.end())
      add(fmt::format("includes {}: {} may not know {}", include.name, own, to));
  }

  void judge_plugin(const Include& include) {
    if (include.name.starts_with("core/") || include.name.starts_with("tests/"))
      add(fmt::format("includes {}: a plugin knows <sootsayer/...> only", include.name));
  }

  const SourceFile& file_;
  std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> against_the_layers(const std::vector<SourceFile>& files) {
  std::vector<std::string> out;
  for (const SourceFile& file : files) {
    if (!is_source(file)) continue;
    const std::vector<std::string> found = Judge{file}.judge();
    out.insert(out.end(), found.begin(), found.end());
  }
  return out;
}

}  // namespace soot::test
