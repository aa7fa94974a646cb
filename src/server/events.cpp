#include "aftercut/server/events.hpp"

namespace aftercut::server {

std::string as_stream(const Event& event) {
  return "id: " + std::to_string(event.number) + "\nevent: " + event.type + "\ndata: " + event.data + "\n\n";
}

void Events::tell(const std::string& type, const std::string& data) {
  {
    const std::scoped_lock lock{mutex_};
    if (!events_.empty() && type == "progress" && events_.back().type == type) events_.pop_back();
    events_.push_back({++last_, type, data});
    if (events_.size() > kept) events_.pop_front();
  }
  came_.notify_all();
}

std::vector<Event> Events::after(std::uint64_t number, std::chrono::milliseconds patience) {
  std::unique_lock lock{mutex_};
  came_.wait_for(lock, patience, [&] { return closed_ || last_ > number; });
  std::vector<Event> found;
  if (closed_) return found;
  for (const Event& event : events_)
    if (event.number > number) found.push_back(event);
  return found;
}

std::uint64_t Events::last() const {
  const std::scoped_lock lock{mutex_};
  return last_;
}

void Events::close() {
  {
    const std::scoped_lock lock{mutex_};
    closed_ = true;
  }
  came_.notify_all();
}

bool Events::closed() const {
  const std::scoped_lock lock{mutex_};
  return closed_;
}

}  // namespace aftercut::server
