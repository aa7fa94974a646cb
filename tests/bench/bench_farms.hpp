#pragma once
// Farms of a size, made of the demo's fields and machines laid several times. Header only.

#include <stdexcept>

#include "aftercut/farm/read.hpp"

namespace aftercut::bench {

inline const farm::Problem& demo() {
  static const farm::Problem problem = [] {
    const auto read = farm::read(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo", {});
    if (!read) throw std::runtime_error("the demo farm has issues");
    farm::Problem money_alone = read.value();
    money_alone.farm.target.risk = farm::Risk::price;
    return money_alone;
  }();
  return problem;
}

/// So many fields; everybody is paid, and for each so many of them there are the demo's machines and people
/// once.
inline farm::Problem farm_of(std::size_t fields, std::size_t fields_a_set = 24) {
  farm::Problem p = demo();
  const farm::Farm& from = demo().farm;
  const std::size_t n = from.fields.size();
  const auto again = [](std::string& id, std::size_t round) {
    if (round > 0) id += "-" + std::to_string(round + 1);
  };
  p.farm.fields.clear();
  p.farm.travel.km.assign(fields, std::vector<double>(fields, 0.0));
  p.farm.travel.access.clear();
  const std::size_t rounds = (fields + fields_a_set - 1) / fields_a_set;
  for (std::size_t r = 1; r < rounds; ++r) {
    for (auto t : from.tractors) again(p.farm.tractors.emplace_back(std::move(t)).id.value, r);
    for (auto i : from.implements) again(p.farm.implements.emplace_back(std::move(i)).id.value, r);
    for (auto o : from.operators) again(p.farm.operators.emplace_back(std::move(o)).id.value, r);
  }
  for (auto& o : p.farm.operators) o.paid = true;
  p.farm.fits.clear();
  for (std::size_t k = 0; k < fields; ++k) {
    farm::Field field = from.fields[k % n];
    again(field.id.value, k / n);
    field.links.clear();
    p.farm.fields.push_back(std::move(field));
    if (!from.travel.access.empty()) p.farm.travel.access.push_back(from.travel.access[k % n]);
    for (std::size_t j = 0; j < fields; ++j)
      if (!from.travel.km.empty()) p.farm.travel.km[k][j] = from.travel.km[k % n][j % n];
    auto& fits = p.farm.fits.emplace_back();
    for (std::size_t r = 0; r < rounds; ++r)
      fits.insert(fits.end(), from.fits[k % n].begin(), from.fits[k % n].end());
  }
  return p;
}

/// The same, short of machines and people: a set for sixty fields; for fewer fields one disk and two people.
inline farm::Problem short_of_machines(std::size_t fields) {
  farm::Problem p = farm_of(fields, 60);
  if (fields >= 60) return p;
  auto& implements = p.farm.implements;
  for (std::size_t i = implements.size(); i-- > 0;) {
    if (implements[i].id.value != "disk 2") continue;
    implements.erase(implements.begin() + static_cast<std::ptrdiff_t>(i));
    for (auto& fits : p.farm.fits) fits.erase(fits.begin() + static_cast<std::ptrdiff_t>(i));
  }
  p.farm.operators.resize(2);
  return p;
}

}  // namespace aftercut::bench
