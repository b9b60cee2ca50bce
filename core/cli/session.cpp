#include "core/cli/session.hpp"

#include "core/knowledge/job_reader.hpp"
#include "core/ledger/job_of.hpp"
#include "core/workbench/entry_check.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot::cli {
namespace fs = std::filesystem;

namespace {

// The XDG base directory specification: a relative path is to be taken as not set.
std::optional<fs::path> absolute(const std::optional<std::string>& path) {
  if (!path || !fs::path{*path}.is_absolute()) return std::nullopt;
  return fs::path{*path};
}

}  // namespace

Surroundings find_surroundings(const fs::path& program, const Environment& environment) {
  Surroundings out;
  const fs::path home = environment("HOME").value_or(".");
  const fs::path user_data =
      absolute(environment("XDG_DATA_HOME")).value_or(home / ".local" / "share") / "sootsayer";
  // Where others may write there is nothing to be believed.
  if (const fs::path cache = absolute(environment("XDG_CACHE_HOME")).value_or(home / ".cache");
      cache.is_absolute())
    out.places.snapshot = cache / "sootsayer" / "knowledge";
  out.ledger = environment("SOOTSAYER_LEDGER").value_or((user_data / "ledger.sqlite").string());

  const fs::path beside = program.parent_path();
  std::error_code error;
  const bool in_checkout = fs::exists(beside.parent_path() / "knowledge" / "scale.toml", error);
  fs::path shared =
      in_checkout ? beside.parent_path() : beside.parent_path() / "share" / "sootsayer";
  fs::path plugins =
      in_checkout ? beside / "plugins" : beside.parent_path() / "lib" / "sootsayer" / "plugins";
  out.templates = in_checkout ? shared / "core" / "sdk" / "template" : shared / "template";
  if (const std::optional<std::string> moved = environment("SOOTSAYER_HOME")) {
    shared = *moved;
    plugins = shared / "plugins";
  }
  out.places.knowledge = shared / "knowledge";
  out.places.cases = shared / "cases";
  std::string path = environment("SOOTSAYER_PLUGIN_PATH").value_or("");
  for (std::size_t begin = 0; begin < path.size();) {
    const std::size_t end = std::min(path.find(':', begin), path.size());
    if (end > begin) out.places.foreign_plugins.emplace_back(path.substr(begin, end - begin));
    begin = end + 1;
  }
  out.places.added = user_data / "plugins";
  if (fs::is_directory(out.places.added, error))
    out.places.foreign_plugins.push_back(out.places.added);
  out.places.plugins.push_back(plugins);
  if (fs::is_directory(user_data, error)) out.places.data.push_back(user_data);
  return out;
}

Result<const Bench*> Session::bench(const fs::path& but) {
  if (!bench_) {
    Result<std::unique_ptr<Bench>> opened = Bench::open(surroundings_.places);
    if (!opened) return pass_on(opened);
    bench_ = std::move(*opened);
    std::error_code no_file;
    for (const Problem& problem : bench_->troubles())
      if (but.empty() || !fs::equivalent(problem.place.file.text(), but, no_file))
        complain(terminal_, problem);
  }
  return bench_.get();
}

Result<const Bench*> Session::bench_from_files() {
  surroundings_.places.snapshot.clear();
  return bench();
}

Result<ledger::Ledger*> Session::ledger(ledger::Mode mode, Missing missing) {
  const bool suffices = ledger_ && (mode_ == ledger::Mode::write || mode == ledger::Mode::read);
  if (!suffices) {
    ledger_.reset();
    std::error_code error;
    if (missing == Missing::refuse && !fs::exists(surroundings_.ledger, error))
      return fail(Kind::use,
                  "there is no ledger yet at {} (open a job first: sootsayer open FAMILY)",
                  surroundings_.ledger.string());
    Result<ledger::Ledger> opened = ledger::Ledger::open(surroundings_.ledger, mode, clock_);
    if (!opened) return pass_on(opened);
    ledger_.emplace(std::move(*opened));
    mode_ = mode;
  }
  return &*ledger_;
}

Result<long> Session::job_number(std::optional<long> asked) {
  if (asked) return *asked;
  const Result<ledger::Ledger*> opened = ledger(ledger::Mode::read);
  if (!opened) return pass_on(opened);
  const Result<std::optional<long>> current = (*opened)->current();
  if (!current) return pass_on(current);
  if (!*current)
    return fail(Kind::use,
                "no job is open (open one: sootsayer open FAMILY, or name one: --job N)");
  return **current;
}

Result<Meant> Session::meant(std::optional<long> asked) {
  const Result<ledger::Ledger*> opened = ledger(ledger::Mode::read);
  if (!opened) return pass_on(opened);
  const Result<long> number = job_number(asked);
  if (!number) return pass_on(number);
  Result<ledger::Header> header = (*opened)->job(*number);
  if (!header) return pass_on(header);
  Result<std::vector<ledger::Entry>> entries = (*opened)->entries(*number);
  if (!entries) return pass_on(entries);
  const Result<const Bench*> bench_found = bench();
  if (!bench_found) return pass_on(bench_found);
  Result<Engine> engine = (*bench_found)->engine(header->opened_with.family);
  if (!engine) return pass_on(engine);
  Job job = ledger::job_of(*header, *entries);
  return Meant{std::move(*header), std::move(*entries), std::move(job), std::move(*engine)};
}

Result<Subject> subject_of(Session& session, const About& about) {
  if (about.file.empty()) {
    Result<Meant> meant = session.meant(about.job);
    if (!meant) return pass_on(meant);
    Engine engine = meant->engine;
    Job job = meant->job;
    return Subject{std::move(engine), std::move(job), std::move(*meant)};
  }
  Result<Job> job = load_job(about.file);
  if (!job) return pass_on(job);
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  Result<Engine> engine = (*bench)->engine(job->family);
  if (!engine) {
    Problems problems = engine.error();
    for (Problem& problem : problems) {
      if (problem.kind != Kind::use) continue;
      problem.kind = Kind::data;  // the wrong word stands in the file
      problem.place.file = about.file;
    }
    return tl::unexpected<Problems>(std::move(problems));
  }
  return Subject{std::move(*engine), std::move(*job), std::nullopt};
}

}  // namespace soot::cli
