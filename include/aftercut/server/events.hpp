#pragma once
// What happens on the server, in order, for pages that listen: the latest events are kept, so that a page
// that lost its connection misses none.

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <string>
#include <vector>

namespace aftercut::server {

struct Event {
  std::uint64_t number = 0;  ///< from 1, rising
  std::string type, data;    ///< data: JSON without line breaks
};

/// "id: 3\nevent: progress\ndata: {...}\n\n", as a browser's EventSource reads it.
std::string as_stream(const Event& event);

class Events {
 public:
  /// An event of a type that only the latest counts of ("progress") takes the place of the one before.
  void tell(const std::string& type, const std::string& data);
  /// Those after `number`, waiting for one up to `patience`; empty: none came, or the stream is closed.
  std::vector<Event> after(std::uint64_t number, std::chrono::milliseconds patience);
  [[nodiscard]] std::uint64_t last() const;
  /// Wakes everybody; no more waiting.
  void close();
  [[nodiscard]] bool closed() const;

 private:
  static constexpr std::size_t kept = 200;
  mutable std::mutex mutex_;
  std::condition_variable came_;
  std::deque<Event> events_;
  std::uint64_t last_ = 0;
  bool closed_ = false;
};

}  // namespace aftercut::server
