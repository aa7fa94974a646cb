// The page and what can be taken away from it.

#include <algorithm>

#include "aftercut/report/burn.hpp"
#include "aftercut/report/exports.hpp"
#include "aftercut/report/page.hpp"
#include "aftercut/season/burn_standing.hpp"
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
  const std::string html = plan ? plan->page : report::served_page_html({"base", nullptr, nullptr});
  reply_large(response, html, "text/html; charset=utf-8");
}

std::optional<report::ExportOptions> export_options(const Request& q, const farm::Farm& farm) {
  report::ExportOptions o;
  const std::string paper = q.get_param_value("paper"), language = q.get_param_value("language");
  const bool us = farm.units == farm::UnitSystem::us;
  if ((!paper.empty() && paper != "a4" && paper != "letter") ||
      (!language.empty() && language != "en" && language != "es"))
    return std::nullopt;
  o.paper = paper == "letter" || (paper.empty() && us) ? report::Paper::letter : report::Paper::a4;
  o.language = language == "es" ? report::Language::spanish : report::Language::english;
  return o;
}

/// Sheets open in the page, to be printed; all else is saved.
void reply_file(Response& r, const std::string& name, const std::string& type, const std::string& bytes) {
  if (!name.ends_with(".html") && !name.ends_with(".txt"))
    r.set_header("Content-Disposition", "attachment; filename=\"" + name + "\"");
  allow_own_style(r);
  reply_large(r, bytes, type);
}

void reply_export(const Desk& desk, const Request& q, Response& r) {
  const auto plan = kept_or_error(desk, q.matches[1].str(), r);
  if (!plan) return;
  const std::string name = q.matches[2].str();
  if (const auto found = plan->files.find(name); found != plan->files.end())
    return reply_file(r, name, "application/octet-stream", found->second);
  const auto options = export_options(q, plan->problem->farm);
  if (!options) return reply_error(r, 422, "faulty", "Paper is a4 or letter, language en or es.");
  const std::vector<std::string> names = report::export_names();
  if (std::ranges::find(names, name) == names.end())
    return reply_error(r, 404, "no-file", "There is no such file to take away.");
  const auto made = report::export_of(plan->plan_json, name, *options);
  if (!made.ok()) return reply_error(r, 500, "our-fault", "The file could not be made.", made.issues());
  reply_file(r, name, made.value().media_type, made.value().bytes);
}

/// The sheet for the talk with the authority, of one field on one day.
void reply_burn_sheet(const Desk& desk, const Request& q, Response& r) {
  const auto plan = kept_or_error(desk, "base", r);
  if (!plan) return;
  const farm::Problem& p = *plan->problem;
  const auto field =
      std::ranges::find(p.farm.fields, q.matches[1].str(), [](const auto& f) { return f.id.value; });
  const auto day = q.has_param("day") ? parse_iso_date(q.get_param_value("day")) : std::optional{p.as_of};
  const farm::Calendar& season = p.farm.season;
  if (field == p.farm.fields.end()) return reply_error(r, 404, "no-field", "There is no such field.");
  if (!day || *day < season.first || *day > season.date(season.days - 1))
    return reply_error(r, 422, "faulty", "The day is one of the season, like 2026-10-12.");
  const auto index = static_cast<std::size_t>(field - p.farm.fields.begin());
  reply_file(r, report::burn_sheet_name(field->id), "text/html; charset=utf-8",
             report::burn_sheet_html(p.farm, season::burn_standing(p, index, *day)));
}

void reply_passes(const Desk& desk, const Request& q, Response& r) {
  const auto plan = kept_or_error(desk, "base", r);
  if (!plan) return;
  const farm::Farm& farm = plan->problem->farm;
  const auto found =
      std::ranges::find(farm.implements, q.matches[1].str(), [](const auto& i) { return i.id.value; });
  if (found == farm.implements.end()) return reply_error(r, 404, "no-machine", "There is no such machine.");
  const auto lines = passes_of(desk.setup(), farm, static_cast<std::size_t>(found - farm.implements.begin()));
  if (!lines.ok()) return reply_error(r, 500, "our-fault", "The passes could not be laid.", lines.issues());
  reply_large(r, lines.value(), "application/json");
}

void reply_trade_offs(const Desk& desk, Response& r) {
  const auto base = desk.plan("base");
  const auto found = base ? trade_offs_in_folder(desk.setup(), *base->problem) : std::nullopt;
  if (!found) return reply_error(r, 404, "not-weighed", "The farm is not weighed yet.");
  reply_large(r, *found, "application/json");
}

}  // namespace

void add_page_routes(httplib::Server& http, const Desk& desk, const Guard& guard) {
  const auto text = [](std::string_view bytes, const char* type) {
    return [bytes, type](const Request&, Response& response) {
      reply_large(response, std::string{bytes}, type);
    };
  };
  http.Get("/", [&](const Request& q, Response& r) { reply_page(desk, guard, q, r); });
  http.Get("/page.js", text(report::page_files().program, "text/javascript; charset=utf-8"));
  http.Get("/page.css", text(report::page_files().style, "text/css; charset=utf-8"));
  http.Get(R"(/plans/([a-z0-9.-]{1,60}))", [&](const Request& q, Response& r) {
    if (const auto plan = kept_or_error(desk, path_end(q), r))
      reply_large(r, plan->plan_json, "application/json");
  });
  http.Get(R"(/plans/([a-z0-9.-]{1,60})/files/([a-z.-]{1,40}))",
           [&](const Request& q, Response& r) { reply_export(desk, q, r); });
  http.Get(R"(/burn-sheets/([^/]{1,80}))",
           [&](const Request& q, Response& r) { reply_burn_sheet(desk, q, r); });
  http.Get(R"(/passes/([^/]{1,80}))", [&](const Request& q, Response& r) { reply_passes(desk, q, r); });
  http.Get("/trade-offs", [&](const Request&, Response& r) { reply_trade_offs(desk, r); });
  http.Get(R"(/plans/([a-z0-9.-]{1,60})/report\.html)", [&](const Request& q, Response& r) {
    const auto plan = kept_or_error(desk, path_end(q), r);
    if (!plan) return;
    r.set_header("Content-Disposition", "attachment; filename=\"report.html\"");
    reply_large(r, report::report_html(plan->plan_json, plan->problem->farm), "text/html; charset=utf-8");
  });
}

}  // namespace aftercut::server
