// The heap of a program that is started for one answer and ends.
#pragma once

namespace soot {

/// Takes the heap's memory some megabytes ahead and in huge pages, where the system has them: a
/// thousand pages touched for the first time, one by one, can cost a quarter of such a
/// program's time. What is not touched takes no memory, only room among the addresses. Once, at the
/// start; a system that refuses is left as it is.
void take_heap_ahead();

}  // namespace soot
