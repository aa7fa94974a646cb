#pragma once
// Work spread over threads, results by index: the outcome never depends on the number of threads.

#include <cstddef>
#include <functional>

namespace aftercut {

/// Calls `work(i)` once for each i in [0, n), on up to `threads` threads. The first exception (by index) is
/// rethrown.
void for_each_index(std::size_t n, int threads, const std::function<void(std::size_t)>& work);

}  // namespace aftercut
