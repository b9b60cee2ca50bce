// Lists of problems, joined as they come.
#pragma once

#include "core/base/problem.hpp"

namespace soot {

inline void append(Problems& all, const Problems& more) {
  all.insert(all.end(), more.begin(), more.end());
}

}  // namespace soot
