#include "core/host/probe.hpp"

#include "core/host/plugin.hpp"
#include "core/host/plugin_text.hpp"
#include "core/host/seal.hpp"
#include "core/host/text_families.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <optional>
#include <sys/resource.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
#if defined(__SANITIZE_ADDRESS__)
constexpr bool keeps_memory = false;
#else
constexpr bool keeps_memory = true;
#endif

/// A file that stands for the standard streams.
class Streams {
 public:
  explicit Streams(int file) : file_(file) {}

  /// The beginning of what was written since the last look, made fit to print.
  std::optional<std::string> news() {
    if (file_ < 0) return std::nullopt;
    std::fflush(nullptr);
    struct stat now {};
    if (fstat(file_, &now) != 0 || now.st_size <= seen_) return std::nullopt;
    std::array<char, 40> start{};
    const ssize_t got = pread(file_, start.data(), start.size() - 1, seen_);
    seen_ = now.st_size;
    return got > 0 ? tidy(start.data()) : "";
  }

 private:
  int file_;
  off_t seen_ = 0;
};

class Probe {
 public:
  Probe(const Manifest& manifest, const std::vector<fs::path>& data_folders, int standard_output,
        const Say& say)
      : manifest_(manifest), data_(data_folders), streams_(standard_output), say_(say) {}

  std::vector<ServedFamily> run() {
    if (!check_seal()) return {};
    std::vector<ServedFamily> first = round(true);
    if (!refused_ && !manifest_.is_text()) {
      const std::vector<ServedFamily> second = round(false);
      if (!refused_ && differ(first, second))
        complain("answers differently when started again (expected the same families and laws)");
    }
    listen(doing_);
    return first;
  }

 private:
  void complain(const std::string& text, Severity severity = Severity::error) {
    tell({Kind::trouble, severity, Place{manifest_.main_file().string()}, text, ""});
  }
  void tell(const Problem& problem) {
    refused_ = refused_ || problem.severity == Severity::error;
    say_({Word::problem, "", "", problem});
  }
  void tell(const Problems& problems) {
    for (const Problem& problem : problems)
      tell(problem);
  }

  void step(const std::string& doing) {
    const std::string last = std::exchange(doing_, doing);
    listen(last);
    say_({Word::step, doing, "", {}});
  }
  void listen(const std::string& last) {
    if (const std::optional<std::string> news = streams_.news())
      complain(fmt::format("wrote to the standard streams in {} (\"{}\")", last, *news));
  }

  bool check_seal() {
    std::error_code ignored;
    const fs::path file = manifest_.folder / seal_name;
    if (!fs::exists(file, ignored)) return true;
    step(std::string("comparing with ") + seal_name);
    const Result<Seal> was = read_seal(file);
    const Result<Seal> is = take_seal(manifest_.folder);
    if (!was) tell(was.error());
    if (!is) tell(is.error());
    if (was && is)
      if (const std::string change = difference(*was, *is); !change.empty())
        complain(
            fmt::format("{} since it was built (expected it as {} has it)", change, seal_name));
    return !refused_;
  }

  /// The families; the first time it says who they are of, and tries the manners too.
  std::vector<ServedFamily> round(bool first) {
    Problems problems;
    if (manifest_.is_text()) {
      step("reading families/");
      say_({Word::named, manifest_.id, manifest_.version, {}});
      std::vector<ServedFamily> served = serve_text(manifest_, data_, problems);
      tell(problems);
      if (served.empty() && problems.empty())
        complain("has no families (expected families/NAME.toml beside plugin.toml)");
      return told(served);
    }
    const Result<std::unique_ptr<Plugin>> plugin =
        Plugin::start(manifest_, data_, [this](const std::string& doing) { step(doing); });
    if (!plugin) return none(plugin.error());
    if (first) say_({Word::named, (*plugin)->manifest().id, (*plugin)->manifest().version, {}});
    Result<std::vector<ServedFamily>> served = (*plugin)->serve(problems);
    if (first || !served) tell(problems);
    if (!served) return none(served.error());
    if (!first) return *served;
    tell((*plugin)->manners(*served));
    return told(*served);
  }

  std::vector<ServedFamily> none(const Problems& why) {
    tell(why);
    return {};
  }

  std::vector<ServedFamily> told(const std::vector<ServedFamily>& served) {
    std::vector<std::string> seen;
    for (const ServedFamily& family : served) {
      if (std::find(seen.begin(), seen.end(), family.id) != seen.end())
        complain(fmt::format("family {} is there twice (expected each id once)", family.id));
      seen.push_back(family.id);
      say_({Word::family, family.id, "", {}});
    }
    return served;
  }

  static bool differ(const std::vector<ServedFamily>& a, const std::vector<ServedFamily>& b) {
    return !std::equal(a.begin(), a.end(), b.begin(), b.end(),
                       [](const ServedFamily& x, const ServedFamily& y) {
                         if (x.id != y.id || x.tables != y.tables) return false;
                         if (!x.own_law || !y.own_law) return !x.own_law && !y.own_law;
                         for (double deg = -360; deg <= 120; deg += 0.5)
                           if (x.own_law->lift_mm(deg) != y.own_law->lift_mm(deg)) return false;
                         return true;
                       });
  }

  const Manifest& manifest_;
  const std::vector<fs::path>& data_;
  Streams streams_;
  const Say& say_;
  std::string doing_;
  bool refused_ = false;
};

void limit(int what, rlim_t soft, rlim_t hard) {
  const rlimit wanted{soft, hard};
  setrlimit(static_cast<__rlimit_resource_t>(what), &wanted);
}
}  // namespace

void keep_limits(const ProbeLimits& limits) {
  limit(RLIMIT_CORE, 0, 0);
  limit(RLIMIT_CPU, limits.seconds, limits.seconds + 1);
  constexpr rlim_t mb = 1'000'000;
  limit(RLIMIT_FSIZE, 64 * mb, 64 * mb);
  if (keeps_memory) limit(RLIMIT_AS, limits.memory_mb * mb, limits.memory_mb * mb);
}

Result<Manifest> plugin_at(const fs::path& path) {
  const auto trouble = [&](std::string text) {
    return tl::unexpected(
        Problems{{Kind::trouble, Severity::error, Place{path.string()}, std::move(text), ""}});
  };
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) return read_manifest(path.lexically_normal());
  if (!fs::exists(path, ignored))
    return trouble(fs::is_symlink(path, ignored) ? "leads nowhere (expected a plugin's folder)"
                                                 : "there is no such file");
  if (!fs::is_regular_file(path, ignored))
    return trouble("is no file (expected a plugin's folder)");
  const fs::path folder = fs::absolute(path).parent_path();
  if (path.filename() == "plugin.toml") return read_manifest(folder);
  if (fs::is_regular_file(folder / "plugin.toml", ignored)) {
    Result<Manifest> manifest = read_manifest(folder);
    if (!manifest || manifest->binary == path.filename()) return manifest;
  }
  Manifest bare;
  bare.abi = SOOT_ABI_MAJOR;
  bare.binary = path.filename().string();
  bare.folder = folder;
  return bare;
}

std::vector<ServedFamily> probe(const Manifest& manifest, const std::vector<fs::path>& data_folders,
                                int standard_output, const Say& say) {
  return Probe(manifest, data_folders, standard_output, say).run();
}

}  // namespace soot::host
