#include "winter.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "year_columns.hpp"

namespace aftercut::audit {
namespace {

constexpr int a_week = 7;
constexpr double deeper_than_puddles_mm = 10.0;              // Source: PaddyDepth (assumed)
constexpr double whole_mass = 0.501, third_digit = 5.01e-4;  // half of the last digit printed, and a little

/// The season day after which nothing is looked at.
int last_morning(const Facts& facts, int field) {
  const farm::NextUse& next = facts.farm().fields[static_cast<std::size_t>(field)].next;
  if (next.kind == farm::NextUseKind::fallow) return facts.farm().season.days - 1;
  return facts.farm().season.day(next.planting);
}

bool nothing_due(const Facts& facts, int field) {
  return facts.farm().fields[static_cast<std::size_t>(field)].next.kind == farm::NextUseKind::fallow;
}

std::string ready_text(const farm::Farm& farm, const std::vector<plan::ReadyIn>& days) {
  std::string text;
  for (const plan::ReadyIn& in : days)
    text += fmt::format("{} {}; ", in.year, in.day ? iso(farm.season.date(*in.day)) : "not by the cut-off");
  return text;
}

Findings check_ready_days(const Facts& facts, const Place& place, const std::vector<plan::ReadyIn>& said,
                          const std::vector<int>& years, const std::vector<const plan::FieldRun*>& shown) {
  std::vector<plan::ReadyIn> expected;
  for (std::size_t y = 0; y < shown.size() && !nothing_due(facts, place.field); ++y) {
    const bool came = shown[y]->status == plan::Status::ready || shown[y]->status == plan::Status::late;
    expected.push_back({years[y], came ? std::optional<int>{shown[y]->ready_day} : std::nullopt});
  }
  const std::string a = ready_text(facts.farm(), said), b = ready_text(facts.farm(), expected);
  Findings f;
  f.expect(a == b, "wrong ready days", place, [&] { return Texts{a, b}; });
  return f;
}

Findings check_spread(const Place& place, const plan::Spread& said, const std::vector<double>& values,
                      double tolerance) {
  Findings f;
  f.expect_near(said.p10, between(values, 0.1), tolerance, "wrong winter", place);
  f.expect_near(said.p50, between(values, 0.5), tolerance, "wrong winter", place);
  f.expect_near(said.p90, between(values, 0.9), tolerance, "wrong winter", place);
  return f;
}

Findings check_week(const Place& field, const plan::WinterWeek& said,
                    const std::vector<const plan::WinterMorning*>& mornings) {
  std::vector<double> straw, pores, wet;
  Place place = field;
  place.day = said.day;
  Findings f;
  for (const plan::WinterMorning* m : mornings) {
    straw.push_back(m->straw_kg_per_ha);
    pores.push_back(m->pores_full);
    if (m->under_water) wet.push_back(1.0);
    f.expect(m->day == said.day, "wrong winter", place, [&] {
      return Texts{"this morning", iso(field.farm->season.date(m->day))};
    });
  }
  place.what = "straw";
  f += check_spread(place, said.straw_kg_per_ha, straw, whole_mass);
  place.what = "pores full";
  f += check_spread(place, said.pores_full, pores, third_digit);
  place.what = "under water";
  f.expect_near(said.under_water, static_cast<double>(wet.size()) / static_cast<double>(mornings.size()),
                third_digit, "wrong winter", place);
  return f;
}

/// The arrays p10, p50 and p90 at place k; 0 and an issue where one is too short.
plan::Spread spread_at(JsonIn& in, const Json& columns, std::size_t k, const std::string& place) {
  const auto at = [&](const char* key) {
    const Json& column = in.array(columns, key, place);
    if (k < column.size() && column[k].is_number()) return column[k].get<double>();
    in.issue(place + "." + key, "no number", fmt::format("a number for week {}", k + 1),
             "write the plan again");
    return 0.0;
  };
  return {at("p10"), at("p50"), at("p90")};
}

}  // namespace

std::vector<plan::WinterMorning> winter_morning(const Facts& facts, int field,
                                                std::vector<plan::WinterMorning> winter,
                                                const season::FieldYear& life) {
  const bool due = winter.empty() || life.day() == winter.back().day + a_week;
  if (!due || life.day() > last_morning(facts, field)) return winter;
  const farm::Farm& farm = facts.farm();
  const soil::Profile& soil = farm.soils.at(farm.fields[static_cast<std::size_t>(field)].soil);
  double straw = 0.0;
  for (const auto p :
       {straw::Place::standing, straw::Place::flat, straw::Place::pressed, straw::Place::mixed})
    straw += life.pools().at(p);
  winter.push_back({life.day(), straw, soil::seedbed_content(soil, life.water()) / soil.saturation,
                    life.water().ponded_mm > deeper_than_puddles_mm});
  return winter;
}

std::vector<plan::WinterMorning> winter_to_planting(const Facts& facts, int field,
                                                    std::vector<plan::WinterMorning> winter,
                                                    season::FieldYear life) {
  while (life.day() <= last_morning(facts, field)) {
    winter = winter_morning(facts, field, std::move(winter), life);
    life.end_day(0.0);
  }
  return winter;
}

std::vector<plan::ReadyIn> read_ready_days(JsonIn& in, const Json& field, const std::string& place) {
  std::vector<plan::ReadyIn> days;
  for (const Json& row : in.array(field, "ready_days", place)) {
    const std::string where = place + ".ready_days";
    plan::ReadyIn ready{.year = in.small(row, "year", where), .day = std::nullopt};
    if (in.text(row, "ready", where).rfind("not by", 0) != 0) ready.day = in.day(row, "ready", where, false);
    days.push_back(ready);
  }
  return days;
}

std::vector<plan::WinterWeek> read_winter(JsonIn& in, const Json& field, const std::string& place) {
  std::vector<plan::WinterWeek> weeks;
  const std::string where = place + ".winter";
  const Json& winter = in.get(field, "winter", place);
  if (winter.is_null()) return weeks;
  const int first = in.day(winter, "first", where, false), every = in.small(winter, "every_days", where);
  const Json& wet = in.array(winter, "under_water", where);
  for (std::size_t k = 0; k < wet.size(); ++k)
    weeks.push_back({.day = first + every * static_cast<int>(k),
                     .straw_kg_per_ha = spread_at(in, in.get(winter, "straw_kg_per_ha", where), k, where),
                     .pores_full = spread_at(in, in.get(winter, "pores_full", where), k, where),
                     .under_water = wet[k].is_number() ? wet[k].get<double>() : -1.0});
  return weeks;
}

Findings check_winter(const Facts& facts, const plan::Plan& plan, const std::vector<int>& years,
                      const std::vector<std::vector<plan::FieldRun>>& runs,
                      const std::vector<std::vector<std::vector<plan::WinterMorning>>>& winter) {
  Findings f;
  for (std::size_t k = 0; k < plan.fields.size(); ++k) {
    const Place place{&facts.farm(), -1, -1, static_cast<int>(k), ""};
    std::vector<int> shown_years;
    std::vector<const plan::FieldRun*> shown;
    std::vector<const std::vector<plan::WinterMorning>*> winters;
    for (std::size_t y = 0; y < years.size(); ++y) {
      if (std::find(plan.shown_years.begin(), plan.shown_years.end(), years[y]) == plan.shown_years.end())
        continue;
      shown_years.push_back(years[y]);
      shown.push_back(&runs[y][k]);
      winters.push_back(&winter[y][k]);
    }
    if (shown.empty()) continue;
    f += check_ready_days(facts, place, plan.fields[k].ready_days, shown_years, shown);
    const std::size_t weeks = winters.front()->size();
    f.expect(plan.fields[k].winter.size() == weeks, "wrong winter", place, [&] {
      return Texts{fmt::format("{} weeks", plan.fields[k].winter.size()), fmt::format("{} weeks", weeks)};
    });
    for (std::size_t w = 0; w < std::min(weeks, plan.fields[k].winter.size()); ++w) {
      std::vector<const plan::WinterMorning*> mornings;
      for (const auto* one : winters)
        if (w < one->size()) mornings.push_back(&(*one)[w]);
      f += check_week(place, plan.fields[k].winter[w], mornings);
    }
  }
  return f;
}

}  // namespace aftercut::audit
