// Contracts of hired outfits: plans that keep them are clean, one thing changed is named.

#include <algorithm>
#include <functional>

#include "catch2/catch.hpp"
#include "hired_farm.hpp"
#include "sound_plan.hpp"

#include "aftercut/scenario/base_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

struct Contract {
  const char* name;
  std::function<void(farm::Problem&)> make;
};

void by_chance(farm::Problem& p) {
  terms_of(p).comes = {{make_date(2026, 9, 20), 0.3}, {make_date(2026, 10, 8), 0.8}};
}
void in_order(farm::Problem& p) { terms_of(p).order = {FieldId{"3"}, FieldId{"1"}}; }
void off_by(farm::Problem& p) {
  terms_of(p).bales_off_by = make_date(2026, 11, 12);
  p.farm.implements.front().kind = "torch";
  p.farm.fields[0].locked = p.farm.fields[4].locked = MethodId{"bale_flood"};
}

const std::vector<Contract>& contracts() {
  static const std::vector<Contract> all{
      {"by chance", by_chance},
      {"never",
       [](farm::Problem& p) {
         terms_of(p).comes = {{make_date(2026, 9, 20), 0.0}};
       }},
      {"in its order", in_order},
      {"too little land", [](farm::Problem& p) { terms_of(p).least_area = Hectare{70.0}; }},
      {"charges for more land than there is",
       [](farm::Problem& p) {
         terms_of(p).least_area = Hectare{90.0};
         terms_of(p).below_least = machinery::BelowLeast::charges_least;
       }},
      {"rakes", let_outfit_rake},
      {"rakes, by chance, in its order, takes the bales off",
       [](farm::Problem& p) {
         by_chance(p), in_order(p), off_by(p);
         let_outfit_rake(p);
       }},
      {"paid and sold by the bale",
       [](farm::Problem& p) {
         terms_of(p).per_bale = Money{8.0};
         p.farm.prices.straw_per_bale = Money{5.0};
         p.farm.prices.straw_per_ha = Money{11.0};
         p.farm.bales.storage_loss = 0.2;
       }},
      {"takes the bales off", off_by}};
  return all;
}

plan::PlannedYears plan_of(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = 11, .threads = 1, .evaluations = 6, .progress = {}});
}

std::string names_of(const std::set<std::string>& rules) {
  std::string text;
  for (const auto& r : rules) text += r + "; ";
  return text;
}

/// The plan made for one farm, looked at with the eyes of another.
std::set<std::string> seen_by(const std::function<void(farm::Problem&)>& made_for,
                              const std::function<void(farm::Problem&)>& looked_at) {
  farm::Problem mine = baling_problem(4), theirs = baling_problem(4);
  made_for(mine);
  looked_at(theirs);
  return broken_rules(theirs, plan_of(mine));
}

}  // namespace

TEST_CASE("plans under every contract are clean", "[cross]") {
  for (const Contract& c : contracts()) {
    farm::Problem p = baling_problem(4);
    c.make(p);
    const audit::Audit a = audit::check(p, plan_of(p));
    INFO(c.name << "\n" << listed(a));
    CHECK(a.ok());
    CHECK(a.checks > 1000);
  }
}

TEST_CASE("a contract that the plan did not know is named when it is broken", "[cross]") {
  const auto none = [](farm::Problem&) {};
  struct Break {
    const char* rule;
    std::function<void(farm::Problem&)> term;
  };
  const std::vector<Break> breaks{
      {"outfit not there yet",
       [](farm::Problem& p) {
         terms_of(p).comes = {{make_date(2026, 11, 14), 1.0}};
       }},
      {"outfit not there yet", [](farm::Problem& p) { terms_of(p).least_area = Hectare{200.0}; }},
      {"outfit's order not kept",
       [](farm::Problem& p) {
         terms_of(p).order = {FieldId{"3"}, FieldId{"5"}, FieldId{"2"}, FieldId{"1"}};
       }},
      {"bales that the outfit takes off",
       [](farm::Problem& p) { terms_of(p).bales_off_by = make_date(2026, 12, 1); }},
      {"wrong cost",
       [](farm::Problem& p) {
         terms_of(p).least_area = Hectare{90.0};
         terms_of(p).below_least = machinery::BelowLeast::charges_least;
       }},
      {"wrong cost", [](farm::Problem& p) { terms_of(p).per_bale = Money{1.0}; }},
      {"wrong cost", [](farm::Problem& p) { p.farm.prices.straw_per_ha = Money{1.0}; }},
      {"wrong cost", [](farm::Problem& p) { p.farm.prices.straw_per_bale = Money{1.0}; }},
      {"wrong cost", [](farm::Problem& p) { p.farm.bales.storage_loss = 0.1; }},
      {"unfit outfit", let_outfit_rake}};
  for (const Break& b : breaks) {
    const auto rules = seen_by(none, b.term);
    INFO("expected " << b.rule << ", found " << names_of(rules));
    CHECK(rules.contains(b.rule));
  }
}

TEST_CASE("work moved against a contract is named", "[cross]") {
  farm::Problem p = baling_problem(4);
  off_by(p);
  plan::PlannedYears planned = plan_of(p);
  const std::size_t y = other_year_with(planned, p.farm, "boards_in");
  plan::Work& w = work_of(planned.runs[y], p.farm, "boards_in");
  w.day = p.farm.season.day(make_date(2026, 11, 12));
  const auto rules = broken_rules(p, planned);
  INFO(names_of(rules));
  CHECK((rules.contains("step skipped") || rules.contains("step out of order")));

  farm::Problem chance = baling_problem(4);
  chance.farm.implements[baler_of_small_farm].hire->windows.clear();
  terms_of(chance).comes = {{make_date(2026, 10, 10), 1.0}};
  plan::PlannedYears waited = plan_of(chance);
  const std::size_t z = other_year_with(waited, chance.farm, "bale");
  work_of(waited.runs[z], chance.farm, "bale").day = chance.farm.season.day(make_date(2026, 10, 9));
  CHECK(broken_rules(chance, waited).contains("outfit not there yet"));
}
