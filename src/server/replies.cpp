#include "replies.hpp"

namespace aftercut::server {
namespace {

using json = nlohmann::ordered_json;

}  // namespace

json issues_json(const Issues& issues) {
  json list = json::array();
  for (const Issue& i : issues)
    list.push_back(
        {{"file", i.file}, {"place", i.place}, {"found", i.found}, {"expected", i.expected}, {"fix", i.fix}});
  return list;
}

std::string error_json(const std::string& code, const std::string& message, const Issues& issues) {
  return json{{"error", {{"code", code}, {"message", message}, {"issues", issues_json(issues)}}}}.dump(
             -1, ' ', false, json::error_handler_t::replace) +
         "\n";
}

}  // namespace aftercut::server
