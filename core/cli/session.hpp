// What every command works with, made when first asked for: the bench, the ledger, the job that is
// meant.
#pragma once

#include "core/base/clock.hpp"
#include "core/cli/request.hpp"
#include "core/cli/terminal.hpp"
#include "core/ledger/ledger.hpp"
#include "core/workbench/bench.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace soot::cli {

/// Where the ledger, the knowledge and the plugins are, from the environment and the program's own
/// place on disk.
struct Surroundings {
  std::filesystem::path ledger;
  std::filesystem::path templates;  ///< of plugins
  Places places;
};

using Environment = std::function<std::optional<std::string>(const char*)>;

/// `program`: the program's own file. Knowledge, cases and plugins stand in the folder named by
/// SOOTSAYER_HOME, else beside the build folder (a checkout), else below ../share/sootsayer (an
/// installed tree). The ledger is $SOOTSAYER_LEDGER, else sootsayer/ledger.sqlite in the user's
/// data folder. Plugins of others are looked for in SOOTSAYER_PLUGIN_PATH and the user's data
/// folder. The knowledge is kept for the next start in his cache folder, if he has one.
Surroundings find_surroundings(const std::filesystem::path& program,
                               const Environment& environment);

/// A job of the ledger with the engine it is on.
struct Meant {
  ledger::Header header;
  std::vector<ledger::Entry> entries;
  Job job;
  Engine engine;
};

class Session {
 public:
  Session(Surroundings surroundings, Terminal terminal, Clock clock)
      : surroundings_(std::move(surroundings)),
        terminal_(std::move(terminal)),
        clock_(std::move(clock)) {}

  const Terminal& terminal() const { return terminal_; }
  const Surroundings& surroundings() const { return surroundings_; }
  const Look& look() const { return terminal_.look; }

  /// Loads on first use and names what was hidden, once, in the talk; troubles of the file `but`
  /// are left to whoever asks about it.
  Result<const Bench*> bench(const std::filesystem::path& but = {});
  /// The same, of the files as they are now, whatever was kept of them; before any bench().
  Result<const Bench*> bench_from_files();
  /// Only `open` makes a ledger where there is none.
  enum class Missing { refuse, make };
  Result<ledger::Ledger*> ledger(ledger::Mode mode, Missing missing = Missing::refuse);
  /// The job's number: as asked, else the current one.
  Result<long> job_number(std::optional<long> asked);
  Result<Meant> meant(std::optional<long> asked);

 private:
  Surroundings surroundings_;
  Terminal terminal_;
  Clock clock_;
  std::unique_ptr<Bench> bench_;
  std::optional<ledger::Ledger> ledger_;
  ledger::Mode mode_ = ledger::Mode::read;
};

/// A question's engine and job, wherever they come from.
struct Subject {
  Engine engine;
  Job job;
  std::optional<Meant> meant;  ///< if it came from the ledger
};
Result<Subject> subject_of(Session& session, const About& about);

}  // namespace soot::cli
