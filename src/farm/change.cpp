#include "aftercut/farm/change.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

#include "aftercut/farm/farm.hpp"
#include "object.hpp"

namespace aftercut::farm {
namespace {

constexpr const char* scenario_folder = "scenarios";
constexpr std::size_t longest_name = 60;
constexpr std::size_t most_changes = 500;

const std::vector<std::string>& kinds() {
  static const std::vector<std::string> all{"fix_method", "bar_method",  "move_harvest", "move_planting",
                                            "set_price",  "out_of_work", "want_chance",  "set"};
  return all;
}

void check_keys(const Object& o, std::vector<std::string> known) {
  known.insert(known.begin(), "change");
  for (const auto& [key, value] : o.json().items())
    if (std::ranges::find(known, key) == known.end())
      o.fault(key, in_quotes(key), "one of " + listed(known),
              did_you_mean(key, known, "take the key out or mend it"));
}

std::string needed_text(const Object& o, const std::string& key, const std::string& expected) {
  const auto text = o.text(key);
  if (text && !text->empty()) return *text;
  if (!o.has(key) || text) o.fault(key, text ? "an empty text" : "nothing", expected, "give it");
  return "";
}

FieldId needed_field(const Object& o) { return {needed_text(o, "field", "the id of a field")}; }

std::optional<FieldId> field_if_any(const Object& o) {
  const auto text = o.text("field");
  return text ? std::optional{FieldId{*text}} : std::nullopt;
}

Date needed_day(const Object& o, const std::string& key) {
  if (!o.has(key)) o.fault(key, "nothing", "a day like 2026-10-12", "give it");
  return o.date(key).value_or(Date{});
}

Change read_out_of_work(const Object& o) {
  OutOfWork out{needed_text(o, "who", "the id of a tractor, an implement or a person"), needed_day(o, "from"),
                needed_day(o, "to")};
  if (out.to < out.from)
    o.fault("to", iso(out.to), "a day not before " + iso(out.from), "turn the two days around");
  return out;
}

Change read_want_chance(const Object& o) {
  if (!o.has("chance")) o.fault("chance", "nothing", "a number from 0 to 1", "give it");
  return WantChance{field_if_any(o), o.number("chance", {0.0, 1.0}).value_or(0.0)};
}

Change read_price(const Object& o) {
  if (!o.has("what")) o.fault("what", "nothing", "one of " + listed(price_names()), "give it");
  const std::size_t place = o.word("what", price_names()).value_or(0);
  return SetPrice{price_names()[place], needed_text(o, "price", "a price with its unit, like 40 USD/t")};
}

Change read_change(const Object& o) {
  const auto kind = o.word("change", kinds());
  if (!kind) {
    if (!o.has("change")) o.fault("change", "nothing", "one of " + listed(kinds()), "say what changes");
    return Setting{};
  }
  const auto known = [&](std::vector<std::string> keys) { check_keys(o, std::move(keys)); };
  switch (*kind) {
    case 0:
      known({"field", "method"});
      return FixMethod{needed_field(o), {needed_text(o, "method", "the id of a method")}};
    case 1:
      known({"field", "method", "why"});
      return BarMethod{
          needed_field(o), {needed_text(o, "method", "the id of a method")}, o.text_or("why", "")};
    case 2:
      known({"field", "day"});
      return MoveHarvest{needed_field(o), needed_day(o, "day")};
    case 3:
      known({"field", "day"});
      return MovePlanting{field_if_any(o), needed_day(o, "day")};
    case 4:
      known({"what", "price"});
      return read_price(o);
    case 5:
      known({"who", "from", "to"});
      return read_out_of_work(o);
    case 6:
      known({"field", "chance"});
      return read_want_chance(o);
    default:
      known({"path", "value"});
      return Setting{needed_text(o, "path", "keys joined by points, such as prices.straw"),
                     needed_text(o, "value", "a value as text, such as 40 USD/t")};
  }
}

/// The change as it stands in a file: only members that are there.
struct ToJson {
  Json operator()(const FixMethod& c) const {
    return {{"change", "fix_method"}, {"field", c.field.value}, {"method", c.method.value}};
  }
  Json operator()(const BarMethod& c) const {
    Json out{{"change", "bar_method"}, {"field", c.field.value}, {"method", c.method.value}};
    if (!c.why.empty()) out["why"] = c.why;
    return out;
  }
  Json operator()(const MoveHarvest& c) const {
    return {{"change", "move_harvest"}, {"field", c.field.value}, {"day", iso(c.day)}};
  }
  Json operator()(const MovePlanting& c) const {
    return with_field({{"change", "move_planting"}, {"day", iso(c.day)}}, c.field);
  }
  Json operator()(const SetPrice& c) const {
    return {{"change", "set_price"}, {"what", c.what}, {"price", c.price}};
  }
  Json operator()(const OutOfWork& c) const {
    return {{"change", "out_of_work"}, {"who", c.who}, {"from", iso(c.from)}, {"to", iso(c.to)}};
  }
  Json operator()(const WantChance& c) const {
    return with_field({{"change", "want_chance"}, {"chance", c.chance}}, c.field);
  }
  Json operator()(const Setting& c) const {
    return {{"change", "set"}, {"path", c.path}, {"value", c.value}};
  }
  static Json with_field(Json out, const std::optional<FieldId>& field) {
    if (field) out["field"] = field->value;
    return out;
  }
};

bool plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

bool is_file_name(const std::string& name) {
  return !name.empty() && name.size() <= longest_name && std::ranges::all_of(name, plain);
}

}  // namespace

bool same_fields(const Farm& a, const Farm& b) {
  return std::ranges::equal(a.fields, b.fields, {}, &Field::id, &Field::id);
}

const std::vector<std::string>& price_names() {
  static const std::vector<std::string> names{"straw",    "straw_area", "straw_bale", "diesel",
                                              "grain",    "twine",      "burn_fee",   "unplanted",
                                              "nitrogen", "phosphorus", "potassium",  "canal_water"};
  return names;
}

Result<Scenario> read_scenario(const std::string& text, const std::string& file) {
  const auto value = parse_json(text, file);
  if (!value.ok()) return value.issues();
  if (!value.value().is_object())
    return Issues{{file, "the whole file", "no object", "{\"name\": ..., \"changes\": [...]}",
                   "see docs/scenarios.md"}};
  Faults faults;
  const Object top{value.value(), {file, ""}, faults};
  for (const auto& [key, unused] : value.value().items())
    if (key != "name" && key != "changes")
      top.fault(key, in_quotes(key), "name and changes only", "take the key out or mend it");
  Scenario scenario{top.text_or("name", ""), {}};
  if (!top.has("changes"))
    top.fault("changes", "nothing", "a list of changes", "give it, [] for none");
  else if (!value.value()["changes"].is_array())
    top.fault("changes", in_quotes(value.value()["changes"].dump()), "a list of changes", "put it into [ ]");
  const std::vector<Object> list = top.list("changes");
  if (list.size() > most_changes)
    top.fault("changes", std::to_string(list.size()) + " changes", fmt::format("at most {}", most_changes),
              "make them in a farm folder of their own");
  for (const Object& o : list) scenario.changes.push_back(read_change(o));
  if (list.size() < value.value().value("changes", Json::array()).size())
    top.fault("changes", "an entry that is no object", "objects with the key change",
              "see docs/scenarios.md");
  if (faults.any()) return faults.sorted();
  return scenario;
}

std::string scenario_text(const Scenario& scenario) {
  Json changes = Json::array();
  for (const Change& change : scenario.changes) changes.push_back(std::visit(ToJson{}, change));
  return Json{{"name", scenario.name}, {"changes", changes}}.dump(1) + "\n";
}

Result<std::filesystem::path> scenario_file(const std::filesystem::path& folder, const std::string& name) {
  if (is_file_name(name)) return folder / scenario_folder / (name + ".json");
  return Issues{{"scenario", "name", in_quotes(name),
                 fmt::format("1 to {} letters of a to z, digits, - and _", longest_name),
                 "give it a plain name; what people call it stands inside the file"}};
}

std::vector<std::string> scenario_names(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator{folder / scenario_folder, error})
    if (entry.path().extension() == ".json" && is_file_name(entry.path().stem().string()))
      names.push_back(entry.path().stem().string());
  std::ranges::sort(names, natural_less);
  return names;
}

}  // namespace aftercut::farm
