// Requests that mean no good, and many at once: refused or served, and nothing of the plan changes.

#include <arpa/inet.h>
#include <fmt/format.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>

#include "catch2/catch.hpp"
#include "served.hpp"

using namespace aftercut;
using test::error_code;
using test::json_type;
using test::Scratch;
using test::Served;
using test::surer;
using json = test::Json;

namespace {

/// Raw bytes sent; what came back until the server closed.
std::string talk(int port, const std::string& bytes, bool then_wait = true) {
  const int fd = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(port));
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  REQUIRE(::connect(fd, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0);
  ::send(fd, bytes.data(), bytes.size(), MSG_NOSIGNAL);
  std::string got;
  std::array<char, 4096> part{};
  while (then_wait) {
    const ssize_t n = ::recv(fd, part.data(), part.size(), 0);
    if (n <= 0) break;
    got.append(part.data(), static_cast<std::size_t>(n));
  }
  ::close(fd);
  return got;
}

std::string head(const std::string& method, const std::string& path, int port, const std::string& more = "") {
  return fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nAuthorization: Bearer {}\r\n{}\r\n", method,
                     path, port, test::server_key, more);
}

}  // namespace

TEST_CASE("hostile requests are refused in one shape; plan files stay as they are", "[identity]") {
  const Served s{"hostile"};
  const std::string before = s.plan_files();
  auto c = s.client();
  httplib::Client stranger{"127.0.0.1", s.port};
  CHECK(error_code(stranger.Get("/state")) == "401 no-key");
  CHECK(error_code(c.Get("/state", {{"Host", "farm.example"}})) == "403 wrong-host");
  CHECK(error_code(c.Post("/plans", {{"Origin", "http://example.org"}}, surer, json_type)) ==
        "403 wrong-origin");
  CHECK(error_code(c.Post("/plans", surer, "text/plain")) == "415 not-json");
  CHECK(error_code(c.Get("/nothing/here")) == "404 not-here");
  CHECK(error_code(c.Get("/plans/again-77")) == "404 no-plan");
  CHECK(error_code(c.Get("/jobs/again-77")) == "404 no-job");
  CHECK(error_code(c.Delete("/jobs/base")) == "404 no-job");
  for (const char* path :
       {"/scenarios/..%2f..%2fetc%2fpasswd", "/scenarios/..", "/scenarios/%2e%2e%2ffarm", "/scenarios/a%00b",
        "/scenarios/x.json", "/plans/..%2fbase", "/../../etc/passwd", "/page.js/../../farm.json"}) {
    INFO(path);
    CHECK(error_code(c.Get(path)).substr(0, 3) == "404");
  }
  CHECK(error_code(c.Put("/scenarios/..%2fevil", surer, json_type)).substr(0, 3) == "404");
  CHECK(error_code(c.Put("/scenarios/farm.json", surer, json_type)) == "422 not-written");
  CHECK_FALSE(std::filesystem::exists(s.scratch.path / "evil.json"));
  for (const char* broken :
       {"", "{", "[]", "null", "{\"changes\": 3}", "{\"changes\": [{\"change\": \"x\"}]}", "\xff\xfe",
        "{\"changes\": [], \"x\": 1}"}) {
    INFO(broken);
    CHECK(error_code(c.Post("/plans", broken, json_type)) == "422 faulty");
  }
  const std::string deep(200000, '[');
  CHECK(error_code(c.Post("/plans", "{\"changes\": " + deep, json_type)) == "422 faulty");
  CHECK(s.plan_files() == before);
}

TEST_CASE("a part of an answer that is asked for does not cut it", "[regression]") {
  const Served s{"ranges"};
  auto c = s.client();
  CHECK(error_code(c.Get("/page.js", {{"Range", "bytes=-5,9-3,7-7"}})) == "416 refused");
  for (const char* range : {"bytes=0-9", "bytes=-5", "bytes=99999999-", "bytes=0-3,7-7"}) {
    INFO(range);
    CHECK(error_code(c.Get("/nothing/here", {{"Range", range}})) == "404 not-here");
    const auto script = c.Get("/page.js", {{"Range", range}});
    REQUIRE(script);
    CHECK(script->status == 200);
    CHECK(script->body == c.Get("/page.js")->body);
  }
}

TEST_CASE("a body of 100 MB, told or not, is refused", "[identity]") {
  const Served s{"large"};
  auto c = s.client();
  const std::string before = s.plan_files();
  const std::string large(100 * 1024 * 1024, ' ');
  const auto r = c.Post("/plans", large, json_type);
  if (r) CHECK(r->status == 413);  // or the connection was closed while it was sent
  std::size_t sent = 0;
  const auto chunked = c.Post(
      "/plans",
      [&](std::size_t, httplib::DataSink& sink) {
        if (sent >= large.size())
          sink.done();
        else
          sink.write(large.data(), 65536);
        sent += 65536;
        return true;
      },
      json_type);
  if (chunked) CHECK(chunked->status >= 400);
  CHECK(talk(s.port, head("POST", "/plans", s.port,
                          "Content-Type: application/json\r\nContent-Length: 99999999999999999999\r\n"))
            .find("200 OK") == std::string::npos);
  CHECK(c.Get("/state")->status == 200);
  CHECK(s.plan_files() == before);
}

TEST_CASE("what is no HTTP, half a request, or too long a line does no harm", "[identity]") {
  const Served s{"raw"};
  for (const std::string& bytes :
       {std::string{"\0\1\2\3\r\n\r\n", 8}, std::string{"GET\r\n\r\n"}, std::string{"GET / HTTP/9.9\r\n\r\n"},
        "GET /" + std::string(20000, 'a') + " HTTP/1.1\r\n\r\n",
        head("GET", "/state", s.port, "X: " + std::string(100000, 'x') + "\r\n"),
        head("POST", "/plans", s.port, "Content-Type: application/json\r\nContent-Length: -5\r\n"),
        head("POST", "/plans", s.port, "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n") +
            "zz\r\nabc\r\n"})
    CHECK(talk(s.port, bytes).find("200 OK") == std::string::npos);
  for (int i = 0; i < 50; ++i) talk(s.port, "GET /sta", false);
  auto c = s.client();
  CHECK(c.Get("/state")->status == 200);
}

TEST_CASE("a body that does not come in whole is given up, and others are served meanwhile", "[identity]") {
  const Served s{"slow"};
  std::vector<std::thread> slow;
  std::atomic<int> answered{0};
  for (int i = 0; i < 10; ++i)
    slow.emplace_back([&] {
      const std::string got =
          talk(s.port,
               head("POST", "/plans", s.port, "Content-Type: application/json\r\nContent-Length: 5000\r\n") +
                   "{\"changes\"");
      if (got.find(" 408 ") != std::string::npos) ++answered;
    });
  auto c = s.client();
  for (int i = 0; i < 20; ++i) CHECK(c.Get("/state")->status == 200);
  for (auto& t : slow) t.join();
  CHECK(answered == 10);
}

TEST_CASE("two hundred at once are all served or refused, and the plan stays as it is", "[identity]") {
  const Served s{"many"};
  const std::string before = s.plan_files();
  std::atomic<int> served{0}, refused{0}, silent{0};
  std::vector<std::thread> all;
  for (int i = 0; i < 200; ++i)
    all.emplace_back([&, i] {
      auto c = s.client();
      const auto r = i % 4 == 0   ? c.Post("/plans", surer, json_type)
                     : i % 4 == 1 ? c.Get("/plans/base")
                     : i % 4 == 2 ? c.Put("/scenarios/surer", surer, json_type)
                                  : c.Get("/");
      if (!r) UNSCOPED_INFO(httplib::to_string(r.error()));
      ++(!r ? silent : r->status < 300 ? served : refused);
    });
  for (auto& t : all) t.join();
  CHECK(silent == 0);
  CHECK(served >= 150);
  CHECK(served + refused == 200);
  CHECK(s.plan_files() == before);
  auto c = s.client();
  const json state = json::parse(c.Get("/state")->body);
  CHECK(state["scenarios"].size() == 1);
}

TEST_CASE("no more pages listen than there is room for", "[identity]") {
  const Served s{"listeners"};
  std::atomic<bool> enough{false};
  std::vector<std::thread> ears;
  std::atomic<int> open{0};
  for (int i = 0; i < 8; ++i)
    ears.emplace_back([&] {
      auto c = s.client();
      bool first = true;
      c.Get("/events?after=0", [&](const char*, std::size_t) {
        if (std::exchange(first, false)) ++open;
        return !enough;
      });
    });
  for (int i = 0; i < 1000 && open < 8; ++i) std::this_thread::sleep_for(std::chrono::milliseconds{10});
  CHECK(open == 8);
  auto c = s.client();
  CHECK(error_code(c.Get("/events?after=0")) == "503 too-many-pages");
  CHECK(c.Get("/state")->status == 200);
  enough = true;
  for (int i = 0; i < 3; ++i) c.Post("/plans", surer, json_type);  // something to hear, to end on
  for (auto& e : ears) e.join();
}
