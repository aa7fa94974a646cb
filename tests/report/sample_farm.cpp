#include "sample_farm.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/numbers.hpp"
#include "aftercut/core/random.hpp"

namespace aftercut::test {
namespace {

constexpr int season_days = 273;
constexpr std::array<const char*, 9> ids{"1", "2", "3", "4", "5", "6", "7", "10", "11"};
constexpr std::array<const char*, 9> names{"Home check",        "Long check",    "East <b>half</b>",
                                           "Slough \"corner\"", "Middle, north", "Middle, south",
                                           "Rest field",        "Ditch side",    "Far lease"};

farm::Field field(std::size_t i) {
  farm::Field f;
  f.id = FieldId{ids[i]};
  f.name = names[i];
  f.area = Hectare{18.0 + 3.5 * static_cast<double>(i)};
  const double x = -121.9 + 0.0105 * static_cast<double>(i % 3);
  const double y = 39.3 - 0.0075 * static_cast<double>(i / 3);
  if (i != 8) f.shape = geo::rectangle({x, y}, f.area, 1.4);
  f.invented_shape = i % 4 == 2;
  f.cut = i < 2;
  f.harvest = make_date(2026, 9, 10) + static_cast<int>(3 * i);
  f.straw_load = KgPerHa{6800.0 + 210.0 * static_cast<double>(i)};
  f.lay = i % 2 == 0 ? straw::Lay::windrow : straw::Lay::spread;
  f.next.kind = i == 6 ? farm::NextUseKind::fallow : farm::NextUseKind::rice;
  f.next.planting = make_date(2027, 4, 25) + static_cast<int>(2 * i);
  f.next.cut_off = make_date(2027, 5, 30);
  return f;
}

machinery::Implement implement(const char* id, const char* name, const char* kind, bool hired) {
  machinery::Implement i;
  i.id = MachineId{id};
  i.name = name;
  i.kind = kind;
  i.width = Metre{6.0};
  if (hired) i.hire = machinery::Hire{};
  return i;
}

burn::Jurisdiction jurisdiction() {
  burn::Jurisdiction j;
  j.name = "Invented district";
  j.authority = "the district air office";
  j.burn_day_chance = 0.35;
  j.rules = {{"season_share", "25", "%", "<=", "rule", "invented", make_date(2026, 1, 1), true},
             {"daily_area", "40", "ha", "<=", "permit term", "invented", {}, false},
             {"setback_home", "150", "m", ">=", "permit term", "invented", make_date(2026, 1, 1), true}};
  return j;
}

farm::Farm farm(farm::UnitSystem units) {
  farm::Farm f;
  f.name = "Sample <farm> & \"sons\"";
  f.currency = "USD";
  f.units = units;
  f.season = {make_date(2026, 9, 1), season_days};
  f.site = {39.3, -121.9, 25.0, -8.0, false};
  soil::ProfileInput clay;
  clay.name = "heavy clay";
  f.soils = {soil::make_profile(clay)};
  for (std::size_t i = 0; i < ids.size(); ++i) f.fields.push_back(field(i));
  f.places = {{"Home place", farm::PlaceKind::home, {{}, {}, {{-121.902, 39.302}}}},
              {"Main canal", farm::PlaceKind::canal, {{}, {{{-121.905, 39.3}, {-121.86, 39.3}}}, {}}}};
  f.stacking.places = {{"Levee end", {{}, {}, {{-121.893, 39.296}}}, 400, farm::StackCover::none}};
  f.fields[4].links = {{farm::LinkKind::fills_from, FieldId{"4"}}, {farm::LinkKind::drains_to, FieldId{"6"}}};
  f.tractors = {{MachineId{"T1"}, "Big tractor", KiloWatt{200.0}, machinery::Drive::four_wheel, {}, {}},
                {MachineId{"T2"}, "Small tractor", KiloWatt{110.0}, machinery::Drive::front_assist, {}, {}}};
  f.implements = {implement("baler", "Hired baler", "baler", true),
                  implement("chopper", "Chopper", "chopper", false),
                  implement("disk", "Disk", "disk", false),
                  implement("rake", "Rake", "rake", false),
                  implement("roller", "Cage roller", "cage_roller", false),
                  implement("chisel", "Chisel", "chisel", false),
                  implement("plane", "Plane", "plane", false),
                  implement("groover", "Grooved roller", "grooved_roller", false)};
  for (const char* o : {"Operator A", "Operator B", "Operator C"}) {
    farm::Operator op;
    op.id = OperatorId{std::string{"op"} + o[9]};
    op.name = o;
    f.operators.push_back(op);
  }
  f.burning = jurisdiction();
  f.book = method::builtin_book();
  f.prices.price_year = 2026;
  f.notes = {"field 4: self-crossing boundary mended; area 20.1 -> 20.0 ha", "fields 5 and 6 share 0.2 ha"};
  f.inputs = {{"farm.json", sha256_hex("farm")}, {"weather.csv", sha256_hex("weather")}};
  return f;
}

int recipe(const method::Book& book, const char* id) {
  for (std::size_t r = 0; r < book.recipes.size(); ++r) {
    if (book.recipes[r].id.value == id) return static_cast<int>(r);
  }
  fail("no such recipe");
}

plan::CostParts cost(Draws& draws, double area, const method::Recipe& r) {
  const auto cents = [&](double low, double high) {
    return to_cents(area * (low + (high - low) * draws.uniform()));
  };
  plan::CostParts c;
  c.fuel = cents(25, 60);
  c.wages = cents(15, 45);
  c.repair = cents(8, 25);
  c.ownership = cents(40, 90);
  c.own_labour = cents(3, 9);
  if (r.bales) c.hire = cents(60, 90), c.twine = cents(4, 8), c.straw_income = -cents(20, 60);
  if (r.burns) c.fees = cents(5, 9);
  if (r.water) c.water = cents(20, 45), c.lease_income = -cents(0, 60);
  c.late = cents(0, 30);
  c.unplanted = cents(0, 12);
  return c;
}

/// Invented figures of air, next crop and birds.
plan::Environment environment(const method::Recipe& r, bool rice, Draws& draws) {
  const auto around = [&](double mean) {
    return plan::Figure{mean, mean * 0.5, mean * 1.8, mean * 0.9, mean * 1.1};
  };
  const auto years = [&](double mean) { return plan::YearFigure{mean, mean * 0.8, mean * 1.3}; };
  plan::Environment e;
  if (r.burns)
    for (std::size_t g = 0; g < burn::gases; ++g)
      e.burned[g] = around(100.0 / static_cast<double>(1 + g * g));
  e.rice_years = rice ? 28 : 0;
  e.methane = e.methane_dry_winter = around(rice ? 90.0 + 60.0 * draws.uniform() : 0.0);
  e.methane_flooded_winter = r.water ? around(2.4 * e.methane.mean) : e.methane;
  e.straw_factor = 1.4;
  e.applied_early = 3000.0, e.applied_late = 900.0;
  e.residue_n2o = {0.11, 0.0, 0.36, 0.1, 0.12};
  e.co2e_burn = around(r.burns ? 500.0 : 0.0);
  e.co2e_methane = around(27.0 * e.methane.mean);
  e.co2e_n2o = {30.0, 0.0, 98.0, 27.0, 33.0};
  e.co2e_diesel = around(120.0);
  e.co2e = around(e.co2e_burn.mean + e.co2e_methane.mean + 150.0);
  e.n_taken_up = years(9.5), e.n_given_back = years(7.25), e.n_held = years(14.0);
  if (r.bales || r.burns) e.replacement = around(60.0);
  if (rice) e.disease = plan::YearFigure{0.45, 0.4, 0.52};
  e.waste_grain = years(90.0);
  e.flooded_days = years(r.water ? 85.0 : 3.0), e.bird_days = years(r.water ? 74.0 : 0.0);
  e.late_loss = 12.0, e.late_loss_high = 55.0;
  return e;
}

plan::MethodOutcome outcome(const farm::Farm& farm, std::size_t f, int m, Draws& draws) {
  const method::Recipe& r = farm.book.recipes[static_cast<std::size_t>(m)];
  const double area = farm.fields[f].area.value();
  plan::MethodOutcome o;
  o.method = m;
  o.possible =
      f != 7 && !(r.bales && f == 3) && !(r.burns && f > 2) && !(r.water && r.water->from_canal && f == 4);
  if (!o.possible) {
    o.why_not = {f == 7    ? "the lease rules it out"
                 : r.bales ? "no baler can come in its window"
                 : r.burns ? "blocked: no written disease finding for this field"
                           : "the canal does not reach this field"};
    return o;
  }
  o.mean_cost = cost(draws, area, r);
  o.farm_cost = 9000000 + o.mean_cost.out_of_pocket();
  o.machine_h = area * (0.6 + draws.uniform());
  o.labour_h = o.machine_h * 1.2;
  o.fuel_l = o.machine_h * 31.0;
  o.water_m3 = r.water && r.water->from_canal ? area * 2400.0 : 0.0;
  o.machine_hours = {{"T1", o.machine_h * 0.7}, {"disk", o.machine_h * 0.5}, {"chopper", o.machine_h * 0.2}};
  const double left = 1500.0 + 3500.0 * draws.uniform();
  o.straw_left_kg_per_ha = {left * 0.8, left, left * 1.25};
  const int ready = 205 + static_cast<int>(draws.below(40));
  o.ready = {ready, ready + 9, draws.uniform() < 0.3 ? std::optional<int>{} : std::optional<int>{ready + 22}};
  o.chance_ready = 0.35 + 0.65 * draws.uniform();
  if (draws.uniform() < 0.8) o.last_safe_start = 30 + static_cast<int>(draws.below(60));
  if (r.bales || r.burns) o.removed_n = 24.5, o.removed_p = 4.1, o.removed_k = 66.0;
  o.emissions.co2_diesel_kg = o.fuel_l * 2.697;
  o.emissions.ch4_kg = r.burns ? area * 14.0 : 0.0;
  o.emissions.co2e_kg = o.emissions.co2_diesel_kg + 27.0 * o.emissions.ch4_kg;
  o.environment = environment(r, farm.fields[f].next.kind == farm::NextUseKind::rice, draws);
  o.notes = {"speed of the disk is outside its tested range"};
  return o;
}

plan::FieldPlan field_plan(const farm::Farm& farm, std::size_t f, int chosen) {
  Draws draws{7, stream_of("field"), f};
  plan::FieldPlan p;
  p.load_kg_per_ha = farm.fields[f].straw_load.value();
  p.standing_kg_per_ha = 0.45 * p.load_kg_per_ha;
  p.loose_kg_per_ha = 0.55 * p.load_kg_per_ha;
  for (std::size_t m = 0; m < farm.book.recipes.size(); ++m)
    p.methods.push_back(outcome(farm, f, static_cast<int>(m), draws));
  p.chosen.method = chosen;
  p.chosen.lay = farm.fields[f].cut || chosen == plan::none
                     ? farm.fields[f].lay
                     : farm.book.recipes[static_cast<std::size_t>(chosen)].harvest.lay;
  p.chosen.cut_height_cm = 30.0;
  p.chosen.lay_fixed = farm.fields[f].cut;
  p.chosen.locked = f == 5;
  p.chosen.because = {"lowest cost for the whole farm", "the spring is early enough on this ground"};
  return p;
}

std::vector<plan::ResourceUse> resources(const farm::Farm& farm) {
  std::vector<plan::ResourceUse> out;
  for (const auto& t : farm.tractors) out.push_back({t.id.value, "tractor", {}});
  for (const auto& i : farm.implements) out.push_back({i.id.value, "implement", {}});
  for (const auto& o : farm.operators) out.push_back({o.id.value, "operator", {}});
  Draws draws{3, stream_of("weeks")};
  for (auto& r : out) {
    for (int d = 0; d < season_days; d += 7) {
      const bool busy = (d > 20 && d < 90) || d > 195;
      r.weeks.push_back({d, busy ? 40.0 * draws.uniform() : 0.0,
                         d > 90 && d < 190 ? 12.0 * draws.uniform() : 35.0 + 10.0 * draws.uniform()});
    }
  }
  return out;
}

std::vector<std::vector<double>> workable(const farm::Farm& farm) {
  std::vector<std::vector<double>> out(farm.fields.size());
  for (std::size_t f = 0; f < out.size(); ++f) {
    for (int d = 0; d < season_days; ++d) {
      const double winter = d < 60 ? 1.0 - d / 90.0 : d < 180 ? 0.1 : std::min(1.0, (d - 170) / 70.0);
      out[f].push_back(std::clamp(
          winter - 0.02 * static_cast<double>(f) + 0.05 * ((d * 7 + static_cast<int>(f) * 3) % 5), 0.0, 1.0));
    }
  }
  return out;
}

void add_words(plan::Plan& p) {
  p.cautions = {
      {"burn",
       "Ask the district air office before each burn day; have a crew of two and water at the field.",
       "common practice",
       {0}},
      {"ground", "Stay off wet levees and banks with heavy machines.", "common practice", {0, 1, 2}}};
  p.troubles = {{"every method is barred", "the lease rules out each method", {7}}};
}

plan::Plan plan_of(const farm::Farm& farm) {
  plan::Plan p;
  p.version = "0.1.0";
  p.seed = 7;
  p.as_of = make_date(2026, 9, 14);
  for (int y = 1990; y < 2020; ++y) p.years.push_back(y);
  for (int y = 1991; y < 2020; y += 2) p.shown_years.push_back(y);
  p.estimated = {3, 2, 41, 365, 0};
  const auto& b = farm.book;
  p.decision.method = {
      recipe(b, "burn"),     recipe(b, "bale_disk"), recipe(b, "chop_disk"), recipe(b, "roll_flood"),
      recipe(b, "leave"),    recipe(b, "flood"),     recipe(b, "leave"),     plan::none,
      recipe(b, "roll_rain")};
  p.decision.autumn_order = {0, 1, 2, 3, 4, 5, 6, 7, 8};
  p.decision.spring_order = {8, 7, 6, 5, 4, 3, 2, 1, 0};
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    p.fields.push_back(field_plan(farm, f, p.decision.method[f]));
  p.schedule_year = 2005;
  p.resources = resources(farm);
  p.cost_cents = 10234567;
  p.full_cost_cents = 14456789;
  p.wanted_chance = 0.8;
  p.workable_chance = workable(farm);
  p.evaluations = 1234;
  add_words(p);
  return p;
}

}  // namespace

Sample sample(farm::UnitSystem units) {
  Sample s;
  s.problem.farm = farm(units);
  s.problem.farm.target.risk = farm::Risk::both;
  s.problem.as_of = make_date(2026, 9, 14);
  s.planned.plan = with_sample_reasons(plan_of(s.problem.farm), s.problem.farm);
  for (const int year : s.planned.plan.years) {
    s.planned.runs.push_back(sample_year(s.problem.farm, s.planned.plan.decision.method, year));
  }
  add_jobs(s.planned);
  add_others(s.problem.farm, s.planned);
  add_winters(s.problem.farm, s.planned);
  s.audit.checks = 98765;
  return s;
}

}  // namespace aftercut::test
