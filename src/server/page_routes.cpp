// The page and what can be taken away from it.

#include <nlohmann/json.hpp>

#include "aftercut/report/page.hpp"
#include "http.hpp"

namespace aftercut::server {
namespace {

using httplib::Request;
using httplib::Response;

std::string path_end(const Request& request) { return request.matches[1].str(); }

std::shared_ptr<const Kept> kept_or_error(const Desk& desk, const std::string& id, Response& response) {
  auto plan = desk.plan(id);
  if (!plan) reply_error(response, 404, "no-plan", "There is no such plan, or it is not kept any more.");
  return plan;
}

void reply_page(const Desk& desk, const Guard& guard, const Request& request, Response& response) {
  if (opens_with_key(guard, knock_of(request))) {
    response.set_header("Set-Cookie",
                        guard.cookie_name + "=" + guard.key + "; HttpOnly; SameSite=Strict; Path=/");
    response.set_redirect("/", 303);
    return;
  }
  const std::string id = request.has_param("plan") ? request.get_param_value("plan") : "base";
  const auto plan = desk.plan(id);
  if (!plan && id != "base") {
    response.set_redirect("/", 303);
    return;
  }
  const std::string html = plan ? report::served_page_html({plan->id, &plan->plan_json, &plan->problem->farm})
                                : report::served_page_html({"base", nullptr, nullptr});
  response.set_content(html, "text/html; charset=utf-8");
}

}  // namespace

void add_page_routes(httplib::Server& http, const Desk& desk, const Guard& guard) {
  const auto text = [](std::string_view bytes, const char* type) {
    return [bytes, type](const Request&, Response& response) {
      response.set_content(bytes.data(), bytes.size(), type);
    };
  };
  http.Get("/", [&](const Request& q, Response& r) { reply_page(desk, guard, q, r); });
  http.Get("/page.js", text(report::page_files().program, "text/javascript; charset=utf-8"));
  http.Get("/page.css", text(report::page_files().style, "text/css; charset=utf-8"));
  http.Get(R"(/plans/([a-z0-9-]{1,40}))", [&](const Request& q, Response& r) {
    if (const auto plan = kept_or_error(desk, path_end(q), r))
      r.set_content(plan->plan_json, "application/json");
  });
  http.Get(R"(/plans/([a-z0-9-]{1,40})/report\.html)", [&](const Request& q, Response& r) {
    const auto plan = kept_or_error(desk, path_end(q), r);
    if (!plan) return;
    r.set_header("Content-Disposition", "attachment; filename=\"report.html\"");
    r.set_content(report::report_html(plan->plan_json, plan->problem->farm), "text/html; charset=utf-8");
  });
}

}  // namespace aftercut::server
