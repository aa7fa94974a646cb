// Tractors, implements and hired outfits.

#include <algorithm>
#include <cmath>

#include "aftercut/core/customary.hpp"
#include "aftercut/machinery/cost.hpp"
#include "aftercut/machinery/outfit_rakes.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

/// Working depth where the kind's draft depends on depth [cm]. Assumed.
constexpr double default_depth_cm = 15.0;
/// Width of one shank's strip [m]. Assumed.
constexpr double metres_a_tool = 0.3;

struct Classes {
  std::string value, repair;  ///< where not entered
};

std::string class_of(const Object& o, const std::string& key, const std::vector<std::string>& known,
                     const std::string& otherwise) {
  const auto at = o.word(key, known);
  return at ? known[*at] : otherwise;
}

machinery::Owning read_owning(const Object& o, const std::string& currency, const Classes& classes) {
  machinery::Owning own;
  own.price = Money{o.money("price", "", currency, {0.0, 1e9}).value_or(0.0)};
  own.years = o.number("years_owned", {1.0, 40.0}).value_or(own.years);
  own.hours_per_year = o.number("hours_per_year", {1.0, 5000.0}).value_or(own.hours_per_year);
  own.interest = o.quantity("interest", "%", {0.0, 50.0}).value_or(own.interest * 100.0) / 100.0;
  own.value_class = class_of(o, "value_class", machinery::value_classes(), classes.value);
  own.repair_class = class_of(o, "repair_class", machinery::repair_classes(), classes.repair);
  return own;
}

machinery::Tractor read_tractor(const Object& o, const std::string& currency) {
  machinery::Tractor t;
  t.id.value = o.text_or("id", "");
  t.name = o.text_or("name", t.id.value);
  t.pto_power = KiloWatt{o.quantity("pto_power", "kW", {5.0, 1000.0}).value_or(100.0)};
  const auto drive = o.word("drive", {"two_wheel", "front_assist", "four_wheel", "track"});
  if (drive) t.drive = static_cast<machinery::Drive>(*drive);
  t.owning = read_owning(
      o, currency,
      {machinery::value_class_of_tractor(t.pto_power), machinery::repair_class_of_tractor(t.drive)});
  t.away = read_ranges(o, "away");
  return t;
}

/// "60 acre/day", or a number under area_per_day_ha or area_per_day_acre.
std::optional<double> read_area_per_day(const Object& o) {
  constexpr Range sensible{0.1, 2000.0};
  if (o.has("area_per_day")) return o.quantity("area_per_day", "ha/day", sensible);
  if (o.has("area_per_day_ha")) return o.number("area_per_day_ha", sensible);
  const auto acres = o.number("area_per_day_acre", {0.25, 5000.0});
  return acres ? std::optional{*acres * ha_per_acre} : std::nullopt;
}

/// What the kind says where the entry does not.
machinery::Implement with_work(const Object& o, const machinery::KindRow& row, machinery::Implement im) {
  im.width = Metre{o.quantity("width", "m", {0.1, 60.0}).value_or(1.0)};
  im.speed = KmPerHour{o.quantity("speed", "km/h", {0.5, 40.0}).value_or(row.speed_km_h)};
  im.depth_cm = o.quantity("depth", "cm", {0.0, 100.0}).value_or(row.depth_matters ? default_depth_cm : 0.0);
  im.chop_length_mm = o.quantity("chop_length", "mm", {10.0, 400.0}).value_or(0.0);
  const int typical =
      row.draft_by_tools ? std::max(1, static_cast<int>(std::lround(im.width.value() / metres_a_tool))) : 0;
  im.tools = o.whole("tools", 0, 60).value_or(typical);
  im.field_efficiency =
      Fraction{o.quantity("field_efficiency", "%", {5.0, 100.0}).value_or(row.efficiency * 100.0) / 100.0};
  im.efficiency_entered = o.has("field_efficiency") || o.has("field_efficiency_percent");
  im.turning_radius =
      Metre{o.quantity("turning_radius", "m", {1.0, 40.0}).value_or(im.turning_radius.value())};
  if (const auto turns = o.word("turns", {"loop", "fishtail", "quicker"}))
    im.turns = static_cast<machinery::Turn>(*turns);
  im.headland_rounds = o.whole("headland_rounds", 0, 8).value_or(im.headland_rounds);
  im.stops = Fraction{o.quantity("stops", "%", {0.0, 60.0}).value_or(im.stops.value() * 100.0) / 100.0};
  return im;
}

machinery::Implement read_implement(const Object& o, const std::string& currency) {
  machinery::Implement im;
  im.id.value = o.text_or("id", "");
  im.name = o.text_or("name", im.id.value);
  im.kind = o.text_or("kind", "");
  const machinery::KindRow* row = machinery::row_of(im.kind);
  if (row == nullptr) {
    const auto known = machinery::known_kinds();
    o.fault("kind", in_quotes(im.kind), "one of " + listed(known),
            did_you_mean(im.kind, known, "write one of these kinds"));
  }
  im = with_work(o, row == nullptr ? machinery::KindRow{} : *row, std::move(im));
  im.entered_ha_per_day = read_area_per_day(o);
  if (const auto t = o.quantity("throughput", "t/h", {0.1, 500.0})) im.throughput = TonnePerHour{*t};
  im.hire = read_hire(o, currency, im.kind);
  im.owning = read_owning(o, currency, {machinery::value_class_of_kind(im.kind), im.kind});
  im.away = read_ranges(o, "away");
  return im;
}

}  // namespace

std::vector<machinery::DateRange> read_ranges(const Object& holder, const std::string& key) {
  std::vector<machinery::DateRange> ranges;
  for (const Object& r : holder.list(key)) {
    const auto from = r.date("from"), to = r.date("to");
    if (!from || !to) continue;
    if (*to < *from) r.fault("to", iso(*to), "a day at or after " + iso(*from), "turn the two dates around");
    ranges.push_back({*from, *to, r.text_or("why", "")});
  }
  std::sort(ranges.begin(), ranges.end(),
            [](const auto& a, const auto& b) { return a.from != b.from ? a.from < b.from : a.to < b.to; });
  return ranges;
}

std::vector<machinery::Tractor> read_tractors(const Object& top, const std::string& currency) {
  std::vector<machinery::Tractor> out;
  for (const Object& o : top.list("tractors")) out.push_back(read_tractor(o, currency));
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return natural_less(a.id.value, b.id.value); });
  return out;
}

std::vector<machinery::Implement> read_implements(const Object& top, const std::string& currency) {
  std::vector<machinery::Implement> out;
  for (const Object& o : top.list("implements")) out.push_back(read_implement(o, currency));
  out = machinery::with_outfit_rakes(std::move(out));
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return natural_less(a.id.value, b.id.value); });
  return out;
}

}  // namespace aftercut::farm
