// Which entries hold on a day.
#include "aftercut/core/digest.hpp"
#include "catch2/catch.hpp"
#include "written.hpp"

using namespace aftercut;
using namespace aftercut::journal;
using aftercut::test::disked;
using aftercut::test::entry;

namespace {

/// "2:9.5 1:12": number and area of what holds on the day of October, in order.
std::string held(const std::vector<Entry>& entries, int day) {
  std::string text;
  for (const Entry& e : standing_on(entries, make_date(2026, 10, day)))
    text += std::to_string(e.seq) + ":" +
            std::to_string(static_cast<int>(*std::get<Worked>(e.what).area_ha)) + " ";
  return text;
}

}  // namespace

TEST_CASE("the last correction recorded by the day stands in its first entry's place", "[identity]") {
  std::vector<Entry> all{entry("a", disked(10)),    entry("b", disked(20)),     entry("c", disked(11), 1),
                         entry("d", disked(12), 3), entry("e", TakenBack{}, 2), entry("f", disked(21), 5),
                         entry("g", TakenBack{}, 4)};
  const int recorded[] = {14, 14, 15, 16, 17, 18, 19};
  for (std::size_t k = 0; k < all.size(); ++k) {
    all[k].seq = static_cast<int>(k) + 1;
    all[k].recorded_at = "2026-10-" + std::to_string(recorded[k]) + "T23:59:59Z";
  }
  CHECK(held(all, 13).empty());
  CHECK(held(all, 14) == "1:10 2:20 ");
  CHECK(held(all, 15) == "1:11 2:20 ");
  CHECK(held(all, 16) == "1:12 2:20 ");
  CHECK(held(all, 17) == "1:12 ");
  CHECK(held(all, 18) == "1:12 2:21 ");
  CHECK(held(all, 19) == "2:21 ");
  all[1].done_on = all[5].done_on = make_date(2026, 10, 1);
  CHECK(held(all, 18) == "2:21 1:12 ");
}

TEST_CASE("a plan's digest tells which entries it knew", "[identity]") {
  std::vector<Entry> all;
  for (int k = 0; k < 6; ++k) {
    all.push_back(entry("e" + std::to_string(k), disked(10 + k)));
    all.back().seq = k + 1;
    all.back().recorded_at = k < 4 ? "2026-10-14T18:00:00Z" : "2026-10-16T18:00:00Z";
  }
  all[3].corrects = 2;
  const auto digest = [&](std::size_t first, int day) {
    const std::vector<Entry> some{all.begin(), all.begin() + static_cast<std::ptrdiff_t>(first)};
    const auto standing = standing_on(some, make_date(2026, 10, day));
    return standing.empty() ? "" : sha256_hex(standing_text(standing));
  };
  const auto known = [&](const std::string& sha, int day) {
    return known_to_plan(all, make_date(2026, 10, day), sha);
  };
  for (const std::size_t first : {1u, 2u, 3u, 4u}) CHECK(known(digest(first, 14), 14) == first);
  CHECK(known(digest(6, 15), 15) == 4u);  // what came later the plan did not know
  CHECK(known(digest(6, 16), 16) == 6u);
  CHECK(known("", 13) == 0u);
  CHECK(known("", 14) == 0u);
  CHECK_FALSE(known("of another journal", 16));
}
