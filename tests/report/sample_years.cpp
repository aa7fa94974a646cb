// The invented farm's weather years: every step of a field's method, on drawn days.

#include <algorithm>
#include <tuple>

#include "aftercut/core/random.hpp"
#include "sample_farm.hpp"

namespace aftercut::test {
namespace {

plan::Work work(const farm::Farm& farm, int field, int step, const method::Step& s, int day) {
  plan::Work w;
  w.field = field;
  w.step = step;
  w.operation = s.operation;
  w.day = day;
  w.start_min = 420 + 30 * (field % 3);
  w.end_min = w.start_min + 433;
  w.tractor = field % 2;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const auto& wanted = farm.book.operations[static_cast<std::size_t>(s.operation)].implement;
    if (farm.implements[i].kind == wanted) w.implement = static_cast<int>(i);
  }
  if (w.implement == plan::none) w.tractor = plan::none;
  w.crew[0] = field % 3;
  w.area_ha = farm.fields[static_cast<std::size_t>(field)].area.value();
  w.fuel_l = w.tractor == plan::none ? 0.0 : 210.5;
  w.finishes = true;
  return w;
}

void play(const farm::Farm& farm, const std::vector<int>& methods, std::size_t f, plan::YearRun& run) {
  const int m = methods[f];
  if (m == plan::none) return;
  Draws draws{11, stream_of("year"), static_cast<std::uint64_t>(run.year) * 100 + f};
  const auto& recipe_ = farm.book.recipes[static_cast<std::size_t>(m)];
  int day = farm.season.day(farm.fields[f].harvest) + 4, step = 0,
      spring = 200 + static_cast<int>(draws.below(10));
  for (const auto& s : recipe_.steps) {
    int& at = s.season == method::Season::spring ? spring : day;
    at += 2 + static_cast<int>(draws.below(7));
    run.work.push_back(work(farm, static_cast<int>(f), step++, s, at));
  }
  if (recipe_.water && recipe_.water->from_canal) {
    for (int d = 75; d < 80; ++d) run.water.push_back({static_cast<int>(f), d, 2100.25});
  }
  run.fields[f].status = spring > 235 ? plan::Status::late : plan::Status::ready;
  run.fields[f].ready_day = spring;
}

}  // namespace

plan::YearRun sample_year(const farm::Farm& farm, const std::vector<int>& methods, int year) {
  plan::YearRun run;
  run.year = year;
  run.fields.resize(farm.fields.size());
  for (std::size_t f = 0; f < farm.fields.size(); ++f) play(farm, methods, f, run);
  run.fields[6].status = plan::Status::nothing_due;
  run.fields[7].status = plan::Status::no_method;
  std::stable_sort(run.work.begin(), run.work.end(), [](const plan::Work& a, const plan::Work& b) {
    return std::tie(a.day, a.start_min, a.field) < std::tie(b.day, b.start_min, b.field);
  });
  return run;
}

}  // namespace aftercut::test
