#include <fmt/format.h>

#include "steps.hpp"

namespace aftercut::audit {
namespace {

Texts days(const farm::Farm& farm, int found, int expected) {
  return {iso(farm.season.date(found)), "not before " + iso(farm.season.date(expected))};
}

bool can_drive(const method::Operation& op, const season::DayMask& mask) {
  if (!op.when.can_drive) return true;
  if (op.load == soil::LoadClass::light) return mask.drive_light;
  return op.load == soil::LoadClass::heavy ? mask.drive_heavy : mask.drive_tracked;
}

}  // namespace

Findings check_dates(const Facts& facts, const Place& place, const Standing& s) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const auto& field = farm.fields[static_cast<std::size_t>(place.field)];
  const method::Step& step = *step_of(farm, s);
  const int day = place.day;
  const int harvest = farm.season.day(field.harvest);
  const int as_of = farm.season.day(facts.problem->as_of);
  f.expect(day >= as_of, "work before today", place, [&] { return days(farm, day, as_of); });
  f.expect(day > harvest, "work before the harvest", place, [&] { return days(farm, day, harvest + 1); });
  const int last = farm.season.day(field.next.cut_off);
  f.expect(day <= last, "work after the cut-off", place, [&] {
    return Texts{iso(farm.season.date(day)), "by " + iso(farm.season.date(last))};
  });
  if (step.earliest) {
    const int first = farm.season.day(*step.earliest);
    f.expect(day >= first, "step too early", place, [&] { return days(farm, day, first); });
  }
  const int after_lag = s.before_ended + 1 + step.least_lag_days;
  f.expect(day >= after_lag, "lag too short", place, [&] { return days(farm, day, after_lag); });
  f.expect(day > s.pass_ended, "two passes on a day", place,
           [&] { return days(farm, day, s.pass_ended + 1); });
  if (operation_of(farm, s)->water == method::Water::boards_out) {
    const int from = boards_out_from(farm, place.field, s.recipe);
    f.expect(day >= from, "drawdown too early", place, [&] { return days(farm, day, from); });
  }
  return f;
}

Findings check_conditions(const farm::Farm& farm, const Place& place, const method::Operation& op,
                          const season::DayMask& mask) {
  Findings f;
  const method::Condition& c = op.when;
  const auto at_most = [&](std::optional<double> limit, double value, const char* rule) {
    if (limit)
      f.expect(value <= *limit, rule, place, [&] {
        return Texts{fmt::format("{:.3f}", value), fmt::format("at most {:g}", *limit)};
      });
  };
  const auto at_least = [&](std::optional<double> limit, double value, const char* rule) {
    if (limit)
      f.expect(value >= *limit, rule, place, [&] {
        return Texts{fmt::format("{:.3f}", value), fmt::format("at least {:g}", *limit)};
      });
  };
  f.expect(mask.cut, "work before the harvest", place, [] { return Texts{"the crop stands", "cut"}; });
  f.expect(!c.workable || mask.workable, "ground not workable", place, [] {
    return Texts{"too wet", "workable"};
  });
  f.expect(can_drive(op, mask), "ground not trafficable", place, [] {
    return Texts{"too soft", "trafficable"};
  });
  at_most(c.most_straw_moisture_percent, mask.straw_moisture_percent, "straw too wet");
  if (op.effect.bale_share > 0.0)
    at_most(farm.bale_moisture_percent, mask.straw_moisture_percent, "straw too wet");
  at_least(c.least_ponded_mm, mask.ponded_mm, "ponded depth");
  at_most(c.most_ponded_mm, mask.ponded_mm, "ponded depth");
  at_most(c.most_rain_mm, mask.rain_mm, "work in rain");
  if (!mask.too_dry) at_least(c.least_drying_mm, mask.drying_mm, "dried too little");
  return f;
}

Findings check_ruts(const Place& place, const method::Operation& op, bool rutted) {
  Findings f;
  const bool for_windrows = op.effect.lay_after && *op.effect.lay_after == straw::Lay::windrow;
  const bool stays_off = for_windrows || op.effect.bale_share > 0.0 || op.effect.burn_share_flat > 0.0;
  f.expect(!(rutted && stays_off), "work on rutted ground", place, [&] {
    return Texts{op.name + " over ruts", "level ground"};
  });
  return f;
}

Findings check_dry_wait(const farm::Farm& farm, const Place& place, const Standing& s,
                        const season::DayMask& mask) {
  Findings f;
  if (!operation_of(farm, s)->when.not_too_dry || s.done_ha > 0.0) return f;
  const int first = s.roughed + farm.most_dry_wait_days + 1;
  f.expect(!mask.too_dry || place.day >= first, "ground too dry to finish", place, [&] {
    return Texts{"too dry on " + iso(farm.season.date(place.day)),
                 "moister ground, or not before " + iso(farm.season.date(first))};
  });
  return f;
}

Findings check_order(const farm::Farm& farm, const Place& place, const Standing& s, const plan::Work& w) {
  Findings f;
  const auto text = [](bool back, int step, int pass) {
    return fmt::format("{}step {} pass {}", back ? "fall-back " : "", step, pass);
  };
  const method::Step* step = step_of(farm, s);
  const bool ahead = step != nullptr && w.fell_back == s.fell_back && w.step > s.step;
  const bool same = step != nullptr && w.fell_back == s.fell_back && w.step == s.step && w.pass == s.pass;
  f.expect(same, ahead ? "step skipped" : "step out of order", place, [&] {
    return Texts{text(w.fell_back, w.step, w.pass),
                 step == nullptr ? "all steps done" : text(s.fell_back, s.step, s.pass)};
  });
  if (!same) return f;
  f.expect(w.operation == step->operation, "wrong operation", place, [&] {
    return Texts{farm.book.operations[static_cast<std::size_t>(w.operation)].id.value,
                 farm.book.operations[static_cast<std::size_t>(step->operation)].id.value};
  });
  return f;
}

}  // namespace aftercut::audit
