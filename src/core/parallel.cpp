#include "aftercut/core/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace aftercut {

void for_each_index(std::size_t n, int threads, const std::function<void(std::size_t)>& work) {
  const std::size_t count = std::min(n, static_cast<std::size_t>(std::max(threads, 1)));
  if (count <= 1) {
    for (std::size_t i = 0; i < n; ++i) work(i);
    return;
  }
  std::vector<std::exception_ptr> errors(n);
  std::atomic<std::size_t> next{0};
  const auto loop = [&] {
    for (std::size_t i = next++; i < n; i = next++) {
      try {
        work(i);
      } catch (...) {
        errors[i] = std::current_exception();
      }
    }
  };
  {
    std::vector<std::jthread> pool;
    for (std::size_t t = 0; t < count; ++t) pool.emplace_back(loop);
  }
  for (const auto& error : errors)
    if (error) std::rethrow_exception(error);
}

}  // namespace aftercut
