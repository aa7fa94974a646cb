#include "schema.hpp"

#include <fmt/format.h>

#include <map>
#include <regex>

#include "faults.hpp"

extern "C" {
extern const char aftercut_farm_schema_begin[];  // NOLINT: symbols of farm_schema.S
extern const char aftercut_farm_schema_end[];
}

namespace aftercut::farm {
namespace {

std::string found_words(const Json& v) {
  if (v.is_string()) return in_quotes(v.get<std::string>());
  if (v.is_array()) return "a list";
  if (v.is_object()) return "an object";
  if (v.is_null()) return "null";
  if (v.is_number()) return "the bare number " + v.dump();
  return v.dump();
}

std::string type_words(const std::string& type) {
  if (type == "object") return "an object { }";
  if (type == "array") return "a list [ ]";
  if (type == "string") return "a text in quotation marks";
  if (type == "integer") return "a whole number";
  if (type == "boolean") return "true or false";
  return "a number";
}

bool has_type(const Json& v, const std::string& type) {
  if (type == "object") return v.is_object();
  if (type == "array") return v.is_array();
  if (type == "string") return v.is_string();
  if (type == "boolean") return v.is_boolean();
  if (type == "number") return v.is_number();
  return v.is_number_integer();
}

/// Walks value and schema together. Place: the key path, "farm" at the top.
class Walk {
 public:
  using Patterns = std::map<std::string, std::regex>;
  Walk(const Json& root, std::string file, Patterns& patterns)
      : root_{root}, file_{std::move(file)}, patterns_{patterns} {}
  Issues issues;

  void visit(const Json& schema_or_ref, const Json& value, const std::string& path, const Json& siblings) {
    const Json& schema = resolved(schema_or_ref);
    if (schema.contains("type") && !has_type(value, schema["type"].get<std::string>())) {
      add(path, found_words(value), expected(schema), type_fix(schema, value, path, siblings));
      return;
    }
    if (schema.contains("enum")) one_of_words(schema, value, path);
    if (value.is_string()) text(schema, value.get<std::string>(), path);
    if (value.is_number()) number(schema, value.get<double>(), path);
    if (value.is_array()) list(schema, value, path);
    if (value.is_object()) object(schema, value, path);
    for (const Json& part : schema.value("allOf", Json::array())) visit(part, value, path, siblings);
    if (schema.contains("anyOf")) alternatives(schema["anyOf"], schema, value, path, false);
    if (schema.contains("oneOf")) alternatives(schema["oneOf"], schema, value, path, true);
  }

 private:
  const Json& resolved(const Json& schema) const {
    if (!schema.contains("$ref")) return schema;
    return root_.at(Json::json_pointer{schema["$ref"].get<std::string>().substr(1)});
  }
  void add(const std::string& path, std::string found, std::string wanted, std::string fix) {
    issues.push_back(
        {file_, path.empty() ? "top level" : path, std::move(found), std::move(wanted), std::move(fix)});
  }
  static std::string example(const Json& schema) {
    return schema.contains("examples") ? schema["examples"][0].dump() : "";
  }
  static std::string expected(const Json& schema) {
    std::string words =
        schema.contains("type") ? type_words(schema["type"].get<std::string>()) : "another value";
    if (schema.contains("pattern") && schema["pattern"].get<std::string>().starts_with("^\\s*[-+]?("))
      words = "a text of a number and its unit";
    const std::string shown = example(schema);
    return shown.empty() ? words : fmt::format("{}, such as {}", words, shown);
  }
  static std::string last_key(const std::string& path) { return path.substr(path.find_last_of('.') + 1); }

  static std::string type_fix(const Json& schema, const Json& value, const std::string& path,
                              const Json& siblings) {
    if (!value.is_number() || !schema.contains("pattern")) return fmt::format("write {}", expected(schema));
    const std::string key = last_key(path);
    std::vector<std::string> with_unit;
    for (const auto& item : siblings.items())
      if (item.key().starts_with(key + "_") && item.value().value("type", "") == "number")
        with_unit.push_back(item.key());
    if (with_unit.empty()) return fmt::format("write the unit too: {}", example(schema));
    return fmt::format("write the unit too: {}, or use the key {}", example(schema), listed(with_unit));
  }

  void one_of_words(const Json& schema, const Json& value, const std::string& path) {
    std::vector<std::string> words;
    for (const Json& w : schema["enum"]) {
      if (w == value) return;
      words.push_back(w.get<std::string>());
    }
    add(path, found_words(value), "one of " + listed(words),
        did_you_mean(value.is_string() ? value.get<std::string>() : "", words, "write one of these words"));
  }

  void text(const Json& schema, const std::string& value, const std::string& path) {
    if (value.size() < schema.value("minLength", std::size_t{0}))
      add(path, "an empty text", expected(schema), "fill it in or take the key out");
    if (!schema.contains("pattern") ||
        std::regex_search(value.substr(0, 200), pattern(schema["pattern"].get<std::string>())))
      return;
    add(path, in_quotes(value), expected(schema), fmt::format("write it like {}", example(schema)));
  }

  void number(const Json& schema, double value, const std::string& path) {
    const bool low = schema.contains("minimum") && value < schema["minimum"].get<double>();
    const bool high = schema.contains("maximum") && value > schema["maximum"].get<double>();
    if (!low && !high) return;
    const std::string least = schema.contains("minimum") ? schema["minimum"].dump() : "any";
    const std::string most = schema.contains("maximum") ? schema["maximum"].dump() : "any";
    add(path, fmt::format("{:.6g}", value), fmt::format("from {} to {}", least, most),
        "correct the number, and mind the unit that the key names");
  }

  void list(const Json& schema, const Json& value, const std::string& path) {
    if (value.size() < schema.value("minItems", std::size_t{0}))
      add(path, "an empty list", "at least one entry", "add an entry or take the key out");
    if (!schema.contains("items")) return;
    for (std::size_t i = 0; i < value.size(); ++i)
      visit(schema["items"], value[i], fmt::format("{}[{}]", path, i), Json::object());
  }

  void object(const Json& schema, const Json& value, const std::string& path) {
    const Json none = Json::object();
    const Json& known = schema.contains("properties") ? schema["properties"] : none;
    std::vector<std::string> names;
    for (const auto& item : known.items()) names.push_back(item.key());
    for (const Json& key : schema.value("required", Json::array()))
      if (!value.contains(key.get<std::string>())) missing(known, key.get<std::string>(), path);
    for (const auto& item : value.items()) {
      const std::string place = path.empty() ? item.key() : path + "." + item.key();
      if (known.contains(item.key()))
        visit(known[item.key()], item.value(), place, known);
      else if (schema.contains("additionalProperties"))
        add(place, "an unknown key", "a key of docs/farm-folder.md",
            did_you_mean(item.key(), names, "take it out; keys here: " + listed(names)));
    }
  }

  void missing(const Json& known, const std::string& key, const std::string& path) {
    const Json meaning = known.contains(key) ? resolved(known[key]) : Json::object();
    const std::string shown = example(meaning);
    add(path.empty() ? key : path + "." + key, "nothing: the key is missing",
        meaning.value("description", "a value"),
        fmt::format("add \"{}\": {}", key, shown.empty() ? "..." : shown));
  }

  /// Choices between keys ("last" or "days") and between forms of one value.
  void alternatives(const Json& choices, const Json& schema, const Json& value, const std::string& path,
                    bool exactly_one) {
    std::vector<std::string> keys;
    std::size_t fitting = 0;
    for (const Json& choice : choices) {
      Walk trial{root_, file_, patterns_};
      trial.visit(choice, value, path, Json::object());
      if (trial.issues.empty()) ++fitting;
      if (choice.contains("required") && !choice.contains("type"))
        keys.push_back(choice["required"][0].get<std::string>());
    }
    if (fitting == 1 || (fitting > 1 && !exactly_one)) return;
    if (keys.empty())
      add(path, found_words(value), schema.value("description", "another form"),
          "write it like " + example(schema));
    else if (fitting == 0)
      add(path.empty() ? keys[0] : path + "." + keys[0], "nothing: the key is missing",
          "one of the keys " + listed(keys), "add one of them");
    else
      add(path.empty() ? keys[0] : path + "." + keys[0], "more than one of " + listed(keys), "one of them",
          "keep one");
  }

  /// Each is made once: that takes longer than all the looking.
  const std::regex& pattern(const std::string& text) {
    const auto found = patterns_.find(text);
    return found != patterns_.end() ? found->second : patterns_.emplace(text, text).first->second;
  }

  const Json& root_;
  std::string file_;
  Patterns& patterns_;
};

}  // namespace

const Json& farm_schema() {
  static const Json schema = Json::parse(aftercut_farm_schema_begin, aftercut_farm_schema_end);
  return schema;
}

Issues explain_schema_faults(const Json& schema, const Json& document, const std::string& file) {
  Walk::Patterns patterns;
  Walk walk{schema, file, patterns};
  walk.visit(schema, document, "", Json::object());
  return walk.issues;
}

Issues check_schema(const Json& document, const std::string& file) {
  Issues issues = explain_schema_faults(farm_schema(), document, file);
  if (issues.empty() && !schema_accepts(document))
    issues.push_back({file, "whole file", "a document that departs from docs/schema/farm.schema.json",
                      "a document that follows it", "compare it with docs/farm-folder.md"});
  return issues;
}

}  // namespace aftercut::farm
