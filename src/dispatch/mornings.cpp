// The fields' first mornings: lives from the season's first day, or from what has been done and seen.

#include "mornings.hpp"

#include <algorithm>

#include "take_up.hpp"

namespace aftercut::dispatch {
namespace {

/// The combine settings that the recipes ask for; a cut field has one, its own.
std::vector<method::HarvestSetting> add_settings(Table& t, const farm::Field& field) {
  std::vector<method::HarvestSetting> settings{method::HarvestSetting{}};
  auto& index = t.setting_of.emplace_back(1, 0);
  for (const auto& r : t.problem->farm.book.recipes) {
    std::size_t at = 0;
    while (!field.cut && at < settings.size() &&
           !(settings[at].lay == r.harvest.lay && settings[at].cut_height_cm == r.harvest.cut_height_cm))
      ++at;
    if (at == settings.size()) settings.push_back(r.harvest);
    index.push_back(static_cast<int>(at));
  }
  return settings;
}

/// Lives that go on from the season so far, or from the season's first day.
std::vector<season::FieldYear> first_lives(const Table& t, std::size_t f, const season::YearDrivers& drivers,
                                           const std::vector<method::HarvestSetting>& settings) {
  std::vector<season::FieldYear> lives;
  const farm::Farm& farm = t.problem->farm;
  for (const auto& setting : settings) lives.emplace_back(farm, f, drivers, setting);
  if (!t.so_far) return lives;
  for (season::FieldYear& life : lives) life.go_on_from(t.so_far->fields[f].now);
  if (t.so_far->fields[f].running) lives.push_back(broken_off(t, f, lives.front()));
  return lives;
}

/// Where every method takes up the field; one that breaks off the pass that runs takes the last life.
void add_starts(Table& t, std::size_t f, std::size_t settings) {
  auto& starts = t.starts.emplace_back();
  for (std::size_t r = 0; r < t.problem->farm.book.recipes.size(); ++r) {
    starts.push_back(take_up(t, f, r));
    if (starts.back().breaks_off) t.setting_of[f][r + 1] = static_cast<int>(settings);
  }
  if (t.so_far && t.so_far->fields[f].running) t.setting_of[f][0] = static_cast<int>(settings);
}

}  // namespace

void add_shut_days(Table& t) {
  const farm::Farm& farm = t.problem->farm;
  t.shut.assign(farm.fields.size(), std::vector<char>(static_cast<std::size_t>(farm.season.days), 0));
  for (const farm::Happened& h : t.problem->so_far.events)
    if (const auto* wet = std::get_if<farm::TooWet>(&h.what))
      for (int d = std::max(farm.season.day(h.day), 0);
           d <= std::min(farm.season.day(wet->until), farm.season.days - 1); ++d)
        t.shut[wet->field][static_cast<std::size_t>(d)] = 1;
}

void add_mornings(Table& t) {
  const farm::Farm& farm = t.problem->farm;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const auto settings = add_settings(t, farm.fields[f]);
    const int first = std::max(t.as_of_day, farm.season.day(farm.fields[f].harvest) + 1);
    add_starts(t, f, settings.size());
    auto& by_year = t.mornings.emplace_back();
    for (const auto& drivers : t.drivers) {
      auto& lived = by_year.emplace_back(first_lives(t, f, drivers, settings));
      std::vector<season::FieldYear*> together;
      for (season::FieldYear& sim : lived) together.push_back(&sim);
      season::live_until(together, std::min(first, farm.season.days));
    }
  }
}

const season::FieldYear& first_morning(const Table& t, std::size_t field, std::size_t year, int recipe) {
  return t.mornings[field][year]
                   [static_cast<std::size_t>(t.setting_of[field][static_cast<std::size_t>(recipe + 1)])];
}

}  // namespace aftercut::dispatch
