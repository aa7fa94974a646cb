// The only file that sees the schema validator, which is slow to compile.

#include <memory>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "schema.hpp"

namespace aftercut::farm {

namespace {

/// The schema as the validator holds it: most of the reading of a small farm would go into making it anew.
const valijson::Schema& held_schema() {
  static const auto held = [] {
    auto schema = std::make_unique<valijson::Schema>();
    valijson::SchemaParser parser;
    parser.populateSchema(valijson::adapters::NlohmannJsonAdapter{farm_schema()}, *schema);
    return schema;
  }();
  return *held;
}

}  // namespace

bool schema_accepts(const Json& document) {
  valijson::Validator validator;
  const valijson::adapters::NlohmannJsonAdapter document_adapter{document};
  return validator.validate(held_schema(), document_adapter, nullptr);
}

}  // namespace aftercut::farm
