// Which build of the program this is.
#pragma once

#include <string>

namespace soot {

/// The note that the linker puts into each program (--build-id), in hexadecimal: another program,
/// another id, wherever it lies and whoever loads it. Empty if it was linked without.
std::string build_id();

}  // namespace soot
