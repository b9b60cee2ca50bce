// The time of day as something handed in, so that a record can be tested to the letter. A Clock
// gives the present moment as ISO 8601 text in UTC, to the second: "2031-04-02T09:10:00Z".
#pragma once

#include <fmt/format.h>

#include <chrono>
#include <functional>
#include <string>

namespace soot {

using Clock = std::function<std::string()>;

inline std::string system_clock_utc() {
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const auto midnight = std::chrono::floor<std::chrono::days>(now);
  const std::chrono::year_month_day date{midnight};
  const std::chrono::hh_mm_ss time{now - midnight};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

}  // namespace soot
