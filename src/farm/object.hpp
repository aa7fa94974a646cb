#pragma once
// A JSON object (or a row of attributes) being read: typed look-ups that turn faults into issues with their
// place.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "faults.hpp"
#include "json_text.hpp"

namespace aftercut::farm {

/// Where a value stands.
struct Origin {
  std::string file;
  std::string place;
};

/// Values that make sense, both ends included, in the unit asked for.
struct Range {
  double least = 0.0;
  double most = 1e12;
};

/// Look-ups give nothing for an absent key and for a faulty value; the latter leaves an issue behind.
/// Texts stand for numbers and yes/no where they come from a table's cells.
class Object {
 public:
  // Parentheses: braces would wrap the value in a list.
  Object(Json value, Origin at, Faults& faults, std::map<std::string, Origin> origins = {})
      : value_(std::move(value)), at_{std::move(at)}, origins_{std::move(origins)}, faults_{&faults} {}

  [[nodiscard]] bool has(const std::string& key) const { return value_.is_object() && value_.contains(key); }
  [[nodiscard]] std::optional<std::string> text(const std::string& key) const;
  [[nodiscard]] std::string text_or(const std::string& key, const std::string& otherwise) const;
  [[nodiscard]] std::optional<double> number(const std::string& key, Range range) const;
  [[nodiscard]] std::optional<int> whole(const std::string& key, int least, int most) const;
  [[nodiscard]] std::optional<bool> yes(const std::string& key) const;
  [[nodiscard]] std::optional<Date> date(const std::string& key) const;
  [[nodiscard]] std::optional<MonthDay> month_day(const std::string& key) const;
  /// One of `words`; its index.
  [[nodiscard]] std::optional<std::size_t> word(const std::string& key,
                                                const std::vector<std::string>& words) const;
  /// `key` with a unit in its text, or `key_<suffix>` as a number, in `unit`.
  [[nodiscard]] std::optional<double> quantity(const std::string& key, const std::string& unit,
                                               Range range) const;
  /// An amount in the farm's currency by `per` unit; empty: an amount alone.
  [[nodiscard]] std::optional<double> money(const std::string& key, const std::string& per,
                                            const std::string& currency, Range range = {}) const;
  [[nodiscard]] std::vector<std::string> texts(const std::string& key) const;
  /// Empty when absent.
  [[nodiscard]] Object child(const std::string& key) const;
  [[nodiscard]] std::vector<Object> list(const std::string& key) const;
  /// The key under which a quantity was given: itself, one with a suffix, or itself when it is absent.
  [[nodiscard]] std::string key_of(const std::string& quantity) const;

  [[nodiscard]] Origin origin(const std::string& key) const;
  [[nodiscard]] const std::string& file() const { return at_.file; }
  [[nodiscard]] const std::string& place() const { return at_.place; }
  [[nodiscard]] const Json& json() const { return value_; }
  [[nodiscard]] Faults& faults() const { return *faults_; }
  void fault(const std::string& key, std::string found, std::string expected, std::string fix) const;

 private:
  [[nodiscard]] const Json* find(const std::string& key) const;
  [[nodiscard]] std::optional<double> within(const std::string& key, double value, Range range,
                                             const std::string& unit) const;
  [[nodiscard]] std::optional<double> quantity_text(const std::string& key, const std::string& unit) const;

  Json value_;
  Origin at_;
  std::map<std::string, Origin> origins_;
  Faults* faults_;
};

}  // namespace aftercut::farm
