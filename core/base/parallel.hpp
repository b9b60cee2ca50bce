// Independent pieces of work, as many at once as the machine has processors (eight at most). The
// threads wait for more when they are done: starting one takes longer than many a piece.
#pragma once

#include <cstddef>
#include <functional>

namespace soot {

/// work(i) for every i below `count`; returns when all are done. What one writes no other may
/// touch. May be called from within such work; where that keeps all processors busy, one after
/// another. If a piece throws, the first exception is thrown on and pieces not begun are left out.
void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace soot
