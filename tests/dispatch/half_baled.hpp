#pragma once
// Fields on which baling has begun and hauling goes on behind it; on some of them raking has begun anew.

#include <algorithm>

#include "aftercut/core/shuffle.hpp"
#include "aftercut/farm/problem.hpp"

namespace aftercut::test {

inline int operation_at(const method::Book& book, const std::string& id) {
  const auto& all = book.operations;
  return static_cast<int>(std::ranges::find(all, id, [](const auto& o) { return o.id.value; }) - all.begin());
}

/// Of every field that was cut four days ago and on which nothing has been done, a drawn part is baled and a
/// drawn part of that hauled. How many fields they are.
inline int bale_in_part(farm::Problem& p, Draws& draws) {
  const farm::Farm& farm = p.farm;
  const int rake = operation_at(farm.book, "rake"), bale = operation_at(farm.book, "bale"),
            haul = operation_at(farm.book, "haul");
  int fields = 0;
  const auto touched = [&](std::size_t f) {
    return std::ranges::any_of(p.so_far.events, [&](const farm::Happened& h) {
      const auto* w = std::get_if<farm::WorkDone>(&h.what);
      return w != nullptr && w->field == f;
    });
  };
  const auto add = [&](int days_ago, std::size_t f, int operation, double ha) {
    p.so_far.events.push_back({5000 + 10 * static_cast<int>(f) - days_ago, p.as_of - days_ago,
                               farm::WorkDone{.field = f, .operation = operation, .area_ha = ha}});
  };
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (farm.fields[f].harvest > p.as_of - 4 || touched(f)) continue;
    const double baled = farm.fields[f].area.value() * (0.1 + 0.8 * draws.uniform());
    add(3, f, bale, baled);
    add(2, f, haul, baled * draws.uniform());
    if (draws.below(4) == 0) add(1, f, rake, 0.5 * baled);
    ++fields;
  }
  std::ranges::stable_sort(p.so_far.events, {}, [](const auto& h) { return std::pair{h.day, h.seq}; });
  p.so_far.entries = static_cast<int>(p.so_far.events.size());
  return fields;
}

}  // namespace aftercut::test
