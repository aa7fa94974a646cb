// The room's only file that sees the schema validator, which is slow to compile.

#include "plan_schema.hpp"

#include <string_view>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

extern "C" {
extern const char aftercut_plan_schema_begin[];  // NOLINT: symbols of plan_schema.S
extern const char aftercut_plan_schema_end[];
}

namespace aftercut::report::sheets {
namespace {

/// "<root>[fields][3][jobs]" as "fields[3].jobs".
std::string place_of(const std::vector<std::string>& context) {
  std::string out;
  for (std::size_t i = 1; i < context.size(); ++i) {
    const std::string inside =
        context[i].size() > 2 ? context[i].substr(1, context[i].size() - 2) : context[i];
    const bool index = inside.find_first_not_of("0123456789") == std::string::npos;
    out += index ? "[" + inside + "]" : (out.empty() ? "" : ".") + inside;
  }
  return out.empty() ? "top level" : out;
}

}  // namespace

Issues departures_of(const nlohmann::json& plan) {
  constexpr std::size_t most_listed = 40;
  const auto text = nlohmann::json::parse(aftercut_plan_schema_begin, aftercut_plan_schema_end);
  valijson::Schema schema;
  valijson::SchemaParser{}.populateSchema(valijson::adapters::NlohmannJsonAdapter{text}, schema);
  valijson::ValidationResults results;
  valijson::Validator{}.validate(schema, valijson::adapters::NlohmannJsonAdapter{plan}, &results);
  Issues issues;
  valijson::ValidationResults::Error error;
  while (results.popError(error)) {
    // The faults themselves; not that what holds them does not fit either.
    if (error.description.starts_with("Failed to validate")) continue;
    if (issues.size() == most_listed) {
      issues.push_back({"plan.json", "whole file", "more departures", "none", "write the plan again"});
      break;
    }
    issues.push_back({"plan.json", place_of(error.context), error.description,
                      "a value that docs/schema/plan.schema.json describes", "write the plan again"});
  }
  return issues;
}

}  // namespace aftercut::report::sheets
