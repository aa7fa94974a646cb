// What happens, in order, for those who listen late, early and not at all.

#include "aftercut/server/events.hpp"

#include <thread>

#include "catch2/catch.hpp"

using namespace aftercut::server;
using namespace std::chrono_literals;

TEST_CASE("events come in order, from where the listener stopped", "[identity]") {
  Events events;
  events.tell("job", "1");
  events.tell("job", "2");
  events.tell("job", "3");
  const auto all = events.after(0, 0ms);
  REQUIRE(all.size() == 3);
  CHECK(all[0].data == "1");
  CHECK(all[2].number == 3);
  CHECK(events.after(2, 0ms).size() == 1);
  CHECK(events.after(3, 0ms).empty());
  CHECK(events.last() == 3);
}

TEST_CASE("only the latest progress is kept; what ends a stage is not lost", "[identity]") {
  Events events;
  events.tell("job", "begun");
  for (int i = 0; i < 1000; ++i) events.tell("progress", std::to_string(i));
  events.tell("job", "over");
  const auto all = events.after(0, 0ms);
  REQUIRE(all.size() == 3);
  CHECK(all[1].data == "999");
  CHECK(all[2].number == 1002);
}

TEST_CASE("old events are let go, numbers go on", "[identity]") {
  Events events;
  for (int i = 0; i < 1000; ++i) events.tell("job", std::to_string(i));
  const auto all = events.after(0, 0ms);
  CHECK(all.size() == 200);
  CHECK(all.back().number == 1000);
}

TEST_CASE("a listener waits for an event, and is woken when the stream closes", "[identity]") {
  Events events;
  std::vector<Event> heard;
  std::thread listener{[&] { heard = events.after(0, 10s); }};
  events.tell("job", "x");
  listener.join();
  CHECK(heard.size() == 1);
  std::thread other{[&] { heard = events.after(1, 10s); }};
  events.close();
  other.join();
  CHECK(heard.empty());
  CHECK(events.closed());
}

TEST_CASE("an event is written as a browser reads it", "[identity]") {
  CHECK(as_stream({3, "job", "{}"}) == "id: 3\nevent: job\ndata: {}\n\n");
}
