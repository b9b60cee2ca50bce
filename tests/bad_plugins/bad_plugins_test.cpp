// What `plugin check` says of every bad plugin, to the letter: its child loads it, the parent
// tells.
#include "core/host/trial.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <string>
#include <vector>

namespace soot::host {
namespace {

/// Signals are to end the child, and not be taken by the sanitizer.
void leave_signals_alone() {
  setenv("ASAN_OPTIONS", "handle_segv=0:handle_sigbus=0:handle_abort=0:allocator_may_return_null=1",
         1);
}

Trial trial_of(const std::string& name, unsigned seconds = 20) {
  leave_signals_alone();
  const std::string folder = binary_dir() + "/tests/bad_plugins/" + name;
  const std::vector<std::string> command{
      binary_dir() + "/sootsayer", "plugin", "probe", folder, "--timeout", std::to_string(seconds)};
  return try_plugin(read_manifest(folder).value(), command, {seconds}, [](const std::string&) {});
}

/// The complaints, one a line; "note " before those that are none.
std::string said(const std::string& name, unsigned seconds = 20) {
  std::string out;
  for (const soot::Problem& problem : trial_of(name, seconds).problems) {
    if (problem.severity == soot::Severity::note) out += "note ";
    if (problem.place.line > 0)
      out += fmt::format("{}:{}: ", problem.place.file.text(), problem.place.line);
    out += problem.text + "\n";
  }
  return out;
}

/// Both families have the same law.
std::string both(const std::string& why) {
  return "family plain-1 left out: " + why + "\nfamily odd-1 left out: " + why + "\n";
}

}  // namespace

TEST_CASE("a sound plugin is usable and both its families are named") {
  const Trial trial = trial_of("none");
  CHECK(soot::to_string(trial.problems) == "");
  CHECK(trial.is_usable());
  CHECK(trial.id == "none");
  CHECK(trial.version == "1.0.0");
  CHECK(trial.families == std::vector<std::string>{"plain-1", "odd-1"});
}

TEST_CASE("what is no plugin of this program is refused before anything of it runs") {
  CHECK(said("no-entry") == "no-entry.so has no soot_entry\n");
  CHECK(said("wrong-major") == "built for plugin ABI 2 (this program speaks ABI 1)\n");
  CHECK(said("needs-newer") == "needs a newer program (plugin ABI 1.7, this one speaks 1.0)\n");
  CHECK(said("undefined-symbol") ==
        "undefined-symbol.so cannot be loaded (undefined symbol: function_nobody_has)\n");
  CHECK(said("wrong-size") == "its entry has 48 bytes (expected 56)\n");
  CHECK(said("gaps") == "its entry has gaps (expected id, version and three functions)\n");
  CHECK(said("other-id") ==
        "its library says it is somebody-else (expected other-id, as in plugin.toml)\n");
}

TEST_CASE("a crash is told with the call it happened in") {
  CHECK(said("crash-in-init") == "crashed in init (signal 11, SEGV)\n");
  CHECK(said("crash-in-create") == "crashed in create of plain-1 (signal 11, SEGV)\n");
  CHECK(said("crash-in-lift") == "crashed in lift_at of plain-1 (signal 11, SEGV)\n");
  CHECK(said("crash-in-deinit") == "crashed in deinit (signal 11, SEGV)\n");
  CHECK(said("stack-overflow") == "crashed in lift_at of plain-1 (signal 11, SEGV)\n");
}

TEST_CASE("a plugin that does not come back is ended and told") {
  CHECK(said("endless-loop", 2) == "still running after 2 s in lift_at of plain-1\n");
}

TEST_CASE("a plugin that ends the process or throws or prints is told") {
  CHECK(said("ends-process") == "ended the process by itself in init (exit code 0)\n");
  CHECK(said("throws-in-init") == "threw an exception in init (no gear found)\n");
  CHECK(said("throws-in-lift") == "threw an exception in lift_at of sound-1\n");
  CHECK(said("writes-to-stdout") ==
        "wrote to the standard streams in lift_at of plain-1 (\"the cam is at top\")\n"
        "wrote to the standard streams in lift_at of odd-1 (\"the cam is at top\")\n");
}

#if !defined(__SANITIZE_ADDRESS__)  // which needs all the memory itself
TEST_CASE("a plugin that eats memory is stopped at its share") {
  CHECK(said("eats-memory") ==
        "crashed in lift_at of plain-1 (signal 11, SEGV, its 512 MB of memory used up)\n");
}
#endif

TEST_CASE("what a plugin may not answer is told") {
  CHECK(said("init-fails") == "it did not start (families.db is missing)\n");
  CHECK(said("helper-throws") == "it did not start (families/odd-1.toml cannot be read)\n");
  CHECK(said("no-factory") == "has nothing to offer (expected soot.family-factory/1)\n");
  CHECK(said("too-many") == "says it has 4000000000 families (expected at most 1000)\n");
  CHECK(said("info-missing") == "family 2 left out: it is not there\n");
  CHECK(said("create-fails") ==
        "family odd-1 left out: it was not made (the pump of odd-1 was never measured)\n");
  CHECK(said("same-family-twice") == "family plain-1 is there twice (expected each id once)\n");
  CHECK(said("knows-all-ids") ==
        "an extension id that nobody has is not answered NULL\n"
        "an extension id that nobody has is not answered NULL\n");
  CHECK(said("moody") ==
        "answers differently when started again (expected the same families and laws)\n");
}

TEST_CASE("a law that no cam can have is told with the angle") {
  CHECK(said("nan-lift") == both("lift at 0.1 deg is nan (expected a finite number)"));
  CHECK(said("falling-flank") ==
        both("lift goes from 4.0000 mm at -20.0 deg to 4.0000 mm at -19.9 deg (expected it to rise "
             "up to 8.000 mm)"));
  CHECK(said("wrong-way-back") ==
        both("angle at a lift of 0.800 mm is -51.980 deg (expected -52.000 from its own lifts)"));
  CHECK(trial_of("answers-past-cam").is_usable());
  CHECK(said("answers-past-cam")
            .find("note family plain-1: gives an angle for a lift of 9.000 mm (better: refuse it, "
                  "for the "
                  "cam lifts 8.000 mm)\n") == 0);
}

TEST_CASE("a text that is no family is told by line") {
  CHECK(said("null-tables") ==
        "family odd-1 left out: its tables do not end where they should (expected up to 2000000 "
        "bytes of text)\n");
  CHECK(said("huge-tables") == said("null-tables"));
  CHECK(said("broken-tables") ==
        "odd-1.toml:10: not TOML: expected ']', saw '\\n' (in: table header)\n");
  CHECK(said("latin-tables") ==
        "odd-1.toml:10: byte 0xF6 is not UTF-8 (expected a text saved as UTF-8)\n");
  CHECK(said("other-family") ==
        "odd-1.toml:1: its table calls it odd-2 (expected odd-1, as its file)\n");
}

}  // namespace soot::host
