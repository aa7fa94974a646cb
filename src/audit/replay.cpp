#include "replay.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "burning.hpp"
#include "canal.hpp"
#include "cash.hpp"
#include "hired.hpp"
#include "links.hpp"
#include "money.hpp"
#include "outfits.hpp"
#include "roads.hpp"

namespace aftercut::audit {
namespace {

constexpr double mass_tolerance = 1e-3;   // kg/ha
constexpr double litre_tolerance = 1e-3;  // sums of stretches rounded to 6 decimals
constexpr double water_tolerance_m3 = 1e-2;

bool within(int index, std::size_t size) { return index >= 0 && index < static_cast<int>(size); }
bool none_or_within(int index, std::size_t size) { return index == plan::none || within(index, size); }

/// Every index of the stretch points at something.
bool readable(const farm::Farm& farm, const plan::Work& w) {
  return within(w.field, farm.fields.size()) && within(w.operation, farm.book.operations.size()) &&
         within(w.day, static_cast<std::size_t>(farm.season.days)) &&
         none_or_within(w.tractor, farm.tractors.size()) &&
         none_or_within(w.implement, farm.implements.size()) &&
         std::all_of(w.crew.begin(), w.crew.end(),
                     [&](int p) { return none_or_within(p, farm.operators.size()); });
}

struct Days {
  std::vector<std::vector<plan::Work>> work;      ///< [season day] by start
  std::vector<std::vector<plan::WaterIn>> water;  ///< [season day]
  Findings findings;
};

Days by_day(const farm::Farm& farm, const plan::YearRun& run) {
  const auto n = static_cast<std::size_t>(farm.season.days);
  Days days{std::vector<std::vector<plan::Work>>(n), std::vector<std::vector<plan::WaterIn>>(n), {}};
  const auto note = [&](bool good, int day, int field) {
    days.findings.expect(good, "unknown reference", Place{&farm, run.year, day, field, ""}, [] {
      return Texts{"an index of nothing", "a field, operation, machine or person of the farm"};
    });
  };
  for (const auto& w : run.work) {
    const bool good = readable(farm, w);
    note(good, w.day, w.field);
    if (good) days.work[static_cast<std::size_t>(w.day)].push_back(w);
  }
  for (const auto& w : run.water) {
    const bool good = within(w.field, farm.fields.size()) && within(w.day, n) && w.m3 >= 0.0;
    note(good, w.day, w.field);
    if (good) days.water[static_cast<std::size_t>(w.day)].push_back(w);
  }
  for (auto& day : days.work)
    std::stable_sort(day.begin(), day.end(),
                     [](const plan::Work& a, const plan::Work& b) { return a.start_min < b.start_min; });
  return days;
}

/// What the fields of a year share.
struct Shared {
  season::YearDrivers drivers;
  const std::vector<weather::Day>* days = nullptr;  ///< the year's weather
  std::vector<int> since_rain_reset;
  std::vector<std::optional<int>> arrived;  ///< [implement] day from which it is there
  std::set<int> called_out;                 ///< hired outfits that came already
  double burned_season_ha = 0.0, burned_today_ha = 0.0;
};

struct WorkedDay {
  std::vector<FieldReplay> fields;
  Shared shared;
  Findings findings;
};

BurnDay burn_day(const Facts& facts, const Shared& s, int day) {
  const auto d = static_cast<std::size_t>(day);
  return {burn_called(facts, s.drivers.year, day), s.since_rain_reset[d], s.days->at(d), s.burned_today_ha,
          s.burned_season_ha};
}

/// A crew that waits: its field's step is the burn, the burn is due, and nothing but the call is missing.
Findings wait_of(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                 const BurnDay& day) {
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
  Findings f = check_order(farm, place, field.standing, w);
  f.expect(op.burning, "wait for nothing", place, [&] { return Texts{op.id.value, "a burn"}; });
  f += check_waiting_crew(facts, place.year, w);
  if (step_of(farm, field.standing) != nullptr) f += check_dates(facts, place, field.standing);
  f += check_conditions(farm, place, op, field.mask);
  f += check_ruts(place, op, field.life.rutted());
  f += check_wait(facts, place, field, w, day);
  return f;
}

WorkedDay work_of_day(const Facts& facts, WorkedDay now, const std::vector<plan::Work>& stretches, int day) {
  const farm::Farm& farm = facts.farm();
  const int year = now.shared.drivers.year;
  now.findings += check_together(facts, year, stretches);
  now.shared.burned_today_ha = 0.0;
  now.findings +=
      check_waits_of_day(facts, year, day, now.fields, stretches, burn_day(facts, now.shared, day));
  for (const plan::Work& w : stretches) {
    const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
    const Place place{&farm, year, day, w.field, op.id.value};
    FieldReplay& field = now.fields[static_cast<std::size_t>(w.field)];
    if (w.stands_by) {
      now.findings += wait_of(facts, place, field, w, burn_day(facts, now.shared, day));
      field = waited(facts, std::move(field), w);
      continue;
    }
    now.findings += check_outfit(facts, year, w);
    now.findings += check_ways(farm, place, w, now.shared.drivers.rain_mm);
    now.findings += check_hired(facts, place, w, now.shared.arrived, now.fields);
    if (op.burning) {
      now.findings += check_burn(facts, place, field, w, burn_day(facts, now.shared, day));
      now.shared.burned_today_ha += w.area_ha;
      now.shared.burned_season_ha += w.area_ha;
    }
    const bool first_call = w.implement != plan::none && now.shared.called_out.insert(w.implement).second;
    Worked worked = work(facts, place, std::move(field), w, first_call);
    now.findings += std::move(worked.findings);
    field = std::move(worked.field);
  }
  return now;
}

}  // namespace

Replayed replay(const Facts& facts, const plan::Decision& decision, const plan::YearRun& run,
                std::size_t year) {
  const farm::Farm& farm = facts.farm();
  const auto drivers = season::drivers_of(facts.problem->years.years.at(year), facts.problem->farm);
  Days days = by_day(farm, run);
  WorkedDay now;
  now.shared = {drivers,
                &facts.problem->years.years.at(year).days,
                days_since_rain_reset(facts.burn_limits, drivers.rain_mm),
                arrivals(facts, decision, run.year),
                {},
                facts.so_far ? facts.so_far->burned_ha : 0.0,
                0.0};
  for (std::size_t i = 0; facts.so_far && i < facts.so_far->implements.size(); ++i)
    if (facts.so_far->implements[i].called_out) now.shared.called_out.insert(static_cast<int>(i));
  now.findings = std::move(days.findings);
  const int n = static_cast<int>(farm.fields.size());
  for (int f = 0; f < n; ++f)
    now.fields.push_back(start(facts, f, decision.method[static_cast<std::size_t>(f)], drivers));
  const auto each_living = [&](const auto& change) {
    for (int f = 0; f < n; ++f) {
      FieldReplay& field = now.fields[static_cast<std::size_t>(f)];
      if (field.living) field = change(f, std::move(field));
    }
  };
  MoneyByMonth money{farm, n};
  const int first_day = facts.so_far ? facts.so_far->day : 0;
  for (int day = first_day; day < farm.season.days; ++day) {
    const auto d = static_cast<std::size_t>(day);
    each_living([&](int f, FieldReplay field) { return wake(facts, f, std::move(field), day); });
    now.findings += check_drawdown(farm, now.fields, days.work[d], run.year);
    std::vector<double> seeping;
    for (int f = 0; f < n; ++f) seeping.push_back(seeping_mm(farm, now.fields, f));
    now = work_of_day(facts, std::move(now), days.work[d], day);
    Watered watered = let_water(facts, decision, std::move(now.fields), days.water[d], run.year, day);
    now.fields = std::move(watered.fields);
    now.findings += std::move(watered.findings);
    const BurnDay burns = burn_day(facts, now.shared, day);
    each_living([&](int f, FieldReplay field) {
      field.run.not_burned = count_not_burned(facts, Place{&farm, run.year, day, f, ""}, field, burns);
      field = after_round(farm, f, std::move(field), drivers.rain_mm[d]);
      field.water_mm += seeping[static_cast<std::size_t>(f)];
      return rest(facts, f, std::move(field), day);
    });
    for (int f = 0; f < n; ++f) money.note(f, day, now.fields[static_cast<std::size_t>(f)].run.cost);
  }
  Replayed out{std::move(now.findings), {}, {}, {}, {}};
  const std::vector<std::int64_t> more = charged_for_least_area(facts, now.fields);
  for (int f = 0; f < n; ++f) {
    out.fields.push_back(close(facts, f, now.fields[static_cast<std::size_t>(f)]));
    out.fields.back().cost.hire += more[static_cast<std::size_t>(f)];
    out.winter.push_back(std::move(now.fields[static_cast<std::size_t>(f)].winter));
    money.note_end(f, out.fields.back().cost);
    out.untouched_on_top.push_back(
        untouched_on_top(facts, f, drivers, out.fields.back().next_crop.spring_day));
  }
  out.money = money.months();
  return out;
}

Findings compare_outcome(const Place& place, const plan::FieldRun& found, const plan::FieldRun& expected) {
  Findings f;
  const auto whole = [&](std::int64_t a, std::int64_t b, const char* rule) {
    f.expect(a == b, rule, place, [&] { return Texts{fmt::format("{}", a), fmt::format("{}", b)}; });
  };
  const auto day = [&](int d) {
    return d == plan::none ? std::string("never") : iso(place.farm->season.date(d));
  };
  f.expect(found.ready_day == expected.ready_day, "wrong ready day", place, [&] {
    return Texts{day(found.ready_day), day(expected.ready_day)};
  });
  f.expect(found.straw_done_day == expected.straw_done_day, "wrong straw-done day", place, [&] {
    return Texts{day(found.straw_done_day), day(expected.straw_done_day)};
  });
  f.expect(found.straw_over_day == expected.straw_over_day, "wrong straw-over day", place, [&] {
    return Texts{day(found.straw_over_day), day(expected.straw_over_day)};
  });
  whole(static_cast<int>(found.status), static_cast<int>(expected.status), "wrong status");
  whole(found.fell_back, expected.fell_back, "wrong fall-back");
  whole(found.steps_passed_over, expected.steps_passed_over, "wrong steps passed over");
  whole(found.finished_dry, expected.finished_dry, "wrong count of passes on too dry ground");
  for (const plan::NotBurnedPart& part : plan::not_burned_parts)
    whole(found.not_burned.*part.of, expected.not_burned.*part.of, "wrong count of days not burned");
  whole(found.machine_min, expected.machine_min, "hours balance");
  whole(found.labour_min, expected.labour_min, "hours balance");
  f.expect_near(found.fuel_l, expected.fuel_l, litre_tolerance, "fuel balance", place);
  f.expect_near(found.water_m3, expected.water_m3, water_tolerance_m3, "water balance", place);
  f.expect_near(found.straw_left_kg_per_ha, expected.straw_left_kg_per_ha, mass_tolerance, "straw balance",
                place);
  f.expect_near(found.baled_kg_per_ha, expected.baled_kg_per_ha, mass_tolerance, "straw balance", place);
  f.expect_near(found.burned_kg_per_ha, expected.burned_kg_per_ha, mass_tolerance, "straw balance", place);
  f.expect_near(found.decayed_kg_per_ha, expected.decayed_kg_per_ha, mass_tolerance, "straw balance", place);
  f += compare_costs(place, found.cost, expected.cost, 1);
  f += compare_next_crop(place, found.next_crop, expected.next_crop);
  return f;
}

Replayed lived_again(const Facts& facts, const plan::Decision& decision, const plan::YearRun& run,
                     std::size_t year, const char* what) {
  Replayed lived = replay(facts, decision, run, year);
  for (std::size_t f = 0; f < std::min(run.fields.size(), lived.fields.size()); ++f)
    lived.findings += compare_outcome({&facts.farm(), run.year, -1, static_cast<int>(f), what}, run.fields[f],
                                      lived.fields[f]);
  return lived;
}

}  // namespace aftercut::audit
