#include "aftercut/planner/openings.hpp"

#include <algorithm>
#include <map>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "random_decisions.hpp"

using namespace aftercut;
using namespace aftercut::planner;

namespace {

bool opens(const std::vector<Chain>& chains, int operation, int day) {
  return std::any_of(chains.begin(), chains.end(), [&](const Chain& c) {
    return std::any_of(c.passes.begin(), c.passes.end(), [&](const Opening& o) {
      return o.operation == operation && std::binary_search(o.days.begin(), o.days.end(), day);
    });
  });
}

int most_passes(const std::vector<Chain>& chains, int operation, bool fewest) {
  int found = fewest ? 1000 : 0;
  for (const Chain& c : chains) {
    const auto n = static_cast<int>(std::count_if(c.passes.begin(), c.passes.end(), [&](const Opening& o) {
      return o.operation == operation && !o.free_from;
    }));
    found = fewest ? std::min(found, n) : std::max(found, n);
  }
  return found;
}

struct Exceptions {
  std::string where;
  int closed_days = 0, too_many_passes = 0, in_no_chain = 0, whole = 0, sequences = 0, works = 0;
};

/// The days of each pass that was worked to its end, in order.
struct WorkedPass {
  int operation = plan::none;
  std::vector<int> days;
};
std::vector<WorkedPass> worked_passes(const plan::YearRun& run, std::size_t field) {
  std::vector<WorkedPass> passes;
  bool goes_on = false;
  for (const plan::Work& w : run.work) {
    if (w.field != static_cast<int>(field) || w.stands_by) continue;
    if (!goes_on) passes.push_back({w.operation, {}});
    passes.back().days.push_back(w.day);
    goes_on = !w.finishes;
  }
  return passes;
}

/// The chain asks for nothing but passes that were worked, each on days that it opens: it costs no more than
/// they did. Water that runs in by itself and what may be left out ask for nobody.
bool holds(const dispatch::Table& t, const Chain& chain, std::size_t pass,
           const std::vector<WorkedPass>& worked, std::size_t from) {
  if (pass == chain.passes.size()) return true;
  const Opening& o = chain.passes[pass];
  const auto& op = t.problem->farm.book.operations[static_cast<std::size_t>(o.operation)];
  if ((o.free_from || op.water == method::Water::fill) && holds(t, chain, pass + 1, worked, from))
    return true;
  for (std::size_t k = from; k < worked.size(); ++k) {
    const bool open = worked[k].operation == o.operation && std::ranges::all_of(worked[k].days, [&](int day) {
                        return std::ranges::binary_search(o.days, day);
                      });
    if (open && holds(t, chain, pass + 1, worked, k + 1)) return true;
  }
  return false;
}

/// "bale: rake on day 12, field 3, year 2; "
std::string words_of(const dispatch::Table& t, const plan::Decision& d, const plan::Work& w,
                     std::size_t year) {
  const method::Book& book = t.problem->farm.book;
  const int method = d.method[static_cast<std::size_t>(w.field)];
  return book.recipes[static_cast<std::size_t>(method)].id.value + ": " +
         book.operations[static_cast<std::size_t>(w.operation)].id.value + " on day " +
         std::to_string(w.day) + (w.fell_back ? " fallen back" : "") + ", field " + std::to_string(w.field) +
         ", year " + std::to_string(year) + "; ";
}

/// Plays a decision in a year and compares every stretch of work with the openings of its field.
void compare(const dispatch::Table& t, const plan::Decision& d, std::size_t year, Exceptions& e) {
  const plan::YearRun run = dispatch::run(t, d, year);
  for (std::size_t f = 0; f < d.method.size(); ++f) {
    if (d.method[f] == plan::none) continue;
    const Openings o = openings_of(t, f, year, static_cast<std::size_t>(d.method[f]));
    std::vector<Chain> fall_backs;
    for (const FallBack& b : o.fall_backs) fall_backs.push_back(b.chain);
    ++e.sequences;
    std::map<int, int> done;  // passes by operation, own steps only
    for (const plan::Work& w : run.work) {
      if (w.field != static_cast<int>(f) || w.stands_by) continue;
      ++e.works;
      const bool hauls =
          t.problem->farm.book.operations[static_cast<std::size_t>(w.operation)].implement == "bale_wagon";
      const bool open = (!w.fell_back && opens(o.own, w.operation, w.day)) ||
                        ((w.fell_back || hauls) && opens(fall_backs, w.operation, w.day));
      if (!open) {
        ++e.closed_days;
        e.where += words_of(t, d, w, year);
      }
      if (w.finishes && !w.fell_back) ++done[w.operation];
    }
    if (run.fields[f].fell_back || run.fields[f].ready_day == plan::none) continue;
    for (const auto& [operation, passes] : done)
      if (passes < most_passes(o.own, operation, true)) ++e.too_many_passes;
    const std::vector<WorkedPass> worked = worked_passes(run, f);
    ++e.whole;
    if (std::ranges::none_of(o.own, [&](const Chain& c) { return holds(t, c, 0, worked, 0); })) {
      ++e.in_no_chain;
      e.where += "in no chain: field " + std::to_string(f) + ", year " + std::to_string(year) + "; ";
    }
  }
}

}  // namespace

TEST_CASE(
    "openings hold every day of work of 2000 random sequences, whole ones in one chain, and no more passes",
    "[identity]") {
  Exceptions e;
  for (std::uint64_t k = 0; e.sequences < 2000; ++k) {
    const farm::Problem p = test::open_problem(8);
    const dispatch::Table t = dispatch::make_table(p, k);
    for (std::size_t y = 0; y < 8; ++y) {
      Draws draws{11, stream_of("sequence"), (k << 8) + y};
      compare(t, test::random_decision(t, draws), y, e);
    }
  }
  CAPTURE(e.where);
  CHECK(e.works > 10000);
  CHECK(e.closed_days == 0);
  CHECK(e.too_many_passes == 0);
  CHECK(e.whole > 500);
  CHECK(e.in_no_chain == 0);
}

TEST_CASE("how often the next step is worked hangs on the end of a pass alone, not on the days before",
          "[regression]") {
  const farm::Problem p = test::open_problem(8);
  const dispatch::Table t = dispatch::make_table(p, 1);
  std::size_t shut = 0;
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f)
    for (std::size_t y = 0; y < 8; ++y)
      for (const auto& o : openings_of_all(t, f, y)) {
        if (!o) continue;
        for (const Chain& a : o->own)
          for (const Chain& b : o->own)
            for (std::size_t k = 0; k < std::min(a.passes.size(), b.passes.size()); ++k) {
              const Opening &one = a.passes[k], &other = b.passes[k];
              if (one.operation != other.operation) break;
              if (one.may_end == other.may_end && one.days == other.days) continue;
              if (!one.may_end.empty() && !other.may_end.empty()) CHECK(one.days == other.days);
              for (const char may_end : one.may_end) shut += may_end == 0 ? 1 : 0;
              break;
            }
      }
  CHECK(shut > 0);
}

TEST_CASE("recipes that share a fall-back share its openings only if they haul alike", "[identity]") {
  farm::Problem p = test::open_problem(2);
  method::Recipe left = p.farm.book.recipes[static_cast<std::size_t>(test::recipe_named(p.farm, "bale"))];
  left.id = MethodId{"bale_left"};
  std::erase_if(left.steps, [&](const method::Step& s) {
    return p.farm.book.operations[static_cast<std::size_t>(s.operation)].implement == "bale_wagon";
  });
  p.farm.book.recipes.push_back(left);
  const dispatch::Table t = dispatch::make_table(p, 1);
  std::size_t compared = 0;
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) {
    const auto all = openings_of_all(t, f, 0);
    for (std::size_t r = 0; r < all.size(); ++r) {
      if (!all[r]) continue;
      const Openings alone = openings_of(t, f, 0, r);
      REQUIRE(all[r]->fall_backs.size() == alone.fall_backs.size());
      for (std::size_t k = 0; k < alone.fall_backs.size(); ++k) {
        CHECK(all[r]->fall_backs[k].done_share == alone.fall_backs[k].done_share);
        CHECK(all[r]->fall_backs[k].chain.passes.size() == alone.fall_backs[k].chain.passes.size());
        ++compared;
      }
    }
  }
  CHECK(compared > 10);
}
