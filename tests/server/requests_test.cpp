// The server over its port: what it serves, what it refuses, and that nothing of it breaks.

#include <arpa/inet.h>
#include <fmt/format.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <nlohmann/json.hpp>
#include <thread>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/server/server.hpp"
#include "catch2/catch.hpp"
#include "served_farm.hpp"

using namespace aftercut;
using test::Scratch;
using json = nlohmann::json;

namespace {

const std::string key = "0123456789abcdef0123456789abcdef";

/// A server in a thread of its own, its plan made.
class Served {
 public:
  explicit Served(const std::string& name)
      : scratch{name}, server_{test::served_farm(scratch), {"127.0.0.1", 0, key}} {
    const auto bound = server_.bind();
    REQUIRE(bound.ok());
    port = bound.value();
    thread_ = std::thread{[this] { server_.run(); }};
    for (int i = 0; i < 6000 && job("base")["stage"] != "planned"; ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
    REQUIRE(job("base")["stage"] == "planned");
  }
  ~Served() {
    server_.stop();
    thread_.join();
  }
  [[nodiscard]] httplib::Client client() const {
    httplib::Client c{"127.0.0.1", port};
    c.set_default_headers({{"Authorization", "Bearer " + key}});
    c.set_read_timeout(30);
    return c;
  }
  [[nodiscard]] json job(const std::string& id) const {
    auto c = client();
    const auto r = c.Get("/jobs/" + id);
    return r && r->status == 200 ? json::parse(r->body) : json{{"stage", "none"}};
  }
  /// Digests of every file of the plan folder.
  [[nodiscard]] std::string plan_files() const {
    std::string all;
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator{scratch.path / "out"})
      names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    for (const auto& name : names)
      all += name + " " + sha256_hex(read_file(scratch.path / "out" / name).value()) + "\n";
    return all;
  }
  Scratch scratch;
  int port = 0;

 private:
  server::Server server_;
  std::thread thread_;
};

std::string error_code(const httplib::Result& r) {
  REQUIRE(r);
  const json body = json::parse(r->body, nullptr, false);
  REQUIRE(body.is_object());
  REQUIRE(body["error"]["message"].get<std::string>().size() > 5);
  return fmt::format("{} {}", r->status, body["error"]["code"].get<std::string>());
}

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
                     path, port, key, more);
}

const char* const json_type = "application/json";
const char* const surer = R"({"name": "surer", "changes": [{"change": "want_chance", "chance": 0.8}]})";

}  // namespace

TEST_CASE("the page, its program, its plan and its state are served with strict headers", "[identity]") {
  const Served s{"serves"};
  auto c = s.client();
  const auto page = c.Get("/");
  REQUIRE(page);
  CHECK(page->status == 200);
  CHECK(page->body.find("id=\"served\"") != std::string::npos);
  CHECK(page->body.find("<script>") == std::string::npos);
  CHECK(page->body.find("<style") == std::string::npos);
  for (const char* path : {"/page.js", "/page.css", "/plans/base", "/state", "/plans/base/report.html"}) {
    INFO(path);
    const auto r = c.Get(path);
    REQUIRE(r);
    CHECK(r->status == 200);
    CHECK(r->body.size() > 100);
    CHECK(r->get_header_value_count("Content-Security-Policy") == 1);
    CHECK(r->get_header_value("Content-Security-Policy").find("unsafe") == std::string::npos);
    CHECK(r->get_header_value("X-Content-Type-Options") == "nosniff");
    CHECK(r->get_header_value("Cache-Control") == "no-store");
  }
  CHECK(json::parse(c.Get("/plans/base")->body)["farm"]["name"].get<std::string>().size() > 3);
  const json state = json::parse(c.Get("/state")->body);
  CHECK(state["plans"].size() == 1);
  CHECK(state["prices"].size() > 5);
}

TEST_CASE("the opened address puts its key into a cookie that scripts cannot read", "[identity]") {
  const Served s{"cookie"};
  httplib::Client plain{"127.0.0.1", s.port};
  const auto r = plain.Get("/?key=" + key);
  REQUIRE(r);
  CHECK(r->status == 303);
  CHECK(r->get_header_value("Location") == "/");
  const std::string cookie = r->get_header_value("Set-Cookie");
  for (const char* part : {"HttpOnly", "SameSite=Strict", key.c_str()})
    CHECK(cookie.find(part) != std::string::npos);
  CHECK(plain.Get("/", {{"Cookie", cookie.substr(0, cookie.find(';'))}})->status == 200);
  CHECK(error_code(plain.Get("/")) == "401 no-key");
  CHECK(error_code(plain.Get("/?key=wrong")) == "401 no-key");
}

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

TEST_CASE("a question by its port, from changes to the whole plan, with its events", "[identity]") {
  const Served s{"question"};
  auto c = s.client();
  std::string heard;
  std::atomic<bool> enough{false};
  std::thread listener{[&] {
    auto ear = s.client();
    ear.Get("/events?after=0", [&](const char* data, std::size_t size) {
      heard.append(data, size);
      return !enough &&
             heard.find("\"stage\":\"planned\",\"share\":1.0,\"saved_as\":\"surer\"") == std::string::npos;
    });
  }};
  const auto kept = c.Put("/scenarios/surer", surer, json_type);
  REQUIRE(kept);
  CHECK(kept->status == 200);
  const std::string mark = json::parse(kept->body)["mark"];
  CHECK(error_code(c.Put("/scenarios/surer", surer, json_type)) == "409 changed-meanwhile");
  CHECK(c.Put("/scenarios/surer", {{"If-Match", "\"" + mark + "\""}}, surer, json_type)->status == 200);
  CHECK(c.Get("/scenarios/surer")->get_header_value("ETag") == "\"" + mark + "\"");
  CHECK(error_code(c.Post("/plans?scenario=nobody", surer, json_type)) == "404 no-scenario");
  CHECK(error_code(c.Post("/plans?scenario=surer", R"({"changes": []})", json_type)) ==
        "409 changed-meanwhile");
  const auto asked = c.Post("/plans?scenario=surer", surer, json_type);
  REQUIRE(asked);
  REQUIRE(asked->status == 202);
  const std::string job = json::parse(asked->body)["job"];
  for (int i = 0; i < 6000 && s.job(job)["stage"] != "planned"; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  CHECK(s.job(job)["answer"]["words"].size() >= 3);
  CHECK(json::parse(c.Get("/plans/" + job)->body)["target"]["wanted_chance"] == 0.8);
  CHECK(std::filesystem::exists(s.scratch.path / "out/scenarios/surer/plan.json"));
  std::this_thread::sleep_for(std::chrono::milliseconds{300});
  enough = true;
  listener.join();
  CHECK(heard.find("event: job") != std::string::npos);
  CHECK(heard.find("event: progress") != std::string::npos);
  CHECK(heard.find("\"stage\":\"answering\"") != std::string::npos);
  CHECK(c.Delete("/scenarios/surer", {{"If-Match", "\"" + mark + "\""}})->status == 200);
  CHECK(error_code(c.Get("/scenarios/surer")) == "404 no-scenario");
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

TEST_CASE("a port that is taken is an issue", "[identity]") {
  const Served s{"taken"};
  const Scratch other{"taken_too"};
  server::Server second{test::served_farm(other), {"127.0.0.1", s.port, key}};
  const auto bound = second.bind();
  REQUIRE_FALSE(bound.ok());
  CHECK(bound.issues().front().place == "--port");
}
