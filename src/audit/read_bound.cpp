// bound.json back into values. Its faults are violations: without it the plan can still be lived again.

#include <fmt/format.h>

#include <cmath>

#include "aftercut/core/save_file.hpp"
#include "bound_proof.hpp"
#include "json_in.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* bound_schema = "aftercut-bound-1";
constexpr double percent_tolerance = 0.005001;  // plan.json prints two decimals

/// The text behind the place of something in bound.json.
Place in_file(const std::string& place) {
  return {nullptr, -1, -1, -1, std::string{bound_file} + ", " + place};
}

struct Kind {
  plan::Resource resource;
  const Names* names;
};
std::optional<Kind> kind_named(const JsonIn& in, const std::string& word) {
  if (word == "tractor") return Kind{plan::Resource::tractor, &in.ids().tractors};
  if (word == "implement") return Kind{plan::Resource::implement, &in.ids().implements};
  if (word == "operator") return Kind{plan::Resource::person, &in.ids().operators};
  return std::nullopt;
}

std::vector<double> read_numbers(JsonIn& in, const Json& object, const char* key, const std::string& place) {
  std::vector<double> numbers;
  for (const Json& value : in.array(object, key, place)) {
    const bool good = value.is_number() && std::isfinite(value.get<double>());
    if (!good) in.issue(place + "." + key, value.dump(), "numbers", "write the plan again");
    numbers.push_back(good ? value.get<double>() : 0.0);
  }
  return numbers;
}

std::vector<int> read_days(JsonIn& in, const Json& object, const char* key, const std::string& place) {
  std::vector<int> days;
  for (const Json& value : in.array(object, key, place)) {
    const auto date = value.is_string() ? parse_iso_date(value.get<std::string>()) : std::nullopt;
    if (!date)
      in.issue(place + "." + key, value.dump(), "dates as 2026-10-03", "write the plan again");
    else
      days.push_back(in.farm().season.day(*date));
  }
  return days;
}

class BoundReader {
 public:
  explicit BoundReader(const farm::Farm& farm) : in_{bound_file, farm} {}

  plan::BoundProof read(const std::string& text) {
    plan::BoundProof proof;
    const Json root = in_.parse(text, "whole file");
    if (!in_.issues().empty()) return proof;
    const std::string schema = in_.text(root, "schema", "bound");
    if (schema != bound_schema) in_.issue("schema", schema, bound_schema, "write the plan again");
    const std::string currency = in_.text(root, "currency", "bound");
    if (currency != in_.farm().currency)
      in_.issue("currency", currency, in_.farm().currency, "write the plan again");
    proof.rounds = in_.small(root, "rounds", "bound");
    proof.cents = in_.whole(root, "bound_cents", "bound");
    proof.cents_a_year = in_.whole(root, "bound_cents_a_year", "bound");
    proof.without_prices = in_.whole(root, "without_multipliers_cents", "bound");
    const Json& years = in_.array(root, "years", "bound");
    for (std::size_t k = 0; k < years.size(); ++k)
      proof.years.push_back(read_year(years[k], fmt::format("years[{}]", k)));
    read_fields(root, proof);
    return proof;
  }

  /// Faults as violations of the audit; `broken`: there is no whole proof to look at.
  Findings findings() const {
    Findings f = unknown_;
    for (const Issue& i : in_.issues())
      f.expect(false, "broken bound.json", in_file(i.place), [&] { return Texts{i.found, i.expected}; });
    return f;
  }
  [[nodiscard]] bool broken() const { return !in_.issues().empty(); }

 private:
  plan::BoundYear read_year(const Json& row, const std::string& place) {
    plan::BoundYear year{.year = in_.small(row, "year", place),
                         .paid_back = in_.number(row, "paid_back_cents", place),
                         .prices = {}};
    const Json& rows = in_.array(row, "multipliers", place);
    for (std::size_t k = 0; k < rows.size(); ++k)
      read_multipliers(rows[k], fmt::format("{}.multipliers[{}]", place, k), year);
    return year;
  }

  void read_multipliers(const Json& row, const std::string& place, plan::BoundYear& year) {
    const std::string kind = in_.text(row, "kind", place), id = in_.text(row, "id", place);
    const std::vector<int> days = read_days(in_, row, "days", place);
    const std::vector<double> cents = read_numbers(in_, row, "cents_a_minute", place);
    if (days.size() != cents.size())
      in_.issue(place, fmt::format("{} days, {} multipliers", days.size(), cents.size()), "as many of both",
                "write the plan again");
    if (in_.issues().size() > 0) return;
    const auto of = kind_named(in_, kind);
    const auto known = of ? of->names->find(id) : Names::const_iterator{};
    const bool there = of && known != of->names->end();
    unknown_.expect(there, "unknown multiplier", in_file(place), [&] {
      return Texts{kind + " " + id, "a tractor, implement or operator of the farm"};
    });
    if (!there) return;
    for (std::size_t k = 0; k < days.size(); ++k)
      year.prices.push_back({of->resource, known->second, days[k], cents[k]});
  }

  void read_fields(const Json& root, plan::BoundProof& proof) {
    const auto& fields = in_.farm().fields;
    proof.fields.resize(fields.size());
    std::vector<int> times(fields.size(), 0);
    const Json& rows = in_.array(root, "fields", "bound");
    for (std::size_t k = 0; k < rows.size(); ++k) {
      const std::string place = fmt::format("fields[{}]", k);
      const int field =
          in_.index(in_.get(rows[k], "id", place), in_.ids().fields, "field", place + ".id", false);
      if (field == plan::none) continue;
      proof.fields[static_cast<std::size_t>(field)] = read_field(rows[k], place);
      ++times[static_cast<std::size_t>(field)];
    }
    for (std::size_t f = 0; f < fields.size(); ++f)
      if (times[f] != 1)
        in_.issue("fields", fmt::format("field {} {} times", fields[f].id.value, times[f]),
                  "each field of the farm once", "write the plan again");
  }

  plan::FieldFloor read_field(const Json& row, const std::string& place) {
    const auto method = [&](const Json& object, const char* key, const std::string& where, bool may_be_null) {
      return in_.index(in_.get(object, key, where), in_.ids().recipes, "method", where + "." + key,
                       may_be_null);
    };
    plan::FieldFloor field;
    field.method = method(row, "method", place, true);
    const Json& rows = in_.array(row, "methods", place);
    for (std::size_t k = 0; k < rows.size(); ++k) {
      const std::string where = fmt::format("{}.methods[{}]", place, k);
      plan::MethodFloor floor;
      floor.method = method(rows[k], "id", where, false);
      floor.cents = in_.number(rows[k], "cents", where);
      if (rows[k].is_object() && rows[k].contains("by_year_cents"))
        floor.by_year = read_numbers(in_, rows[k], "by_year_cents", where);
      field.methods.push_back(std::move(floor));
    }
    return field;
  }

  JsonIn in_;
  Findings unknown_;
};

/// The gap of plan.json's objective in money and percent follows from plan and bound.
Findings check_gap(const farm::Farm& farm, const std::string& plan_text, const plan::Plan& p) {
  Findings f;
  JsonIn in{"plan.json", farm};
  const Json root = in.parse(plan_text, "plan");
  const Json& objective = in.get(root, "objective", "plan");
  const auto same = [&](const char* key, std::optional<double> expected, double tolerance) {
    const Json& said = in.get(objective, key, "objective");
    const bool good =
        expected ? said.is_number() && std::abs(said.get<double>() - *expected) <= tolerance : said.is_null();
    f.expect(good, "wrong gap", Place{nullptr, -1, -1, -1, std::string{"objective."} + key}, [&] {
      return Texts{said.dump(), expected ? fmt::format("{:.2f}", *expected) : "null"};
    });
  };
  std::optional<double> gap, percent;
  if (p.bound_cents) {
    const auto plan = static_cast<double>(p.cost_cents);
    gap = (plan - static_cast<double>(*p.bound_cents)) / 100.0;
    if (p.cost_cents != 0) percent = 100.0 * 100.0 * *gap / std::abs(plan);
  }
  same("gap", gap, 0.001);
  same("gap_percent", percent, percent_tolerance);
  return f;
}

}  // namespace

BoundRead read_bound(const std::filesystem::path& plan_json, const farm::Problem& problem,
                     const plan::Plan& p) {
  BoundRead out;
  Findings f;
  const auto plan_text = read_file(plan_json);
  if (plan_text.ok()) f += check_gap(problem.farm, plan_text.value(), p);
  const std::filesystem::path file = plan_json.parent_path() / bound_file;
  std::error_code unused;
  if (std::filesystem::exists(file, unused)) {
    BoundReader reader{problem.farm};
    const auto text = read_file(file);
    plan::BoundProof proof = reader.read(text.ok() ? text.value() : "");
    f += reader.findings();
    if (!reader.broken()) out.proof = std::move(proof);
  }
  out.found = f.audit;
  return out;
}

}  // namespace aftercut::audit
