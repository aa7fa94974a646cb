// The only file that sees the schema validator, which is slow to compile.

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "schema.hpp"

namespace aftercut::farm {

bool schema_accepts(const Json& schema, const Json& document) {
  valijson::Schema parsed;
  valijson::SchemaParser parser;
  const valijson::adapters::NlohmannJsonAdapter schema_adapter{schema};
  parser.populateSchema(schema_adapter, parsed);
  valijson::Validator validator;
  const valijson::adapters::NlohmannJsonAdapter document_adapter{document};
  return validator.validate(parsed, document_adapter, nullptr);
}

}  // namespace aftercut::farm
