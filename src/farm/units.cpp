#include "units.hpp"

#include <udunits2.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <map>
#include <memory>
#include <mutex>

#include "aftercut/core/require.hpp"

namespace aftercut::farm {
namespace {

struct FreeSystem {
  void operator()(ut_system* s) const { ut_free_system(s); }
};
struct FreeUnit {
  void operator()(ut_unit* u) const { ut_free(u); }
};
struct FreeConverter {
  void operator()(cv_converter* c) const { cv_free(c); }
};

const ut_system* unit_system() {
  static const std::unique_ptr<ut_system, FreeSystem> system = [] {
    ut_set_error_message_handler(ut_ignore);
    return std::unique_ptr<ut_system, FreeSystem>{ut_read_xml(nullptr)};
  }();
  require(system != nullptr, "the unit database of UDUNITS-2 could not be read");
  return system.get();
}

// Names that UDUNITS lacks or defines by the US survey foot. Source: NIST811 (recalled).
const std::map<std::string, std::string>& aliases() {
  static const std::string acre = "(4046.8564224 m2)", pound = "(0.45359237 kg)";
  static const std::string hundredweight = "(45.359237 kg)", acre_foot = "(1233.48183754752 m3)";
  static const std::map<std::string, std::string> names{{"acre", acre},
                                                        {"acres", acre},
                                                        {"ac", acre},
                                                        {"lb", pound},
                                                        {"lbs", pound},
                                                        {"pound", pound},
                                                        {"pounds", pound},
                                                        {"cwt", hundredweight},
                                                        {"acre_foot", acre_foot},
                                                        {"acre_feet", acre_foot},
                                                        {"t", "(1000 kg)"},
                                                        {"ton", "(907.18474 kg)"},
                                                        {"tons", "(907.18474 kg)"},
                                                        {"gal", "(3.785411784e-3 m3)"},
                                                        {"gals", "(3.785411784e-3 m3)"},
                                                        {"hp", "(745.69987158227 W)"},
                                                        {"cfs", "(0.028316846592 m3/s)"},
                                                        {"mph", "(0.44704 m/s)"},
                                                        {"hr", "h"},
                                                        {"hrs", "h"},
                                                        {"kWh", "(3.6e6 J)"}};
  return names;
}

bool is_name(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '_'; }

// "ac-ft" means a product to growers; a minus before a digit is an exponent and stays.
std::string with_products(const std::string& unit) {
  std::string out = unit;
  for (std::size_t i = 1; i + 1 < out.size(); ++i)
    if (out[i] == '-' && is_name(out[i - 1]) && is_name(out[i + 1])) out[i] = '.';
  return out;
}

std::string with_aliases(const std::string& unit) {
  std::string out;
  for (std::size_t i = 0; i < unit.size();) {
    if (!is_name(unit[i])) {
      out += unit[i++];
      continue;
    }
    std::size_t end = i;
    while (end < unit.size() && is_name(unit[end])) ++end;
    const std::string word = unit.substr(i, end - i);
    const auto alias = aliases().find(word);
    out += alias == aliases().end() ? word : alias->second;
    i = end;
  }
  return out;
}

/// UDUNITS' parser keeps its state in globals: two farms may be read at a time, two units not.
std::mutex& one_at_a_time() {
  static std::mutex mutex;
  return mutex;
}

std::unique_ptr<ut_unit, FreeUnit> parse_unit(const std::string& unit) {
  const std::string plain = with_aliases(with_products(unit));
  return std::unique_ptr<ut_unit, FreeUnit>{ut_parse(unit_system(), plain.c_str(), UT_UTF8)};
}

std::string_view trimmed(std::string_view text) {
  const auto space = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
  while (!text.empty() && space(text.front())) text.remove_prefix(1);
  while (!text.empty() && space(text.back())) text.remove_suffix(1);
  return text;
}

}  // namespace

bool is_unit(const std::string& unit) {
  const std::scoped_lock lock{one_at_a_time()};
  return !unit.empty() && parse_unit(unit) != nullptr;
}

std::optional<double> convert(double value, const std::string& from, const std::string& to) {
  const std::scoped_lock lock{one_at_a_time()};
  const auto a = parse_unit(from), b = parse_unit(to);
  if (!a || !b || ut_are_convertible(a.get(), b.get()) == 0) return std::nullopt;
  const std::unique_ptr<cv_converter, FreeConverter> c{ut_get_converter(a.get(), b.get())};
  if (!c) return std::nullopt;
  const double out = cv_convert_double(c.get(), value);
  return std::isfinite(out) ? std::optional{out} : std::nullopt;
}

const std::vector<Suffix>& unit_suffixes() {
  static const std::vector<Suffix> table{{"kg_per_ha", "kg/ha"},
                                         {"t_per_ha", "t/ha"},
                                         {"lb_per_acre", "lb/acre"},
                                         {"cwt_per_acre", "cwt/acre"},
                                         {"percent", "%"},
                                         {"mm", "mm"},
                                         {"cm", "cm"},
                                         {"m", "m"},
                                         {"in", "in"},
                                         {"ft", "ft"},
                                         {"ha", "ha"},
                                         {"acre", "acre"},
                                         {"km_per_h", "km/h"},
                                         {"mph", "mph"},
                                         {"m_s", "m/s"},
                                         {"kw", "kW"},
                                         {"hp", "hp"},
                                         {"kg", "kg"},
                                         {"l", "L"},
                                         {"gal", "gal"},
                                         {"t", "t"},
                                         {"lb", "lb"},
                                         {"t_per_h", "t/h"},
                                         {"t_per_m3", "t/m3"},
                                         {"m3_per_day", "m3/day"},
                                         {"ft3_per_s", "ft3/s"},
                                         {"mm_per_day", "mm/day"},
                                         {"in_per_day", "in/day"},
                                         {"ha_per_day", "ha/day"},
                                         {"acre_per_day", "acre/day"},
                                         {"min_per_ha", "min/ha"},
                                         {"min_per_acre", "min/acre"},
                                         {"h", "h"},
                                         {"min", "min"},
                                         {"kpa", "kPa"},
                                         {"psi", "psi"},
                                         {"c", "degC"},
                                         {"f", "degF"},
                                         {"mj_m2", "MJ/m2"}};
  return table;
}

std::optional<KeyParts> parts_of(const std::string& key, const std::vector<std::string>& bases) {
  for (const std::string& base : bases) {
    if (key == base) return KeyParts{base, ""};
    if (!key.starts_with(base + "_")) continue;
    const std::string rest = key.substr(base.size() + 1);
    for (const Suffix& s : unit_suffixes())
      if (s.suffix == rest) return KeyParts{base, rest};
  }
  return std::nullopt;
}

std::optional<NumberAndUnit> split_quantity(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double number = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || !std::isfinite(number)) return std::nullopt;
  const auto used = static_cast<std::size_t>(end - text.data());
  return NumberAndUnit{number, std::string{trimmed(text.substr(used))}};
}

std::optional<double> parse_number(std::string_view text) {
  const auto q = split_quantity(text);
  return q && q->unit.empty() ? std::optional{q->number} : std::nullopt;
}

std::optional<MoneyText> split_money(std::string_view text) {
  const auto q = split_quantity(text);
  if (!q || q->unit.size() < 3) return std::nullopt;
  MoneyText m{q->number, q->unit.substr(0, 3), ""};
  std::string_view rest = trimmed(std::string_view{q->unit}.substr(3));
  if (rest.empty()) return m;
  if (rest.starts_with("/"))
    rest.remove_prefix(1);
  else if (rest.starts_with("per "))
    rest.remove_prefix(4);
  else
    return std::nullopt;
  m.per = std::string{trimmed(rest)};
  return m.per.empty() ? std::nullopt : std::optional{m};
}

}  // namespace aftercut::farm
