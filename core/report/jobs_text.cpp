#include "core/report/jobs_text.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>

namespace soot {

std::string to_text(const std::vector<JobLine>& jobs, const Look& look) {
  if (jobs.empty()) return "no open job (all of them: sootsayer jobs --all)\n";
  std::string out;
  for (const JobLine& job : jobs) {
    const std::string engine = job.engine.empty() ? "" : fmt::format(" '{}'", job.engine);
    out += fmt::format("{:>4}{} {}{}, {}, last entry {}, {} line{}\n", job.number,
                       job.is_current ? "*" : " ", strong(look, job.family), engine,
                       job.is_open ? "open" : "closed", job.last_at.substr(0, 10), job.lines,
                       job.lines == 1 ? "" : "s");
    if (!job.words.empty())
      out += fold(fmt::format("\"{}\"", job.words), look.width, "      ", "      ") + "\n";
  }
  out += "* the current job\n";
  return plain(look, out);
}

}  // namespace soot
