#include "object.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units.hpp"

namespace aftercut::farm {
namespace {

std::string shown(const Json& v) { return v.is_string() ? in_quotes(v.get<std::string>()) : v.dump(); }

}  // namespace

const Json* Object::find(const std::string& key) const {
  if (!has(key)) return nullptr;
  return &value_[key];
}

Origin Object::origin(const std::string& key) const {
  const auto own = origins_.find(key);
  if (own != origins_.end()) return own->second;
  return {at_.file, at_.place.empty() ? key : at_.place + "." + key};
}

void Object::fault(const std::string& key, std::string found, std::string expected, std::string fix) const {
  const Origin o = origin(key);
  faults_->add({o.file, o.place, std::move(found), std::move(expected), std::move(fix)});
}

std::optional<std::string> Object::text(const std::string& key) const {
  const Json* v = find(key);
  if (v == nullptr || !v->is_string() || v->get_ref<const std::string&>().empty()) return std::nullopt;
  return v->get<std::string>();
}

std::string Object::text_or(const std::string& key, const std::string& otherwise) const {
  return text(key).value_or(otherwise);
}

std::optional<double> Object::within(const std::string& key, double value, Range range,
                                     const std::string& unit) const {
  if (value >= range.least && value <= range.most) return value;
  const std::string of = unit.empty() ? "" : " " + unit;
  fault(key, fmt::format("{:.6g}{}", value, of), fmt::format("{:g} to {:g}{}", range.least, range.most, of),
        "correct the number or its unit");
  return std::nullopt;
}

std::optional<double> Object::number(const std::string& key, Range range) const {
  const Json* v = find(key);
  if (v == nullptr) return std::nullopt;
  if (v->is_number()) return within(key, v->get<double>(), range, "");
  if (!v->is_string()) return std::nullopt;
  const auto parsed = parse_number(v->get<std::string>());
  if (parsed) return within(key, *parsed, range, "");
  fault(key, shown(*v), "a number", "write a plain number, with a point for decimals");
  return std::nullopt;
}

std::optional<int> Object::whole(const std::string& key, int least, int most) const {
  const auto n = number(key, {static_cast<double>(least), static_cast<double>(most)});
  if (!n) return std::nullopt;
  if (*n == std::floor(*n)) return static_cast<int>(*n);
  fault(key, fmt::format("{:g}", *n), "a whole number", "write a whole number");
  return std::nullopt;
}

std::optional<bool> Object::yes(const std::string& key) const {
  const Json* v = find(key);
  if (v == nullptr) return std::nullopt;
  if (v->is_boolean()) return v->get<bool>();
  if (!v->is_string()) return std::nullopt;
  std::string word = v->get<std::string>();
  std::transform(word.begin(), word.end(), word.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  if (word == "yes" || word == "true" || word == "1") return true;
  if (word == "no" || word == "false" || word == "0") return false;
  fault(key, shown(*v), "yes or no", "write yes or no");
  return std::nullopt;
}

std::optional<Date> Object::date(const std::string& key) const {
  const auto word = text(key);
  if (!word) return std::nullopt;
  std::string iso_form = *word;  // some drivers give days as 2026/09/18
  std::replace(iso_form.begin(), iso_form.end(), '/', '-');
  const auto day = parse_iso_date(iso_form);
  if (!day)
    fault(key, in_quotes(*word), "a day of the calendar, such as \"2026-09-20\"", "write year-month-day");
  return day;
}

std::optional<MonthDay> Object::month_day(const std::string& key) const {
  const auto word = text(key);
  if (!word) return std::nullopt;
  const auto day = parse_month_day(*word);
  if (!day) fault(key, in_quotes(*word), "a day of any year, such as \"02-01\"", "write month-day");
  return day;
}

std::optional<std::size_t> Object::word(const std::string& key, const std::vector<std::string>& words) const {
  const auto w = text(key);
  if (!w) return std::nullopt;
  const auto at = std::find(words.begin(), words.end(), *w);
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  fault(key, in_quotes(*w), "one of " + listed(words), did_you_mean(*w, words, "write one of these words"));
  return std::nullopt;
}

std::string Object::key_of(const std::string& quantity) const {
  if (has(quantity)) return quantity;
  for (const Suffix& s : unit_suffixes())
    if (has(quantity + "_" + s.suffix)) return quantity + "_" + s.suffix;
  return quantity;
}

std::optional<double> Object::quantity_text(const std::string& key, const std::string& unit) const {
  const Json* v = find(key);
  if (v->is_number()) {
    fault(key, "the bare number " + v->dump(), fmt::format("a number and its unit, such as {}", unit),
          "write the unit too");
    return std::nullopt;
  }
  if (!v->is_string()) return std::nullopt;
  const auto q = split_quantity(v->get<std::string>());
  if (!q || q->unit.empty()) {
    fault(key, shown(*v), fmt::format("a number and its unit, such as {}", unit),
          q ? "write the unit too, or use a key or column that ends in its unit"
            : "write a plain finite number and its unit");
    return std::nullopt;
  }
  const auto value = convert(q->number, q->unit, unit);
  if (!value)
    fault(key, shown(*v), fmt::format("a unit that can be brought to {}", unit),
          is_unit(q->unit) ? fmt::format("{} measures something else: correct the unit", q->unit)
                           : fmt::format("the unit {} is not known: correct it", in_quotes(q->unit)));
  return value;
}

std::optional<double> Object::quantity(const std::string& key, const std::string& unit, Range range) const {
  std::vector<std::pair<std::string, std::string>> given;
  if (has(key)) given.emplace_back(key, "");
  for (const Suffix& s : unit_suffixes())
    if (has(key + "_" + s.suffix)) given.emplace_back(key + "_" + s.suffix, s.unit);
  if (given.empty()) return std::nullopt;
  if (given.size() > 1) {
    fault(given[1].first, fmt::format("both {} and {}", given[0].first, given[1].first), "one of the two",
          "keep one");
    return std::nullopt;
  }
  const auto& [name, suffix_unit] = given[0];
  std::optional<double> value;
  if (suffix_unit.empty())
    value = quantity_text(name, unit);
  else if (const auto n = number(name, {-1e300, 1e300})) {
    value = convert(*n, suffix_unit, unit);
    if (!value)
      fault(name, "a key or column in " + suffix_unit, "a unit that can be brought to " + unit,
            "correct its name");
  }
  return value ? within(name, *value, range, unit) : std::nullopt;
}

std::optional<double> Object::money(const std::string& key, const std::string& per,
                                    const std::string& currency, Range range) const {
  const auto word = text(key);
  if (!word) return std::nullopt;
  const std::string expected = per.empty()
                                   ? fmt::format("an amount, such as \"100 {}\"", currency)
                                   : fmt::format("an amount by a unit, such as \"100 {}/{}\"", currency, per);
  const auto m = split_money(*word);
  if (!m || m->currency != currency || m->per.empty() != per.empty()) {
    const bool other = m && m->currency != currency;
    fault(key, in_quotes(*word), expected,
          other ? fmt::format("write it in {}, the farm's currency", currency)
                : "write amount, currency and unit like that");
    return std::nullopt;
  }
  const auto units = per.empty() ? std::optional{1.0} : convert(1.0, m->per, per);
  if (!units || *units <= 0.0) {
    fault(key, in_quotes(*word), expected,
          fmt::format("{} cannot be brought to {}: correct the unit", in_quotes(m->per), per));
    return std::nullopt;
  }
  return within(key, m->amount / *units, range, currency + (per.empty() ? "" : "/" + per));
}

std::vector<std::string> Object::texts(const std::string& key) const {
  std::vector<std::string> out;
  const Json* v = find(key);
  if (v == nullptr || !v->is_array()) return out;
  for (const Json& item : *v)
    if (item.is_string()) out.push_back(item.get<std::string>());
  return out;
}

Object Object::child(const std::string& key) const {
  const Json* v = find(key);
  return {v != nullptr && v->is_object() ? *v : Json::object(), origin(key), *faults_};
}

std::vector<Object> Object::list(const std::string& key) const {
  std::vector<Object> out;
  const Json* v = find(key);
  if (v == nullptr || !v->is_array()) return out;
  const Origin o = origin(key);
  for (std::size_t i = 0; i < v->size(); ++i)
    if ((*v)[i].is_object())
      out.emplace_back((*v)[i], Origin{o.file, fmt::format("{}[{}]", o.place, i)}, *faults_);
  return out;
}

}  // namespace aftercut::farm
