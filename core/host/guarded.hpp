// The border at which what a plugin throws stops being foreign: a call into a plugin goes through
// `guarded`, and its exception comes out as a Fault, which core/host/plugin.cpp turns into a
// refusal of the whole plugin.
#pragma once

#include "core/host/plugin_text.hpp"

#include <fmt/format.h>

#include <exception>
#include <stdexcept>
#include <string_view>

namespace soot::host {

/// A plugin broke the rules; nothing it said counts any more.
struct Fault : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The answer of `call`; `doing` names it in the Fault.
template <class Call>
auto guarded(std::string_view doing, Call call) {
  try {
    return call();
  } catch (const std::exception& thrown) {
    throw Fault(fmt::format("threw an exception in {} ({})", doing, tidy(thrown.what())));
  } catch (...) {
    throw Fault(fmt::format("threw an exception in {}", doing));
  }
}

}  // namespace soot::host
