#pragma once
// farm.json against its published schema (JSON Schema draft-07).

#include <string>

#include "aftercut/core/result.hpp"
#include "json_text.hpp"

namespace aftercut::farm {

/// docs/schema/farm.schema.json, built in.
const Json& farm_schema();

/// Every place at which `document` departs from `schema`, in words for the grower. Knows the keywords that
/// our schema uses.
Issues explain_schema_faults(const Json& schema, const Json& document, const std::string& file);

/// The verdict of an independent validator on a document under farm_schema().
bool schema_accepts(const Json& document);

/// Nothing when the document follows the schema; else at least one issue.
Issues check_schema(const Json& document, const std::string& file);

}  // namespace aftercut::farm
