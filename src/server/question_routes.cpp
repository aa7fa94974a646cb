// Questions: changes to plan again with; and scenarios, which are such changes kept on file.

#include <nlohmann/json.hpp>

#include "aftercut/server/scenario_files.hpp"
#include "http.hpp"
#include "replies.hpp"

namespace aftercut::server {
namespace {

using httplib::ContentReader;
using httplib::Request;
using httplib::Response;
using json = nlohmann::ordered_json;

constexpr const char* name_in_path = R"(/scenarios/([^/]{1,80}))";

/// {"name", "changes"} of the body; otherwise the answer is set.
std::optional<farm::Scenario> scenario_in(const ContentReader& reader, Response& response) {
  const auto body = whole_body(reader, response);
  if (!body) return std::nullopt;
  auto scenario = farm::read_scenario(*body, "request");
  if (scenario.ok()) return std::move(scenario).value();
  reply_error(response, 422, "faulty", "The changes cannot be read.", scenario.issues());
  return std::nullopt;
}

void reply_outcome(const Result<WriteOutcome>& outcome, Response& r) {
  if (!outcome.ok()) return reply_error(r, 422, "not-written", "Nothing was written.", outcome.issues());
  if (outcome.value().changed_meanwhile)
    return reply_error(r, 409, "changed-meanwhile",
                       "The scenario on file is not the one that you saw; nothing was written. Look at it, "
                       "then keep yours again.");
  reply_json(r, 200, json{{"mark", outcome.value().mark}}.dump());
}

void ask(Desk& desk, const Request& q, Response& r, const ContentReader& reader) {
  const auto scenario = scenario_in(reader, r);
  if (!scenario) return;
  const std::string saved_as = q.get_param_value("scenario");
  if (!saved_as.empty()) {
    const auto on_file = scenario_on_file(desk.setup().folder, saved_as);
    if (!on_file.ok())
      return reply_error(r, 404, "no-scenario", "There is no such scenario.", on_file.issues());
    if (on_file.value().scenario.changes != scenario->changes)
      return reply_error(r, 409, "changed-meanwhile",
                         "The scenario on file has other changes; keep yours first.");
  }
  reply_json(r, 202, json{{"job", desk.ask(*scenario, saved_as)}}.dump());
}

void reply_job(const Desk& desk, const Request& q, Response& r) {
  const auto job = desk.job(q.matches[1].str());
  if (!job) return reply_error(r, 404, "no-job", "There is no such question.");
  reply_json(r, 200, job_json(*job));
}

void give_up(Desk& desk, const Request& q, Response& r) {
  if (desk.give_up(q.matches[1].str())) return reply_json(r, 200, "{}");
  reply_error(r, 404, "no-job", "There is no such question on its way.");
}

void reply_scenario(const Desk& desk, const Request& q, Response& r) {
  const auto found = scenario_on_file(desk.setup().folder, q.matches[1].str());
  if (!found.ok()) return reply_error(r, 404, "no-scenario", "There is no such scenario.", found.issues());
  if (!found.value().issues.empty())
    return reply_error(r, 422, "faulty", "The scenario cannot be read.", found.value().issues);
  r.set_header("ETag", "\"" + found.value().mark + "\"");
  reply_json(r, 200, farm::scenario_text(found.value().scenario));
}

/// The mark that the writer has seen: If-Match: "MARK"; absent for a new scenario.
std::string seen_mark(const Request& q) {
  std::string mark = q.get_header_value("If-Match");
  if (mark.size() >= 2 && mark.front() == '"' && mark.back() == '"') mark = mark.substr(1, mark.size() - 2);
  return mark;
}

}  // namespace

void add_question_routes(httplib::Server& http, Desk& desk) {
  http.Post("/plans",
            [&](const Request& q, Response& r, const ContentReader& reader) { ask(desk, q, r, reader); });
  http.Post("/trade-offs", [&](const Request&, Response& r, const ContentReader& reader) {
    if (whole_body(reader, r)) reply_json(r, 202, json{{"job", desk.ask_to_weigh()}}.dump());
  });
  http.Get(R"(/jobs/([a-z0-9-]{1,40}))", [&](const Request& q, Response& r) { reply_job(desk, q, r); });
  http.Delete(R"(/jobs/([a-z0-9-]{1,40}))", [&](const Request& q, Response& r) { give_up(desk, q, r); });
  http.Get(name_in_path, [&](const Request& q, Response& r) { reply_scenario(desk, q, r); });
  http.Put(name_in_path, [&](const Request& q, Response& r, const ContentReader& reader) {
    const auto scenario = scenario_in(reader, r);
    if (scenario)
      reply_outcome(write_scenario(desk.setup().folder, q.matches[1].str(), *scenario, seen_mark(q)), r);
  });
  http.Delete(name_in_path, [&](const Request& q, Response& r) {
    reply_outcome(remove_scenario(desk.setup().folder, q.matches[1].str(), seen_mark(q)), r);
  });
}

}  // namespace aftercut::server
