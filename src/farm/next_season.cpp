#include "aftercut/farm/next_season.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "aftercut/core/save_file.hpp"
#include "aftercut/farm/fault_words.hpp"
#include "next_weather.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

namespace fs = std::filesystem;
using Ordered = nlohmann::ordered_json;

/// Attributes of a field that hold for one season: what was found, asked and answered then, and the user's
/// choice of method.
constexpr std::array one_season{"burn_answer",     "burn_leave",      "dryness_test",
                                "disease_finding", "disease_samples", "locked"};
constexpr std::array ground_keys{"ground_share", "rut_depth"};

Date year_on(Date d) { return next_on({month_of(d), day_of_month(d)}, make_date(year_of(d) + 1, 1, 1)); }

bool is_day(const Ordered& value) {
  return value.is_string() && parse_iso_date(value.get_ref<const std::string&>()).has_value();
}

/// Last days of this season and of the season to come. Where a leap day falls into the latter, a year on can
/// be a day more than a season holds.
struct LastDays {
  Date was, next;
  bool cut = false;  ///< `next` is not `was` a year on, but a day before it
};

LastDays last_days(const Calendar& season) {
  const Date last = season.date(season.days - 1), first = year_on(season.first);
  const Date moved = year_on(last), furthest = first + longest_season_days - 1;
  return {last, std::min(moved, furthest), moved > furthest};
}

/// Every day in it a year on, those of this season not behind the next one's last; how many there were.
/// A late curve goes on behind the season's end, and its days must keep apart.
int move_days(Ordered& value, const LastDays& last, bool curve = false) {
  if (is_day(value)) {
    const Date day = *parse_iso_date(value.get_ref<const std::string&>()), moved = year_on(day);
    value = iso(!curve && day <= last.was ? std::min(moved, last.next) : moved);
    return 1;
  }
  int moved = 0;
  if (value.is_structured())
    for (auto& inside : value.items())
      moved += move_days(inside.value(), last, curve || (value.is_object() && inside.key() == "late_curve"));
  return moved;
}

Ordered line_of(const PastSeason& p) {
  Ordered line = Ordered::object();
  line["season"] = p.year;
  if (!p.method.empty()) line["method"] = p.method;
  line["burned"] = p.burned;
  if (p.grain) line["yield_kg_per_ha"] = std::round(p.grain->value() * 10.0) / 10.0;
  if (p.ready) line["ready"] = iso(*p.ready);
  return line;
}

/// The farm's document on its way into the next season.
class Moving {
 public:
  Moving(Ordered document, const NextSeasonInput& in, const Calendar& season)
      : in_{&in},
        season_{season},
        last_{last_days(season)},
        doc_(std::move(document)) {}  // braces would wrap it in a list

  void move(const FieldRows& rows) {
    drop({"as_of", "forecast"});
    set_length();
    for (auto& part : doc_.items()) {
      if (part.key() == "field_values") continue;
      const bool things = part.value().is_array() && !part.value().empty() && part.value()[0].is_object();
      if (!things && move_days(part.value(), last_) > 0 && part.key() != "season") say_moved(part.key());
      if (!things) continue;
      for (Ordered& thing : part.value())
        if (move_days(thing, last_) > 0)
          say_moved(part.key() + " " + thing.value("id", thing.value("name", "")));
    }
    Ordered entries = Ordered::array();
    for (const FieldRow& row : rows.rows) entries.push_back(entry_of(row));
    doc_["field_values"] = std::move(entries);
  }

  /// Files inside the folder keep their names and are copied; others are named from the new folder.
  void name_files() { name_files_in(doc_); }
  Ordered& document() { return doc_; }

  std::vector<std::string> notes;
  std::vector<fs::path> copies;  ///< in the folder, by their names

 private:
  /// A season told by its number of days keeps its last day too.
  void set_length() {
    if (last_.cut)
      notes.push_back(
          fmt::format("season: it ends on {}, a day earlier, for a leap day makes it longer than {} days",
                      iso(last_.next), longest_season_days));
    Ordered& season = doc_["season"];
    const int days = last_.next - year_on(season_.first) + 1;
    if (season.contains("days")) season["days"] = std::max(days, season_.days);
  }

  void say_moved(const std::string& what) {
    notes.push_back(what + ": its days were moved a year on; enter what is agreed");
  }

  void drop(std::initializer_list<const char*> keys) {
    for (const char* key : keys) doc_.erase(key);
  }

  Ordered entry_of(const FieldRow& row) {
    Ordered entry = Ordered::object();
    entry["id"] = row.id;
    if (doc_.contains("field_values"))
      for (const Ordered& e : doc_["field_values"])
        if (e.value("id", "") == row.id) entry = e;
    std::vector<std::string> forget;
    if (entry.contains("not_known")) forget = entry["not_known"].get<std::vector<std::string>>();
    const auto drop = [&](const std::string& key) {
      entry.erase(key);
      if (std::ranges::count(forget, key) == 0) forget.push_back(key);
    };
    const Json& values = row.values.json();
    for (const char* key : one_season)
      if (values.contains(key)) drop(key);
    set_ground(row, entry, drop);
    if (entry.contains("lease")) {
      notes.push_back(fmt::format("field {}: the water lease was for this season and is left out", row.id));
      entry.erase("lease");
    }
    for (const auto& value : values.items())
      if (value.key() != "lease" && value.key() != "history" && !std::ranges::count(forget, value.key()))
        shift(value.key(), value.value(), entry);
    if (row.values.yes("cut").value_or(false)) entry["cut"] = false;
    if (!forget.empty()) entry["not_known"] = forget;
    for (const FieldGone& gone : in_->fields)
      if (gone.field.value == row.id) entry["history"].push_back(line_of(gone.season));
    return entry;
  }

  /// Tracks and ruts are worked out of the ground; how its slow end dries stays.
  template <class Drop>
  void set_ground(const FieldRow& row, Ordered& entry, Drop drop) {
    if (row.values.text_or("ground", "firm") == "firm") return;
    entry["ground"] = "firm";
    for (const auto& value : row.values.json().items())
      for (const char* key : ground_keys)
        if (value.key().starts_with(key)) entry.erase(value.key());
    for (const char* key : ground_keys) drop(key);
  }

  void shift(const std::string& key, const Json& value, Ordered& entry) const {
    Ordered moved = value;
    if (move_days(moved, last_, key == "late_curve") > 0) entry[key] = moved;
  }

  void name_files_in(Ordered& value) {
    for (auto& item : value.items()) {
      if (item.value().is_structured()) {
        name_files_in(item.value());
        continue;
      }
      if (!item.value().is_string()) continue;
      const fs::path named = item.value().get<std::string>();
      std::error_code error;
      if (named.empty() || !fs::is_regular_file(in_->from / named, error)) continue;
      const fs::path plain = named.lexically_normal();
      if (plain.is_relative() && *plain.begin() != "..")
        copies.push_back(plain);
      else if (named.is_relative())
        item.value() = fs::relative(in_->from / named, in_->to).generic_string();
    }
  }

  const NextSeasonInput* in_;
  Calendar season_;
  LastDays last_;
  Ordered doc_;
};

/// A shapefile's parts lie beside it under its name.
std::vector<fs::path> with_siblings(const fs::path& folder, const fs::path& file) {
  std::vector<fs::path> out{file};
  if (file.extension() != ".shp") return out;
  for (const auto& other : fs::directory_iterator{(folder / file).parent_path()})
    if (other.path().stem() == file.stem() && other.path().extension() != ".shp")
      out.push_back(file.parent_path() / other.path().filename());
  std::ranges::sort(out);
  return out;
}

Result<NextSeason> write_all(const NextSeasonInput& in, Moving& m,
                             const std::optional<std::string>& weather) {
  NextSeason out{in.to, {}, m.notes};
  std::error_code error;
  fs::create_directories(in.to, error);
  if (error)
    return Issues{{in.to.string(), "folder", error.message(), "a place where a folder can be made",
                   "choose another folder"}};
  const auto save = [&](const fs::path& name, const std::string& text) -> Issues {
    fs::create_directories((in.to / name).parent_path(), error);
    const auto saved = save_file(in.to / name, text);
    if (saved.ok()) out.files.push_back(in.to / name);
    return saved.issues();
  };
  std::ranges::sort(m.copies);
  m.copies.erase(std::unique(m.copies.begin(), m.copies.end()), m.copies.end());
  for (const fs::path& copy : m.copies)
    for (const fs::path& file : with_siblings(in.from, copy)) {
      const auto text = read_file(in.from / file);
      if (!text.ok()) return text.issues();
      if (const Issues refused = save(file, text.value()); !refused.empty()) return refused;
    }
  if (weather)
    if (const Issues refused = save(next_weather_file, *weather); !refused.empty()) return refused;
  if (const Issues refused = save("farm.json", m.document().dump(1) + "\n"); !refused.empty()) return refused;
  return out;
}

}  // namespace

Result<NextSeason> next_season(const NextSeasonInput& in) {
  std::error_code error;
  if (fs::exists(in.to / "farm.json", error))
    return Issues{{(in.to / "farm.json").string(), "whole file", "a file that is there already",
                   "a folder without a farm", "choose another folder; nothing is overwritten"}};
  const auto text = read_file(in.from / "farm.json");
  if (!text.ok()) return text.issues();
  const auto parsed = parse_json(text.value(), "farm.json");
  if (!parsed.ok()) return parsed.issues();
  Faults faults;
  const Object top{parsed.value(), {"farm.json", ""}, faults};
  const FieldRows rows = read_field_rows(top, Folder{in.from});
  const SeasonDates season = read_season(top, false);  // the hemisphere changes no day of it
  if (faults.any()) return faults.sorted();
  Moving m{Ordered::parse(text.value()), in, season.calendar};
  const NextWeather weather = next_weather(top, in.from);
  m.move(rows);
  m.document().erase("weather_so_far");
  if (weather.text) m.document()["weather"].erase("file");
  if (!weather.note.empty()) m.notes.push_back(weather.note);
  m.name_files();
  if (weather.text) m.document()["weather"]["file"] = next_weather_file;
  return write_all(in, m, weather.text);
}

}  // namespace aftercut::farm
