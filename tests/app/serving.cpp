#include "serving.hpp"

#include <atomic>
#include <thread>

#include "catch2/catch.hpp"

namespace aftercut::test {
namespace {

constexpr const char* key = "0123456789abcdef0123456789abcdef";
const std::vector<std::string> short_plan{
    "--effort", "20",      "--years",    "2001..2002", "--seed", "1",     "--bound-rounds",
    "0",        "--as-of", "2026-10-12", "--one-more", "0",      "--now", "2026-11-02T18:00:00Z"};
constexpr int pause_us = 5000, most_pauses = 12000;

std::vector<std::string> serving(const std::filesystem::path& farm, const std::filesystem::path& out,
                                 const std::vector<std::string>& options) {
  std::vector<std::string> words{"serve", farm.string(), "--out", out.string(), "--port", "0", "--key", key};
  words.insert(words.end(), options.begin(), options.end());
  return words;
}

}  // namespace

Serving::Serving(const std::filesystem::path& farm, const std::filesystem::path& out,
                 const std::vector<std::string>& options, const std::filesystem::path& said)
    : child_{serving(farm, out, options), said} {
  const std::string before = "http://127.0.0.1:";
  for (int k = 0; k < most_pauses && !child_.ended(); ++k, sleep_us(pause_us)) {
    if (!std::filesystem::exists(said)) continue;
    const std::string words = child_.said();
    const std::size_t at = words.find(before);
    if (at == std::string::npos || words.find('\n') == std::string::npos) continue;
    port_ = std::stoi(words.substr(at + before.size()));
    if (stage() == "planned") return;
  }
  FAIL("the server did not come up");
}

httplib::Client Serving::client() const {
  httplib::Client c{"127.0.0.1", port_};
  c.set_default_headers({{"Authorization", std::string{"Bearer "} + key}});
  c.set_read_timeout(30);
  return c;
}

std::string Serving::stage() const {
  auto c = client();
  const auto state = c.Get("/state");
  if (!state || state->status != 200) return "gone";
  const auto json = nlohmann::json::parse(state->body);
  return json.at("job").is_null() ? "none" : json.at("job").at("stage").get<std::string>();
}

ServedDemo::ServedDemo() { std::ignore = serve(); }

Serving ServedDemo::serve() const { return {demo.farm(), out(), short_plan, demo.root() / "said"}; }

void Serving::kill_hard() {
  child_.kill_hard();
  child_.wait();
}

int ask_until_killed(Serving& serving, const Ask& ask, const std::function<void()>& wait) {
  std::atomic<int> answered{0};
  std::atomic<bool> begun{false};
  std::thread client{[&] {
    auto c = serving.client();
    begun = true;
    while (ask(c, answered)) ++answered;
  }};
  while (!begun) sleep_us(50);
  wait();
  serving.kill_hard();
  client.join();
  return answered;
}

}  // namespace aftercut::test
