#include "tiny_farms.hpp"

#include <algorithm>
#include <numeric>
#include <set>

#include "aftercut/core/shuffle.hpp"
#include "bench_farms.hpp"

namespace aftercut::test {
namespace {

constexpr std::size_t wet_years = 10;  // of the demo's record, the wettest in the weeks of work
constexpr double least_area = 0.6, most_area = 1.6;
constexpr std::uint32_t harvest_spread_days = 15;

/// The weeks that a tiny problem plans.
struct Weeks {
  Date as_of, planting;
  MonthDay fall_back;
};
constexpr int planting_spread_days = 8, late_days = 15;

Weeks drawn_weeks(bool spring, Draws& draws) {
  const int off = static_cast<int>(draws.below(14));
  if (spring) return {make_date(2027, 3, 20) + off, make_date(2027, 4, 20) + off, {4, 10}};
  return {make_date(2026, 10, 1) + off, make_date(2026, 10, 26) + off, {10, 20}};
}

/// The wettest years between two days of the season, as places in the demo's list.
std::vector<std::size_t> wettest(const farm::Calendar& season, Date from, Date to) {
  const auto& years = bench::demo().years.years;
  std::vector<double> rain(years.size(), 0.0);
  for (std::size_t y = 0; y < years.size(); ++y)
    for (int d = season.day(from); d < season.day(to); ++d)
      rain[y] += years[y].days[static_cast<std::size_t>(d)].rain_mm;
  std::vector<std::size_t> places(years.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::stable_sort(places.begin(), places.end(),
                   [&](std::size_t a, std::size_t b) { return rain[a] > rain[b]; });
  places.resize(std::min(places.size(), wet_years));
  return places;
}

std::vector<std::size_t> drawn(std::size_t of, std::size_t count, Draws& draws) {
  std::vector<std::size_t> picks;
  for (const int i : shuffled_indices(of, draws)) picks.push_back(static_cast<std::size_t>(i));
  picks.resize(std::min(count, of));
  std::sort(picks.begin(), picks.end());
  return picks;
}

std::size_t between(std::size_t least, std::size_t most, Draws& draws) {
  return least + draws.below(static_cast<std::uint32_t>(most - least + 1));
}

template <class Value>
std::vector<Value> picked(const std::vector<Value>& from, const std::vector<std::size_t>& picks) {
  std::vector<Value> out;
  for (const std::size_t i : picks) out.push_back(from[i]);
  return out;
}

void draw_next_use(farm::Field& field, const Weeks& weeks, Draws& draws) {
  const Date planting = weeks.planting + static_cast<int>(draws.below(planting_spread_days));
  const auto like = std::find_if(bench::demo().farm.fields.begin(), bench::demo().farm.fields.end(),
                                 [](const farm::Field& f) { return !f.next.late_curve.empty(); });
  field.next = like->next;
  const int later = planting - field.next.planting;
  for (farm::LateNode& node : field.next.late_curve) node.day = node.day + later;
  field.next.planting = planting;
  field.next.window_opens.reset();
  field.next.cut_off = planting + late_days;
}

void draw_fields(farm::Problem& p, const TinyShape& shape, const Weeks& weeks, Draws& draws) {
  farm::Farm& f = p.farm;
  const auto picks = drawn(f.fields.size(), between(shape.least_fields, shape.most_fields, draws), draws);
  f.fields = picked(f.fields, picks);
  f.fits = picked(f.fits, picks);
  f.yield_map = {};
  if (!f.travel.access.empty()) f.travel.access = picked(f.travel.access, picks);
  f.travel.km = picked(f.travel.km, picks);
  for (auto& row : f.travel.km) row = picked(row, picks);
  for (farm::Field& field : f.fields) {
    field.links.clear();
    field.locked.reset();
    field.lease.reset();
    field.not_allowed.clear();
    field.area = Hectare{field.area.value() * (least_area + (most_area - least_area) * draws.uniform())};
    field.soil = draws.below(static_cast<std::uint32_t>(f.soils.size()));
    field.harvest =
        std::max(field.harvest, f.season.first + 20) + static_cast<int>(draws.below(harvest_spread_days));
    draw_next_use(field, weeks, draws);
  }
}

/// One machine of each kind, one or two tractors, two people, and a baler that may come on any day.
void few_machines(farm::Farm& f, const TinyShape& shape, Draws& draws) {
  f.tractors = draws.below(2) == 0 ? picked(f.tractors, {0}) : picked(f.tractors, {0, 1});
  std::set<std::string> kinds;
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < f.implements.size(); ++i)
    if (kinds.insert(f.implements[i].kind).second) kept.push_back(i);
  f.implements = picked(f.implements, kept);
  for (auto& row : f.fits) row = picked(row, kept);
  f.operators.resize(2);
  for (auto& o : f.operators) o.paid = true;
  if (draws.below(2) == 0) f.operators[1].wage_per_h = f.operators[0].wage_per_h;
  for (auto& i : f.implements) {
    if (!i.hire) continue;
    i.hire->windows.clear();
    if (!shape.as_the_demo) i.hire->call_out = Money{0.0};
  }
}

std::size_t place_of(const method::Book& book, const std::string& id) {
  const auto at = std::find_if(book.recipes.begin(), book.recipes.end(),
                               [&](const method::Recipe& r) { return r.id.value == id; });
  return static_cast<std::size_t>(at - book.recipes.begin());
}

/// The recipe without some of its steps, under a name of its own.
method::Recipe without(const method::Book& book, method::Recipe r, const std::string& id,
                       const std::set<std::string>& operations) {
  r.id = MethodId{id};
  std::erase_if(r.steps, [&](const method::Step& s) {
    return operations.contains(book.operations[static_cast<std::size_t>(s.operation)].id.value);
  });
  return r;
}

/// What a seedbed needs at least: a disk pass or two in spring, the groove roller or the plane in autumn.
void shorten(method::Book& book, bool spring, Draws& draws) {
  std::set<std::string> left_out{"rut_disk", "rut_plane", "chisel"};
  if (!spring) left_out.insert("disk_spring");
  const bool plane = draws.below(2) == 0;
  left_out.insert(plane ? "groove_roll" : "plane");
  for (auto& r : book.recipes) {
    r = without(book, r, r.id.value, left_out);
    for (method::Step& s : r.steps)
      if (s.season == method::Season::spring && !spring) s.earliest.reset();
    if (r.steps.empty() || spring) continue;
    r.steps.back().earliest = MonthDay{10, 1};
  }
}

void few_methods(method::Book& book, const TinyShape& shape, const Weeks& weeks, bool spring, Draws& draws) {
  const method::Recipe chopped = book.recipes[place_of(book, "chop_disk")];
  book.recipes.push_back(without(book, chopped, "chop", {"disk"}));
  book.recipes.push_back(without(book, chopped, "disk", {"chop"}));
  shorten(book, spring, draws);
  std::vector<std::string> ids{"bale", "bale_disk", "chop", "disk", "leave"};
  if (shape.as_the_demo && !spring) ids.insert(ids.end(), {"flood", "roll_flood", "roll_rain"});
  std::set<std::string> kept{"chop_disk"};  // what bales fall back on
  const std::size_t more = between(shape.least_methods, shape.most_methods, draws) - kept.size();
  for (const std::size_t i : drawn(ids.size(), more, draws)) kept.insert(ids[i]);
  std::erase_if(book.recipes, [&](const method::Recipe& r) { return !kept.contains(r.id.value); });
  bool falls_back = draws.below(3) == 0;  // one baling method at most, so that exact programmes stay small
  for (auto& r : book.recipes) {
    if (r.fall_back && !falls_back && !shape.as_the_demo) r.fall_back.reset();
    if (r.fall_back) {
      r.fall_back->start_by = weeks.fall_back;
      falls_back = false;
    }
    for (method::Step& s : r.steps)
      if (!shape.as_the_demo) s.give_up.reset();
  }
}

}  // namespace

farm::Problem tiny_problem(std::uint64_t k, const TinyShape& shape) {
  Draws draws{23, stream_of("tiny"), k};
  farm::Problem p = bench::demo();
  const bool spring = k % 2 == 0;
  const Weeks weeks = drawn_weeks(spring, draws);
  p.as_of = weeks.as_of;
  draw_fields(p, shape, weeks, draws);
  few_machines(p.farm, shape, draws);
  few_methods(p.farm.book, shape, weeks, spring, draws);
  if (!shape.as_the_demo) p.farm.most_dry_wait_days = 0;
  if (shape.wanted_chance > 0.0) p.farm.target.risk = farm::Risk::both;
  p.farm.target.wanted_chance = shape.wanted_chance;
  const auto wet = wettest(p.farm.season, weeks.as_of, weeks.planting + late_days);
  std::vector<weather::Year> years;
  for (const std::size_t i : drawn(wet.size(), shape.years, draws))
    years.push_back(bench::demo().years.years[wet[i]]);
  p.years.years = std::move(years);
  return p;
}

std::string words_of(const farm::Problem& p) {
  std::string words = std::to_string(p.farm.fields.size()) + " fields,";
  for (const auto& r : p.farm.book.recipes) words += " " + r.id.value;
  for (const auto& y : p.years.years) words += ", " + std::to_string(y.year);
  return words;
}

}  // namespace aftercut::test
