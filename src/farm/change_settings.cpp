#include "change_settings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "faults.hpp"
#include "setting.hpp"

namespace aftercut::farm {
namespace {

std::vector<std::string> ids_of(const Json& document, const std::vector<std::string>& lists) {
  std::vector<std::string> ids;
  for (const std::string& list : lists) {
    if (!document.contains(list) || !document[list].is_array()) continue;
    for (const Json& entry : document[list])
      if (entry.is_object() && entry.contains("id") && entry["id"].is_string())
        ids.push_back(entry["id"].get<std::string>());
  }
  return ids;
}

Json* with_id(Json& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const Json& entry) {
    return entry.is_object() && entry.contains("id") && entry["id"] == id;
  });
  return found == list.end() ? nullptr : &*found;
}

class Making {
 public:
  Making(Json document, const Named& named) : document_(std::move(document)), named_{&named} {}

  void operator()(const FixMethod& c) {
    if (!known(c.field) | !known(c.method)) return;
    put(values_of(c.field), "locked", c.method.value);
  }
  void operator()(const BarMethod& c) {
    if (!known(c.field) | !known(c.method)) return;
    if (Json* list = taken_over(values_of(c.field), "not_allowed"))
      list->push_back({{"method", c.method.value}, {"why", c.why.empty() ? "you ruled it out" : c.why}});
  }
  void operator()(const MoveHarvest& c) {
    if (known(c.field)) put(values_of(c.field), "harvest", iso(c.day));
  }
  void operator()(const MovePlanting& c) {
    if (!c.field)
      move_every_planting(c.day);
    else if (known(*c.field))
      put(values_of(*c.field), "planting_date", iso(c.day));
  }
  void operator()(const SetPrice& c) {
    if (c.what == "canal_water") {
      if (document_.contains("water"))
        put(object_at("water"), "price", c.price);
      else
        issue("canal_water", "a farm with canal water", "this farm has none: take the change out");
      return;
    }
    put(object_at("prices"), c.what, c.price);
  }
  void operator()(const OutOfWork& c) {
    const Json days{{"from", iso(c.from)}, {"to", iso(c.to)}};
    for (const char* list : {"tractors", "implements", "operators"}) {
      if (!document_.contains(list) || !document_[list].is_array()) continue;
      Json* one = with_id(document_[list], c.who);
      if (one == nullptr) continue;
      Json with_why = days;
      if (std::string{list} != "operators") with_why["why"] = "out of work";
      Json& away = (*one)["away"];
      if (away.is_null()) away = Json::array();
      if (away.is_array()) away.push_back(with_why);
      return;
    }
    const auto ids = ids_of(document_, {"tractors", "implements", "operators"});
    issue(c.who, "one of " + listed(ids), did_you_mean(c.who, ids, "name a machine or a person of the farm"));
  }
  void operator()(const WantChance& c) {
    if (!c.field)
      put(object_at("target"), "wanted_chance", c.chance);
    else if (known(*c.field))
      put(values_of(*c.field), "wanted_chance", c.chance);
  }
  void operator()(const Setting& c) {
    const Result<Json> made = with_settings_made(document_, {c});
    if (made.ok()) document_ = made.value();
    for (const Issue& i : made.issues()) issue_of(i.found, i.expected, i.fix);
  }

  void at(std::size_t place, const std::string& file) {
    place_ = fmt::format("changes[{}]", place);
    file_ = file;
  }
  [[nodiscard]] const Json& document() const { return document_; }
  [[nodiscard]] const Issues& issues() const { return issues_; }

 private:
  void issue_of(std::string found, std::string expected, std::string fix) {
    issues_.push_back({file_, place_, std::move(found), std::move(expected), std::move(fix)});
  }
  void issue(const std::string& found, std::string expected, std::string fix) {
    issue_of(in_quotes(found), std::move(expected), std::move(fix));
  }
  /// The season's planting date to that day, and every field's own by as many days.
  void move_every_planting(Date day) {
    Json* season = object_at("season");
    if (season == nullptr) return;
    Json& planting = (*season)["planting_date"];
    const auto was = planting.is_string() ? parse_iso_date(planting.get<std::string>()) : std::nullopt;
    planting = iso(day);
    if (!was) return;
    for (const auto& [id, own] : named_->planting)
      put(values_of(FieldId{id}), "planting_date", iso(own + (day - *was)));
  }
  bool known_in(const std::string& id, const std::set<std::string>& all, const char* what) {
    if (all.contains(id)) return true;
    const std::vector<std::string> list{all.begin(), all.end()};
    issue(id, fmt::format("a {} of the farm: {}", what, listed(list)),
          did_you_mean(id, list, fmt::format("name a {} of the farm", what)));
    return false;
  }
  bool known(const FieldId& id) { return known_in(id.value, named_->fields, "field"); }
  bool known(const MethodId& id) { return known_in(id.value, named_->methods, "method"); }

  // Where farm.json has another kind of value than it should, these give null: nothing is changed there, and
  // the check against the schema tells it.

  static void put(Json* object, const std::string& key, Json value) {
    if (object != nullptr) (*object)[key] = std::move(value);
  }
  /// The object under a key, made where there is none.
  Json* object_at(const char* key) {
    Json& value = document_[key];
    if (value.is_null()) value = Json::object();
    return value.is_object() ? &value : nullptr;
  }
  /// The field's entry of field_values, made where there is none.
  Json* values_of(const FieldId& id) {
    Json& list = document_["field_values"];
    if (list.is_null()) list = Json::array();
    if (!list.is_array()) return nullptr;
    if (Json* entry = with_id(list, id.value)) return entry;
    list.push_back({{"id", id.value}});
    return &list.back();
  }
  /// A list of a field; where it has none of its own, the one of field_defaults, which an own one would hide.
  Json* taken_over(Json* values, const char* key) {
    if (values == nullptr) return nullptr;
    const bool given = document_.contains("field_defaults") && document_["field_defaults"].is_object() &&
                       document_["field_defaults"].contains(key);
    if (!values->contains(key)) put(values, key, given ? document_["field_defaults"][key] : Json::array());
    Json& list = (*values)[key];
    return list.is_array() ? &list : nullptr;
  }

  Json document_;
  const Named* named_;
  std::string file_, place_;
  Issues issues_;
};

}  // namespace

Result<Json> with_changes_made(Json document, const Scenario& scenario, const Named& named,
                               const std::string& file) {
  Making making{std::move(document), named};
  for (std::size_t k = 0; k < scenario.changes.size(); ++k) {
    making.at(k, file);
    std::visit(making, scenario.changes[k]);
  }
  if (!making.issues().empty()) return making.issues();
  return making.document();
}

}  // namespace aftercut::farm
