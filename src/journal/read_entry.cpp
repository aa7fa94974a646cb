// One line's JSON as a checked entry.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "entry_json.hpp"

namespace aftercut::journal {
namespace {

// Beyond these a number is a slip, whatever the farm. Source: JournalRanges (assumed)
struct Span {
  double least, most;
};
constexpr Span per_ha{0.0, 40000.0}, area_ha{0.0, 10000.0}, hours{0.0, 240.0}, fuel_l{0.0, 20000.0};
constexpr Span height_cm{0.0, 200.0}, depth_cm{0.0, 300.0}, rain_mm{0.0, 1500.0}, percent{0.0, 100.0};
constexpr Span m3{0.0, 1.0e7}, bales{0.0, 1.0e6};
constexpr int most_seq = 1000000000;
constexpr std::size_t short_text = 100, long_text = 2000, most_with = 20;

bool is_plain(const std::string& text) {
  return std::ranges::none_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

std::string shown(const Json& j) {
  const std::string text = j.dump();
  return text.size() <= 60 ? text : text.substr(0, 57) + "...";
}

/// The members of one JSON object, each taken once; gathers what is wrong with them.
class Members {
 public:
  Members(const Json& json, std::string file, std::string place)
      : json_{json}, file_{std::move(file)}, place_{std::move(place)} {}

  void fault(const std::string& key, const std::string& found, const std::string& expected) {
    issues_.push_back(
        {file_, place_ + key, found, expected, "record it with aftercut record, which writes such lines"});
  }
  bool has(const std::string& key) const { return json_.contains(key); }

  std::optional<double> number(const std::string& key, Span span) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    const double v = j->is_number() ? j->get<double>() : std::nan("");
    if (v >= span.least && v <= span.most) return v + 0.0;
    fault(key, shown(*j), fmt::format("a number from {} to {}", span.least, span.most));
    return std::nullopt;
  }
  std::optional<int> whole(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    if (j->is_number_unsigned() && j->get<std::uint64_t>() >= 1 && j->get<std::uint64_t>() <= most_seq)
      return j->get<int>();
    fault(key, shown(*j), "a whole number from 1 on");
    return std::nullopt;
  }
  std::string text(const std::string& key, std::size_t most, bool needed = false) {
    const Json* j = taken(key);
    if (j == nullptr) {
      if (needed) fault(key, "nothing", "a text");
      return {};
    }
    return checked_text(key, *j, most);
  }
  bool flag(const std::string& key) {
    const auto given = maybe_flag(key);
    if (given && !*given) fault(key, "false", "true, or no such key");
    return given.value_or(false);
  }
  std::optional<bool> maybe_flag(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    if (j->is_boolean()) return j->get<bool>();
    fault(key, shown(*j), "true or false");
    return std::nullopt;
  }
  std::optional<Date> day(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    const auto date = j->is_string() ? parse_iso_date(j->get<std::string>()) : std::nullopt;
    if (!date) fault(key, shown(*j), "a day like 2026-10-14");
    return date;
  }
  std::vector<std::string> texts(const std::string& key) {
    const Json* j = taken(key);
    std::vector<std::string> all;
    if (j == nullptr) return all;
    if (!j->is_array() || j->empty() || j->size() > most_with) {
      fault(key, shown(*j), fmt::format("a list of 1 to {} names", most_with));
      return all;
    }
    for (const Json& name : *j) all.push_back(checked_text(key, name, short_text));
    return all;
  }
  /// The place of the word in `words`.
  std::optional<std::size_t> one_of(const std::string& key, const std::vector<std::string>& words) {
    const Json* j = taken(key);
    const std::string word = j != nullptr && j->is_string() ? j->get<std::string>() : "";
    const auto at = std::ranges::find(words, word);
    if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
    fault(key, j == nullptr ? "nothing" : shown(*j), fmt::format("one of {}", fmt::join(words, ", ")));
    return std::nullopt;
  }
  const Json* object(const std::string& key) {
    const Json* j = taken(key);
    if (j != nullptr && j->is_object()) return j;
    fault(key, j == nullptr ? "nothing" : shown(*j), "an object");
    return nullptr;
  }
  /// What is wrong, unknown keys with it.
  Issues issues() {
    for (const auto& [key, value] : json_.items())
      if (!taken_.contains(key))
        fault(key, "a key that this version does not know", "only keys of docs/journal.md");
    return std::move(issues_);
  }
  void take_no_note_of(const std::string& key) { taken_.insert(key); }

 private:
  const Json* taken(const std::string& key) {
    taken_.insert(key);
    const auto at = json_.find(key);
    return at == json_.end() ? nullptr : &*at;
  }
  std::string checked_text(const std::string& key, const Json& j, std::size_t most) {
    if (j.is_string()) {
      std::string text = j.get<std::string>();
      if (!text.empty() && text.size() <= most && is_plain(text)) return text;
    }
    fault(key, shown(j), fmt::format("a text of 1 to {} bytes in one line", most));
    return {};
  }

  const Json& json_;
  std::string file_, place_;
  Issues issues_;
  std::set<std::string> taken_;
};

Harvested harvested(Members& m) {
  Harvested h;
  h.yield_kg_per_ha = m.number("yield_kg_per_ha", per_ha);
  const std::vector<std::string> lays{"windrow", "spread", "chopped"};
  if (m.has("lay")) h.lay = lays[m.one_of("lay", lays).value_or(0)];
  h.cut_height_cm = m.number("cut_height_cm", height_cm);
  return h;
}

Worked worked(Members& m) {
  Worked w;
  w.operation = m.text("operation", short_text, true);
  w.area_ha = m.number("area_ha", area_ha);
  w.finished = m.flag("finished");
  w.no_more = m.flag("no_more");
  w.by_others = m.flag("by_others");
  w.with = m.texts("with");
  w.hours = m.number("hours", hours);
  w.fuel_l = m.number("fuel_l", fuel_l);
  w.board_cm = m.number("board_cm", height_cm);
  if (!w.area_ha && !w.finished && !w.no_more && !m.has("area_ha"))
    m.fault("area_ha", "nothing", "an area, finished or no_more");
  return w;
}

Looked looked(Members& m) {
  if (!m.has("workable") && !m.has("standing_cm") && !m.has("cover_percent") && !m.has("straw_kg_per_ha"))
    m.fault("", "nothing", "at least one thing that was seen");
  Looked l;
  l.workable = m.maybe_flag("workable");
  l.standing_cm = m.number("standing_cm", depth_cm);
  l.cover_percent = m.number("cover_percent", percent);
  l.straw_kg_per_ha = m.number("straw_kg_per_ha", per_ha);
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
  if (w.what == Water::What::on) w.depth_cm = m.number("depth_cm", depth_cm);
  if (w.what != Water::What::metered) return w;
  w.m3 = m.number("m3", m3);
  if (!w.m3 && !m.has("m3")) m.fault("m3", "nothing", "what the meter counted");
  return w;
}

Bales baled(Members& m) {
  if (!m.has("counted") && !m.has("hauled")) m.fault("", "nothing", "bales counted or hauled");
  Bales b;
  b.counted = m.number("counted", bales);
  b.hauled = m.number("hauled", bales);
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
      return Rain{m.number("mm", rain_mm).value_or(0.0)};
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
