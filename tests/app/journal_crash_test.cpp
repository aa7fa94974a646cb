// The real server killed while it writes down what a phone sends; the phone sends again what it heard no
// answer of.

#include <fmt/format.h>

#include <map>
#include <random>

#include "aftercut/journal/log.hpp"
#include "catch2/catch.hpp"
#include "serving.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// A phone with its own ids: what the server confirmed, with its number, and what it has not answered yet.
class Phone {
 public:
  bool send(httplib::Client& c) {
    if (waiting_.empty()) waiting_ = "phone-" + std::to_string(++written_);
    const std::string words =
        written_ % 3 == 0 ? "A1 disk 0.1 ha" : fmt::format("rain {} mm", 1 + written_ % 9);
    const auto r = c.Post(
        "/journal",
        fmt::format(R"({{"entries": [{{"id": "{}", "done_on": "2026-10-{}", "by": "Ana", "words": "{}"}}]}})",
                    waiting_, 13 + written_ % 10, words),
        json_type);
    if (!r) return false;
    if (r->status != 200) {
      wrong_answer = r->body;
      return false;
    }
    confirmed[waiting_] = nlohmann::json::parse(r->body).at("entries").at(0).at("seq").get<int>();
    waiting_.clear();
    return true;
  }
  [[nodiscard]] const std::string& waiting() const { return waiting_; }
  std::map<std::string, int> confirmed;
  std::string wrong_answer;

 private:
  std::string waiting_;
  int written_ = 0;
};

/// The number of each id in the journal.
std::map<std::string, int> written_down(const std::filesystem::path& farm) {
  const auto log = journal::read_log(farm);
  REQUIRE(log.ok());
  std::map<std::string, int> out;
  for (const journal::Entry& e : log.value().entries) {
    CHECK(!out.contains(e.id));
    out[e.id] = e.seq;
  }
  return out;
}

void wait_for_more(const std::filesystem::path& file) {
  std::error_code none;
  const auto before = std::filesystem::file_size(file, none);
  for (int k = 0; k < 500000 && std::filesystem::file_size(file, none) == before; ++k) sleep_us(10);
}

}  // namespace

TEST_CASE("a server killed 40 times while a phone writes the journal", "[.long]") {
  const ServedDemo served;
  Phone phone;
  std::mt19937 draws{20261128};
  int unheard = 0;
  for (int run = 0; run < 40; ++run) {
    CAPTURE(run);
    {
      Serving serving = served.serve();
      const auto ask = [&](httplib::Client& c, int) { return phone.send(c); };
      // Every other run the moment in which an entry is there and its answer on the way.
      ask_until_killed(serving, ask, [&] {
        if (run % 2 == 0) return sleep_us(static_cast<int>(draws() % 3000000U));
        sleep_us(static_cast<int>(draws() % 500000U));
        wait_for_more(served.demo.farm() / journal::file_name);
      });
    }
    CHECK(phone.wrong_answer.empty());
    const auto there = written_down(served.demo.farm());
    for (const auto& [id, seq] : phone.confirmed) {
      CAPTURE(id);
      REQUIRE(there.contains(id));
      CHECK(there.at(id) == seq);
    }
    const bool unheard_of = there.contains(phone.waiting());
    unheard += unheard_of ? 1 : 0;
    CHECK(there.size() == phone.confirmed.size() + (unheard_of ? 1U : 0U));
  }
  const Serving serving = served.serve();
  auto c = serving.client();
  CHECK(phone.send(c));
  CHECK(written_down(served.demo.farm()) == phone.confirmed);
  CHECK(phone.confirmed.size() > 40);
  CHECK(unheard > 0);
  WARN(phone.confirmed.size() << " entries confirmed, all there once; " << unheard
                              << " times one was there whose answer the phone did not hear");
}
