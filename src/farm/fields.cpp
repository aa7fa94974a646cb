// A field's merged values into a Field.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

/// Moisture at which grain is traded where none is given [%, wet basis]. Source: common practice.
constexpr double default_grain_moisture_percent = 14.0;
/// Share of the area and depth of ruts where only the word is given. Assumed.
constexpr double default_ground_share_percent = 20.0, default_rut_depth_mm = 100.0;
constexpr Range sensible_yield{0.0, 20000.0};  // kg/ha
constexpr Range sensible_straw{0.0, 25000.0};  // kg/ha

std::size_t soil_of(const Object& v, const std::vector<soil::Profile>& soils) {
  std::vector<std::string> names;
  for (const soil::Profile& s : soils) names.push_back(s.input.name);
  const auto name = v.text("soil");
  if (!name) {
    if (names.size() > 1)
      v.fault("soil", "nothing", "one of " + listed(names), "add a column soil or field_defaults.soil");
    return 0;
  }
  const auto at = std::find(names.begin(), names.end(), *name);
  if (at != names.end()) return static_cast<std::size_t>(at - names.begin());
  if (!names.empty())
    v.fault("soil", in_quotes(*name), "one of " + listed(names),
            did_you_mean(*name, names, "add it under `soils` or correct the name"));
  return 0;
}

Ground ground_of(const Object& v) {
  Ground g;
  const auto state = v.word("ground", {"firm", "tracked", "rutted"});
  if (state) g.state = static_cast<GroundState>(*state);
  const bool firm = g.state == GroundState::firm, rutted = g.state == GroundState::rutted;
  g.share =
      v.quantity("ground_share", "%", {0.0, 100.0}).value_or(firm ? 0.0 : default_ground_share_percent) /
      100.0;
  g.depth_mm = v.quantity("rut_depth", "mm", {0.0, 1000.0}).value_or(rutted ? default_rut_depth_mm : 0.0);
  g.slow_share = v.quantity("slow_end", "%", {0.0, 90.0}).value_or(0.0) / 100.0;
  g.slow_days = v.whole("slow_end_days", 0, 30).value_or(0);
  return g;
}

std::vector<NotAllowed> barred_methods(const Object& v) {
  std::vector<NotAllowed> out;
  for (const Object& o : v.list("not_allowed"))
    out.push_back({MethodId{o.text_or("method", "")}, o.text_or("why", "")});
  std::sort(out.begin(), out.end(),
            [](const NotAllowed& a, const NotAllowed& b) { return a.method < b.method; });
  return out;
}

std::optional<WaterLease> lease_of(const Object& v, const std::string& currency) {
  if (!v.has("lease")) return std::nullopt;
  const Object o = v.child("lease");
  const auto from = o.date("from"), until = o.date("until");
  const Money pays{o.money("pays", "ha", currency, {0.0, 1e6}).value_or(0.0)};
  if (!from || !until) return std::nullopt;
  return WaterLease{*from, *until, pays};
}

std::vector<Link> links_of(const Object& v) {
  std::vector<Link> out;
  const Object o = v.child("links");
  const std::vector<std::string> kinds{"fills_from", "drains_to", "seeps_from"};
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    std::vector<std::string> ids = o.texts(kinds[k]);
    std::sort(ids.begin(), ids.end());
    for (const std::string& id : ids) out.push_back({static_cast<LinkKind>(k), FieldId{id}});
  }
  return out;
}

std::optional<Date> harvest_of(const Object& v) {
  const auto harvest = v.date("harvest");
  if (!v.has("harvest"))
    v.fault("harvest", "nothing", "a day of harvest, done or expected",
            "add a column harvest or an entry in field_values");
  return harvest;
}

Field with_straw_values(Field f, const Object& v) {
  f.lay = static_cast<straw::Lay>(
      v.word("lay", {"windrow", "spread", "chopped"}).value_or(static_cast<std::size_t>(straw::Lay::spread)));
  f.cut_height_cm = v.quantity("cut_height", "cm", {2.0, 120.0}).value_or(f.cut_height_cm);
  if (const auto grain = v.quantity("yield", "kg/ha", sensible_yield)) f.grain = KgPerHa{*grain};
  const auto load = v.quantity("straw_load", "kg/ha", sensible_straw);
  f.load_given = load.has_value();
  f.straw_load = KgPerHa{load.value_or(0.0)};
  f.pooled_ticket = v.text_or("ticket", "");
  return f;
}

Field with_use_values(Field f, const Object& v, const FieldSetting& setting) {
  f.ground = ground_of(v);
  f.not_allowed = barred_methods(v);
  f.lease = lease_of(v, setting.currency);
  f.can_flood = v.yes("can_flood").value_or(true);
  f.holds_water = v.yes("holds_water").value_or(true);
  f.disease = read_disease(v);
  f.disease_finding = v.yes("disease_finding");
  f.burn_answer = v.text("burn_answer");
  f.burn = read_burn_facts(v);
  if (const auto locked = v.text("locked")) f.locked = MethodId{*locked};
  f.links = links_of(v);
  return f;
}

}  // namespace

namespace {

/// The day on which each field's planting begins when the planter takes them in their planting order from the
/// season's planting date on, so many hectares a day; nothing for a field without an order or at rest.
std::vector<std::optional<Date>> due_days(const FieldRows& rows, const Land& land,
                                          const SeasonDates& season) {
  std::vector<std::optional<Date>> due(rows.rows.size());
  if (!season.planted_ha_per_day || !season.planting) return due;
  std::vector<std::pair<int, std::size_t>> order;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    const Object& v = rows.rows[i].values;
    const int place = v.whole("planting_order", 0, 1000).value_or(0);
    if (place > 0 && v.text_or("next_use", "rice") != "fallow") order.emplace_back(place, i);
  }
  std::stable_sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
    return a.first != b.first ? a.first < b.first
                              : natural_less(rows.rows[a.second].id, rows.rows[b.second].id);
  });
  double planted_ha = 0.0;
  for (const auto& [place, i] : order) {
    due[i] = *season.planting + static_cast<int>(std::floor(planted_ha / *season.planted_ha_per_day + 1e-9));
    planted_ha += land.plots[i].area.value();
  }
  return due;
}

}  // namespace

std::vector<ReadField> read_fields(const FieldRows& rows, const Land& land, const FieldSetting& setting) {
  std::vector<ReadField> out;
  const auto due = due_days(rows, land, setting.season);
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    const Object& v = rows.rows[i].values;
    Field f;
    f.id.value = rows.rows[i].id;
    f.name = v.text_or("name", f.id.value);
    f.shape = land.plots[i].shape;
    f.area = land.plots[i].area;
    f.invented_shape = land.plots[i].invented;
    f.soil = soil_of(v, setting.soils);
    f.cut = v.yes("cut").value_or(false);
    f = with_use_values(with_straw_values(std::move(f), v), v, setting);
    f.history = read_history(v, setting.season);
    const auto harvest = harvest_of(v);
    f.harvest = harvest.value_or(setting.season.calendar.first + 1);
    f.summer_drain = v.date("summer_drain")
                         .value_or(std::max(setting.season.calendar.first, f.harvest - default_drain_days));
    SeasonDates season = setting.season;
    if (due[i]) season.planting = due[i];
    f.next = read_next_use(v, season, f.harvest);
    if (harvest) check_dates(f, v, setting);
    const double moisture = v.quantity("moisture", "%", {0.0, 40.0}).value_or(default_grain_moisture_percent);
    out.push_back({std::move(f), v, moisture / 100.0,
                   v.number("harvest_index", {0.2, 0.7}).value_or(setting.harvest_index)});
  }
  return out;
}

}  // namespace aftercut::farm
