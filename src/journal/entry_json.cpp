#include "entry_json.hpp"

#include "aftercut/core/digest.hpp"
#include "aftercut/journal/log.hpp"

namespace aftercut::journal {
namespace {

constexpr std::size_t sum_digits = 16;

template <class T>
void put(Json& j, const char* key, const std::optional<T>& value) {
  if (value) j[key] = *value;
}
void put(Json& j, const char* key, const std::optional<Date>& value) {
  if (value) j[key] = iso(*value);
}
void put(Json& j, const char* key, const std::string& value) {
  if (!value.empty()) j[key] = value;
}
void put(Json& j, const char* key, bool value) {
  if (value) j[key] = true;
}

struct Data {
  Json operator()(const Harvested& h) const {
    Json j = Json::object();
    put(j, "yield_kg_per_ha", h.yield_kg_per_ha);
    put(j, "lay", h.lay);
    put(j, "cut_height_cm", h.cut_height_cm);
    return j;
  }
  Json operator()(const Worked& w) const {
    Json j{{"operation", w.operation}};
    put(j, "area_ha", w.area_ha);
    put(j, "finished", w.finished);
    put(j, "no_more", w.no_more);
    put(j, "by_others", w.by_others);
    if (!w.with.empty()) j["with"] = w.with;
    put(j, "hours", w.hours);
    put(j, "fuel_l", w.fuel_l);
    put(j, "board_cm", w.board_cm);
    return j;
  }
  Json operator()(const Rain& r) const { return Json{{"mm", r.mm}}; }
  Json operator()(const Looked& l) const {
    Json j = Json::object();
    put(j, "workable", l.workable);
    put(j, "standing_cm", l.standing_cm);
    put(j, "cover_percent", l.cover_percent);
    put(j, "straw_kg_per_ha", l.straw_kg_per_ha);
    return j;
  }
  Json operator()(const BurnWord& b) const {
    Json j{{"what", b.what == BurnWord::What::asked ? "asked" : "answered"}};
    put(j, "who", b.who);
    put(j, "words", b.words);
    return j;
  }
  Json operator()(const Water& w) const {
    const std::array<const char*, 3> what{"on", "off", "metered"};
    Json j{{"what", what.at(static_cast<std::size_t>(w.what))}};
    put(j, "depth_cm", w.depth_cm);
    put(j, "m3", w.m3);
    return j;
  }
  Json operator()(const Bales& b) const {
    Json j = Json::object();
    put(j, "counted", b.counted);
    put(j, "hauled", b.hauled);
    return j;
  }
  Json operator()(const Presence& p) const {
    const std::array<const char*, 3> what{"down", "up", "here"};
    Json j{{"what", what.at(static_cast<std::size_t>(p.what))}, {"who", p.who}};
    put(j, "until", p.until);
    return j;
  }
  Json operator()(const Word& w) const {
    const std::array<const char*, 4> what{"method", "not_method", "too_wet", "free"};
    Json j{{"what", what.at(static_cast<std::size_t>(w.what))}};
    put(j, "method", w.method);
    put(j, "until", w.until);
    put(j, "why", w.why);
    return j;
  }
  Json operator()(const TakenBack&) const { return Json::object(); }
};

}  // namespace

const std::vector<std::string>& kinds() {
  static const std::vector<std::string> names{"harvested", "worked", "rain",     "looked", "burn_word",
                                              "water",     "bales",  "presence", "word",   "taken_back"};
  return names;
}

Json json_of(const Entry& e) {
  Json j{{"seq", e.seq},
         {"id", e.id},
         {"done_on", iso(e.done_on)},
         {"recorded_at", e.recorded_at},
         {"by", e.by},
         {"kind", kinds().at(e.what.index())},
         {"data", std::visit(Data{}, e.what)}};
  if (e.field) j["field"] = e.field->value;
  put(j, "note", e.note);
  put(j, "corrects", e.corrects);
  return j;
}

std::string entry_text(const Entry& entry) { return json_of(entry).dump(); }

std::string sum_of(const std::string& sum_before, const Json& entry) {
  return sha256_hex(sum_before + entry.dump()).substr(0, sum_digits);
}

Line line_of(const std::string& sum_before, const Entry& entry) {
  Json j = json_of(entry);
  std::string sum = sum_of(sum_before, j);
  j["sum"] = sum;
  return {j.dump() + "\n", std::move(sum)};
}

std::string log_text(const std::vector<Entry>& entries) {
  std::string text, sum;
  int seq = 0;
  for (Entry e : entries) {
    e.seq = ++seq;
    Line line = line_of(sum, e);
    text += line.text;
    sum = std::move(line.sum);
  }
  return text;
}

}  // namespace aftercut::journal
