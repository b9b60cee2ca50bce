// The border at which what a plugin throws stops being foreign: every call into a plugin goes
// through a Guard, which says beforehand what is being done, and turns what the plugin throws into
// a Fault. core/host/plugin.cpp makes a refusal of that.
#pragma once

#include "core/host/plugin_text.hpp"

#include <fmt/format.h>

#include <exception>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace soot::host {

/// A plugin broke the rules; nothing it said counts any more.
struct Fault : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Told what is done next, before it is done. Does not throw. It hears a row of equal steps once.
using Watch = std::function<void(const std::string& doing)>;

class Guard {
 public:
  explicit Guard(Watch watch) : watch_(std::move(watch)) {}

  /// Nothing foreign runs from here on, but what comes can be slow or wrong all the same.
  void step(std::string_view doing) {
    if (!watch_ || doing == last_) return;
    last_ = doing;
    watch_(last_);
  }

  /// The answer of `call`; `doing` names it in the Fault.
  template <class Call>
  auto operator()(std::string_view doing, Call call) {
    step(doing);
    try {
      return call();
    } catch (const std::exception& thrown) {
      throw Fault(fmt::format("threw an exception in {} ({})", doing, tidy(thrown.what())));
    } catch (...) {
      throw Fault(fmt::format("threw an exception in {}", doing));
    }
  }

 private:
  Watch watch_;
  std::string last_;
};

}  // namespace soot::host
