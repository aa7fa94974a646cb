#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "aftercut/core/json_text.hpp"
#include "rule_values.hpp"

namespace aftercut::burn {
namespace {

using nlohmann::json;

/// Reads one file and keeps every issue.
class Reader {
 public:
  explicit Reader(std::string file) : file_{std::move(file)} {}

  void issue(const std::string& place, const std::string& found, const std::string& expected,
             const std::string& fix) {
    issues_.push_back({file_, place.empty() ? "whole file" : place, shortened(found), expected, fix});
  }
  [[nodiscard]] Issues issues() const { return issues_; }

  void only(const json& object, const std::string& place, const std::vector<std::string>& keys) {
    for (const auto& [key, value] : object.items())
      if (std::find(keys.begin(), keys.end(), key) == keys.end())
        issue(place + key, value.dump(), fmt::format("one of {}", fmt::join(keys, ", ")),
              "mend the spelling or take it out");
  }

  std::string text(const json& object, const std::string& place, const std::string& key) {
    const auto at = object.find(key);
    if (at != object.end() && at->is_number()) return at->dump();
    if (at != object.end() && at->is_string() && !at->get<std::string>().empty())
      return at->get<std::string>();
    issue(place + key, at == object.end() ? "nothing" : at->dump(), "a text", "fill it in");
    return {};
  }

  Rule rule(const json& object, const std::string& place) {
    Rule r;
    if (!object.is_object()) {
      issue(place, object.dump(), "an object { ... }", "write an object here");
      return r;
    }
    only(object, place,
         {"name", "of", "value", "unit", "comparison", "weight", "source", "as_of", "checked"});
    r.name = text(object, place, "name");
    r.value = text(object, place, "value");
    if (!says_none(r) || object.contains("unit")) r.unit = text(object, place, "unit");
    r.comparison = text(object, place, "comparison");
    if (object.contains("of")) r.of = text(object, place, "of");
    r = with_standing(std::move(r), object, place);
    check(r, place);
    return r;
  }

  /// Rows that the jurisdiction has no limit for, under one source.
  std::vector<Rule> no_limit(const json& object, const std::string& place) {
    if (!object.is_object() || !object.contains("names") || !object["names"].is_array()) {
      issue(place, object.dump(), R"(an object { "names": [...], ... })", "see docs/burn-rules.md");
      return {};
    }
    only(object, place + ".", {"names", "weight", "source", "as_of", "checked"});
    const Rule like = with_standing({}, object, place + ".");
    std::vector<std::string> names;
    for (std::size_t i = 0; i < object["names"].size(); ++i) {
      const json& name = object["names"][i];
      const std::string at = fmt::format("{}.names[{}]", place, i);
      if (name.is_string() && known_rule(name.get<std::string>()) != nullptr)
        names.push_back(name.get<std::string>());
      else
        issue(at, name.dump(), "a row name that docs/burn-rules.md lists", "mend the name or take it out");
    }
    return rows_without_limit(names, like);
  }

  double chance(const json& root) {
    const auto at = root.find("burn_day_chance");
    const bool given =
        at != root.end() && at->is_object() && at->contains("value") && (*at)["value"].is_number();
    const double value = given ? (*at)["value"].get<double>() : -1.0;
    if (value < 0.0 || value > 1.0)
      issue("burn_day_chance.value", at == root.end() ? "nothing" : at->dump(), "a share from 0 to 1",
            "write the share of days on which the authority calls a burn day");
    if (given) {
      only(*at, "burn_day_chance.", {"value", "source"});
      text(*at, "burn_day_chance.", "source");
    }
    return value;
  }

 private:
  /// Weight, source, as_of and checked: what a row stands on.
  Rule with_standing(Rule r, const json& object, const std::string& place) {
    r.weight = text(object, place, "weight");
    r.source = text(object, place, "source");
    if (object.contains("as_of")) {
      r.as_of = parse_iso_date(text(object, place, "as_of"));
      if (!r.as_of)
        issue(place + "as_of", object["as_of"].dump(), "a day such as 2026-08-01", "write an existing day");
    }
    const json checked = object.value("checked", json(false));
    if (!checked.is_boolean())
      issue(place + "checked", checked.dump(), "true or false", "write true or false");
    r.checked = checked == json(true);
    const std::vector<std::string> weights{"law", "rule", "permit term", "guidance"};
    if (!r.weight.empty() && std::find(weights.begin(), weights.end(), r.weight) == weights.end())
      issue(place + "weight", r.weight, fmt::format("one of {}", fmt::join(weights, ", ")),
            "choose one of these");
    return r;
  }

  void check(const Rule& r, const std::string& place) {
    if (r.name.empty()) return;
    const KnownRule* known = known_rule(r.name);
    if (known == nullptr) {
      issue(place + "name", r.name, "a row name that docs/burn-rules.md lists",
            "mend the name or take the row out");
      return;
    }
    if (!r.comparison.empty() && r.comparison != known->comparison)
      issue(place + "comparison", r.comparison, std::string{known->comparison},
            "this row is read with this comparison only");
    const bool of_disease = r.name == "disease_sample" && !says_none(r);
    if (of_disease != !r.of.empty())
      issue(place + "of", r.of.empty() ? "nothing" : r.of,
            of_disease ? "the disease that the threshold is of" : "no `of`: this row is of one thing only",
            of_disease ? "name the disease" : "take it out");
    check_value(r, *known, place);
  }

  void check_value(const Rule& r, const KnownRule& known, const std::string& place) {
    if (says_none(r) || r.value.empty() || r.unit.empty()) return;
    const std::vector<std::string> names = units_of(known.measure);
    if (std::find(names.begin(), names.end(), r.unit) == names.end()) {
      issue(place + "unit", r.unit, fmt::format("one of {}", fmt::join(names, ", ")),
            "convert the value to one of these");
      return;
    }
    if (!is_readable(r, known.measure))
      issue(place + "value", r.value, fmt::format("a value in {}", r.unit),
            "see docs/burn-rules.md for how to write it");
  }

  std::string file_;
  Issues issues_;
};

void add_row(Reader& reader, Jurisdiction& j, const Rule& rule, const std::string& place) {
  const bool twice = !rule.name.empty() && std::any_of(j.rules.begin(), j.rules.end(), [&](const Rule& r) {
    return r.name == rule.name && (r.of == rule.of || says_none(r) || says_none(rule));
  });
  if (twice) reader.issue(place, rule.name, "each row once", "keep the stricter row");
  j.rules.push_back(rule);
}

void read_rules(const json& root, Reader& reader, Jurisdiction& j) {
  const auto rules = root.find("rules");
  if (rules == root.end() || !rules->is_array()) {
    reader.issue("rules", rules == root.end() ? "nothing" : rules->dump(), "a list [ ... ]",
                 "list the rules");
    return;
  }
  for (std::size_t i = 0; i < rules->size(); ++i) {
    const std::string place = fmt::format("rules[{}]", i);
    add_row(reader, j, reader.rule((*rules)[i], place + "."), place + ".name");
  }
}

void read_no_limit(const json& root, Reader& reader, Jurisdiction& j) {
  const auto groups = root.find("no_limit");
  if (groups == root.end()) return;
  if (!groups->is_array()) {
    reader.issue("no_limit", groups->dump(), "a list [ ... ]", "list groups of row names");
    return;
  }
  for (std::size_t i = 0; i < groups->size(); ++i) {
    const std::string place = fmt::format("no_limit[{}]", i);
    for (const Rule& rule : reader.no_limit((*groups)[i], place)) add_row(reader, j, rule, place + ".names");
  }
}

}  // namespace

Result<Jurisdiction> read_jurisdiction(const std::string& text, const std::string& file) {
  if (Issues faults = json_text_faults(text, file); !faults.empty()) return faults;
  Reader reader{file};
  const json root = json::parse(text);
  if (!root.is_object())
    return Issues{{file, "whole file", "no object", "a JSON object { ... }", "see docs/burn-rules.md"}};
  reader.only(root, "", {"jurisdiction", "authority", "note", "burn_day_chance", "rules", "no_limit"});
  Jurisdiction j;
  j.name = reader.text(root, "", "jurisdiction");
  j.authority = reader.text(root, "", "authority");
  j.burn_day_chance = reader.chance(root);
  if (root.contains("note")) reader.text(root, "", "note");
  read_rules(root, reader, j);
  read_no_limit(root, reader, j);
  if (!reader.issues().empty()) return reader.issues();
  return j;
}

}  // namespace aftercut::burn
