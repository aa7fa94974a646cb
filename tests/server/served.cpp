#include "served.hpp"

#include <fmt/format.h>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"

namespace aftercut::test {

Served::Served(const std::string& name)
    : scratch{name}, server_{served_farm(scratch), {"127.0.0.1", 0, server_key}} {
  const auto bound = server_.bind();
  REQUIRE(bound.ok());
  port = bound.value();
  thread_ = std::thread{[this] { server_.run(); }};
  for (int i = 0; i < 6000 && job("base")["stage"] != "planned"; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  REQUIRE(job("base")["stage"] == "planned");
}

Served::~Served() {
  server_.stop();
  thread_.join();
}

httplib::Client Served::client() const {
  httplib::Client c{"127.0.0.1", port};
  c.set_default_headers({{"Authorization", "Bearer " + server_key}});
  c.set_read_timeout(30);
  return c;
}

Json Served::job(const std::string& id) const {
  auto c = client();
  const auto r = c.Get("/jobs/" + id);
  return r && r->status == 200 ? Json::parse(r->body) : Json{{"stage", "none"}};
}

std::string Served::plan_files() const {
  std::string all;
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator{scratch.path / "out"})
    if (entry.is_regular_file()) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  for (const auto& name : names)
    all += name + " " + sha256_hex(read_file(scratch.path / "out" / name).value()) + "\n";
  return all;
}

std::string error_code(const httplib::Result& r) {
  REQUIRE(r);
  const Json body = Json::parse(r->body, nullptr, false);
  REQUIRE(body.is_object());
  REQUIRE(body["error"]["message"].get<std::string>().size() > 5);
  return fmt::format("{} {}", r->status, body["error"]["code"].get<std::string>());
}

}  // namespace aftercut::test
