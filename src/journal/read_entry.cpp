// One line's JSON as a checked entry.
#include <fmt/format.h>

#include "entry_json.hpp"
#include "members.hpp"

namespace aftercut::journal {
namespace {

// Beyond these a number is a slip, whatever the farm. Source: JournalRanges (assumed)
constexpr Span per_ha_range{0.0, 40000.0}, area_ha_range{0.0, 10000.0}, hours_range{0.0, 240.0},
    fuel_l_range{0.0, 20000.0};
constexpr Span height_cm_range{0.0, 200.0}, depth_cm_range{0.0, 300.0}, rain_mm_range{0.0, 1500.0},
    percent_range{0.0, 100.0};
constexpr Span m3_range{0.0, 1.0e7}, bales_range{0.0, 1.0e6};

Harvested harvested(Members& m) {
  Harvested h;
  h.yield_kg_per_ha = m.number("yield_kg_per_ha", per_ha_range);
  const std::vector<std::string> lays{"windrow", "spread", "chopped"};
  if (m.has("lay")) h.lay = lays[m.one_of("lay", lays).value_or(0)];
  h.cut_height_cm = m.number("cut_height_cm", height_cm_range);
  return h;
}

Worked worked(Members& m) {
  Worked w;
  w.operation = m.text("operation", short_text, true);
  w.area_ha = m.number("area_ha", area_ha_range);
  w.finished = m.flag("finished");
  w.no_more = m.flag("no_more");
  w.by_others = m.flag("by_others");
  w.with = m.texts("with");
  w.hours = m.number("hours", hours_range);
  w.fuel_l = m.number("fuel_l", fuel_l_range);
  w.board_cm = m.number("board_cm", height_cm_range);
  if (!w.area_ha && !w.finished && !w.no_more && !m.has("area_ha"))
    m.fault("area_ha", "nothing", "an area, finished or no_more");
  return w;
}

Looked looked(Members& m) {
  if (!m.has("workable") && !m.has("standing_cm") && !m.has("cover_percent") && !m.has("straw_kg_per_ha"))
    m.fault("", "nothing", "at least one thing that was seen");
  Looked l;
  l.workable = m.maybe_flag("workable");
  l.standing_cm = m.number("standing_cm", depth_cm_range);
  l.cover_percent = m.number("cover_percent", percent_range);
  l.straw_kg_per_ha = m.number("straw_kg_per_ha", per_ha_range);
  return l;
}

BurnWord burn_word(Members& m) {
  BurnWord b;
  const std::vector<std::string> what{"asked", "answered"};
  b.what = static_cast<BurnWord::What>(m.one_of("what", what).value_or(0));
  b.who = m.text("who", short_text);
  b.words = m.text("words", long_text, b.what == BurnWord::What::answered);
  return b;
}

Water water(Members& m) {
  Water w;
  w.what = static_cast<Water::What>(m.one_of("what", {"on", "off", "metered"}).value_or(0));
  if (w.what == Water::What::on) w.depth_cm = m.number("depth_cm", depth_cm_range);
  if (w.what != Water::What::metered) return w;
  w.m3 = m.number("m3", m3_range);
  if (!w.m3 && !m.has("m3")) m.fault("m3", "nothing", "what the meter counted");
  return w;
}

Bales baled(Members& m) {
  if (!m.has("counted") && !m.has("hauled")) m.fault("", "nothing", "bales counted or hauled");
  Bales b;
  b.counted = m.number("counted", bales_range);
  b.hauled = m.number("hauled", bales_range);
  return b;
}

Presence presence(Members& m) {
  Presence p;
  p.what = static_cast<Presence::What>(m.one_of("what", {"down", "up", "here"}).value_or(0));
  p.who = m.text("who", short_text, true);
  if (p.what == Presence::What::down) p.until = m.day("until");
  return p;
}

Word word(Members& m) {
  Word w;
  w.what = static_cast<Word::What>(m.one_of("what", {"method", "not_method", "too_wet", "free"}).value_or(0));
  if (w.what == Word::What::method || w.what == Word::What::not_method)
    w.method = m.text("method", short_text, true);
  if (w.what == Word::What::too_wet) w.until = m.day("until");
  w.why = m.text("why", long_text);
  return w;
}

What what_of(std::size_t kind, Members& m) {
  switch (kind) {
    case 0:
      return harvested(m);
    case 1:
      return worked(m);
    case 2:
      if (!m.has("mm")) m.fault("mm", "nothing", "millimetres of rain");
      return Rain{m.number("mm", rain_mm_range).value_or(0.0)};
    case 3:
      return looked(m);
    case 4:
      return burn_word(m);
    case 5:
      return water(m);
    case 6:
      return baled(m);
    case 7:
      return presence(m);
    case 8:
      return word(m);
    default:
      return TakenBack{};
  }
}

bool is_time(const std::string& t) {
  if (t.size() != 20 || !parse_iso_date(t.substr(0, 10)) || t[10] != 'T' || t[19] != 'Z') return false;
  const auto two = [&t](std::size_t at, int most) {
    if (t[at] < '0' || t[at] > '9' || t[at + 1] < '0' || t[at + 1] > '9') return false;
    return (t[at] - '0') * 10 + (t[at + 1] - '0') <= most;
  };
  return t[13] == ':' && t[16] == ':' && two(11, 23) && two(14, 59) && two(17, 60);
}

void check_field(Members& m, const Entry& e) {
  const bool rain = std::holds_alternative<Rain>(e.what);
  const bool none = std::holds_alternative<Presence>(e.what) || std::holds_alternative<TakenBack>(e.what);
  if (none && e.field) m.fault("field", e.field->value, "no field with this kind");
  if (!none && !rain && !m.has("field")) m.fault("field", "nothing", "the field's id");
  if (std::holds_alternative<TakenBack>(e.what) && !m.has("corrects"))
    m.fault("corrects", "nothing", "the number of the entry that is taken back");
}

}  // namespace

Result<Entry> entry_of(const Json& json, const std::string& file, const std::string& place) {
  if (!json.is_object())
    return Issues{{file, place, shown(json), "an object", "record it with aftercut record"}};
  Members m{json, file, place + ": "};
  Entry e;
  m.take_no_note_of("sum");
  e.seq = m.whole("seq").value_or(0);
  e.id = m.text("id", short_text, true);
  if (!m.has("done_on")) m.fault("done_on", "nothing", "a day like 2026-10-14");
  e.done_on = m.day("done_on").value_or(Date{});
  e.recorded_at = m.text("recorded_at", short_text, true);
  if (!e.recorded_at.empty() && !is_time(e.recorded_at))
    m.fault("recorded_at", e.recorded_at, "a time like 2026-10-14T18:03:22Z");
  e.by = m.text("by", short_text, true);
  if (m.has("field")) e.field = FieldId{m.text("field", short_text)};
  e.note = m.text("note", long_text);
  e.corrects = m.whole("corrects");
  const auto kind = m.one_of("kind", kinds());
  const Json* data = m.object("data");
  Issues inside;
  if (kind && data != nullptr) {
    Members d{*data, file, place + ": data."};
    e.what = what_of(*kind, d);
    inside = d.issues();
    check_field(m, e);
  }
  Issues all = m.issues();
  all.insert(all.end(), inside.begin(), inside.end());
  if (!all.empty()) return all;
  return e;
}

}  // namespace aftercut::journal
