#include "read_decision.hpp"

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* plan_schema = "aftercut-plan-1";

}  // namespace

std::vector<int> read_field_list(JsonIn& in, const Json& object, const char* key, const std::string& place) {
  std::vector<int> all;
  for (const Json& id : in.array(object, key, place))
    all.push_back(in.index(id, in.ids().fields, "field", place + "." + key, false));
  return all;
}

void check_schema(JsonIn& in, const Json& root) {
  const std::string schema = in.text(root, "schema", "plan");
  if (schema != plan_schema)
    in.issue("schema", schema, plan_schema, "write the plan again with this version");
}

int read_chosen_method(JsonIn& in, const Json& chosen, const std::string& place) {
  return in.index(in.get(chosen, "method", place), in.ids().recipes, "method", place + ".method", true);
}

Result<plan::Decision> read_decision(const std::filesystem::path& plan_json, const farm::Problem& problem) {
  const auto text = read_file(plan_json);
  Issues missing = text.issues();
  for (const Issue& i : mixed_files(plan_json.parent_path())) missing.push_back(i);
  if (!missing.empty()) return missing;
  JsonIn in{plan_json.filename().string(), problem.farm};
  const Json root = in.parse(text.value(), "plan");
  if (!in.issues().empty()) return in.issues();
  check_schema(in, root);
  plan::Decision d;
  d.method.resize(problem.farm.fields.size(), plan::none);
  each_field_once(in, in.array(root, "fields", "plan"), "id", "fields",
                  [&](const Json& row, std::size_t field, const std::string& place) {
                    d.method[field] = read_chosen_method(in, in.get(row, "chosen", place), place + ".chosen");
                  });
  const Json& policy = in.get(root, "policy", "plan");
  d.autumn_order = read_field_list(in, policy, "autumn", "policy");
  d.spring_order = read_field_list(in, policy, "spring", "policy");
  if (!in.issues().empty()) return in.issues();
  return d;
}

}  // namespace aftercut::audit
