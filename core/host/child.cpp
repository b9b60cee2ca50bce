#include "core/host/child.hpp"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstring>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

extern char** environ;

namespace soot::host {

namespace {
class File {
 public:
  explicit File(int number) : number_(number) {}
  ~File() { close(); }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  int number() const { return number_; }
  void close() {
    if (number_ >= 0) ::close(number_);
    number_ = -1;
  }

 private:
  int number_;
};

class Actions {
 public:
  Actions() { posix_spawn_file_actions_init(&actions_); }
  ~Actions() { posix_spawn_file_actions_destroy(&actions_); }
  Actions(const Actions&) = delete;
  Actions& operator=(const Actions&) = delete;
  posix_spawn_file_actions_t* get() { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_{};
};

tl::unexpected<Problems> no_child(int error) {
  return fail(Kind::trouble, "no child process can be started ({})", std::strerror(error));
}

/// In a process group of its own, so that what it starts can be ended with it.
int start(const std::vector<std::string>& command, int report, int streams, pid_t& child) {
  Actions actions;
  posix_spawn_file_actions_addopen(actions.get(), STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  for (const int stream : {STDOUT_FILENO, STDERR_FILENO, streams_descriptor})
    posix_spawn_file_actions_adddup2(actions.get(), streams, stream);
  posix_spawn_file_actions_adddup2(actions.get(), report, report_descriptor);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);
  std::vector<char*> words;
  for (const std::string& word : command)
    words.push_back(const_cast<char*>(word.c_str()));
  words.push_back(nullptr);
  const int error =
      posix_spawn(&child, words.front(), actions.get(), &attributes, words.data(), environ);
  posix_spawnattr_destroy(&attributes);
  return error;
}

/// Until the child lets go of its end; false if the time is up before.
bool listen(int report, unsigned seconds, const std::function<void(std::string_view)>& hear) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point deadline = Clock::now() + std::chrono::seconds(seconds);
  std::array<char, 4096> bytes{};
  for (;;) {
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(deadline - Clock::now()).count();
    pollfd waited{report, POLLIN, 0};
    if (left <= 0) return false;
    if (poll(&waited, 1, static_cast<int>(left)) <= 0) continue;
    const ssize_t got = read(report, bytes.data(), bytes.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return true;
    hear({bytes.data(), static_cast<std::size_t>(got)});
  }
}
}  // namespace

Result<ChildEnd> run_child(const std::vector<std::string>& command, unsigned seconds,
                           const std::function<void(std::string_view)>& hear) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return no_child(errno);
  // Out of the way of the numbers that the child is to find.
  const File listening(fcntl(ends[0], F_DUPFD_CLOEXEC, 10));
  File reporting(fcntl(ends[1], F_DUPFD_CLOEXEC, 10));
  const File streams(fcntl(File(memfd_create("streams", 0)).number(), F_DUPFD_CLOEXEC, 10));
  close(ends[0]);
  close(ends[1]);
  if (listening.number() < 0 || reporting.number() < 0 || streams.number() < 0)
    return no_child(errno);
  pid_t child = 0;
  if (const int error = start(command, reporting.number(), streams.number(), child); error != 0)
    return no_child(error);
  reporting.close();

  const bool in_time = listen(listening.number(), seconds, hear);
  if (!in_time) kill(-child, SIGKILL);
  int status = 0;
  rusage used{};
  while (wait4(child, &status, 0, &used) < 0 && errno == EINTR) {
  }
  kill(-child, SIGKILL);  // what it may have left behind
  ChildEnd end;
  end.peak_mb = used.ru_maxrss / 1000;
  if (WIFEXITED(status)) {
    end.number = WEXITSTATUS(status);
  } else {
    end.number = WTERMSIG(status);
    const bool out_of_time = end.number == SIGXCPU || (!in_time && end.number == SIGKILL);
    end.kind = out_of_time ? ChildEnd::stalled : ChildEnd::signalled;
  }
  return end;
}

}  // namespace soot::host
