// The journal: what stands in it, what is written down, and the plan made again after it.

#include "aftercut/server/mornings.hpp"
#include "http.hpp"
#include "journal_json.hpp"
#include "replies.hpp"

namespace aftercut::server {
namespace {

using httplib::ContentReader;
using httplib::Request;
using httplib::Response;
using json = nlohmann::ordered_json;

void refuse(Response& r, const std::string& words, const Issues& issues) {
  reply_error(r, 422, "faulty", words, issues);
}

void reply_journal(const Desk& desk, Response& r) {
  const auto problem = desk.setup().read_bare();
  if (!problem.ok()) return refuse(r, "The farm cannot be read.", problem.issues());
  const auto log = journal::read_log(desk.setup().folder);
  if (!log.ok()) return refuse(r, "The journal cannot be read.", log.issues());
  const auto stands = desk.plan("base");
  reply_large(r, journal_json({&log.value(), &problem.value(), stands.get(), desk.setup().now().today}),
              "application/json");
}

void write_entries(Desk& desk, Response& r, const ContentReader& reader) {
  const auto body = whole_body(reader, r);
  if (!body) return;
  const auto problem = desk.setup().read_bare();
  if (!problem.ok()) return refuse(r, "Nothing was written: the farm cannot be read.", problem.issues());
  const farm::Farm& farm = problem.value().farm;
  const journal::Now now = desk.setup().now();
  const auto entries = read_entries(*body, farm, now);
  if (!entries.ok()) return refuse(r, "Nothing was written.", entries.issues());
  const auto stand = journal::write_down(desk.setup().folder, entries.value(), {&problem.value(), now.today});
  if (!stand.ok()) return refuse(r, "Nothing was written.", stand.issues());
  json list = json::array();
  for (const journal::Entry& e : stand.value()) list.push_back(entry_said(e, farm.units));
  desk.events.tell("journal", json{{"last", stand.value().back().seq}}.dump());
  reply_json(r, 200, json{{"entries", list}}.dump(-1, ' ', false, json::error_handler_t::replace));
}

/// A question about a morning: the body's, or today's.
void ask_of_morning(Desk& desk, Response& r, const ContentReader& reader, std::string (Desk::*ask)(Date)) {
  const auto body = whole_body(reader, r);
  if (!body) return;
  const auto day = read_morning(*body, desk.setup().now().today);
  if (!day.ok()) return refuse(r, "The day cannot be read.", day.issues());
  reply_json(r, 202, json{{"job", (desk.*ask)(day.value())}}.dump());
}

/// The last answer of this server, else the looks of the farm folder.
void reply_ahead(const Desk& desk, Response& r) {
  if (const std::string last = desk.ahead(); !last.empty()) return reply_json(r, 200, last);
  const auto looks = looks_kept(desk.setup());
  if (!looks.ok()) return refuse(r, "The looks at the fields cannot be read.", looks.issues());
  reply_json(r, 200, looks.value());
}

void let_stand_from_now(Desk& desk, Response& r, const ContentReader& reader) {
  const auto body = whole_body(reader, r);
  if (!body) return;
  const auto again = read_plan_id(*body);
  if (!again.ok()) return refuse(r, "The plan cannot be read.", again.issues());
  reply_json(r, 202, json{{"job", desk.ask_to_stand(again.value())}}.dump());
}

}  // namespace

void add_journal_routes(httplib::Server& http, Desk& desk) {
  http.Get("/journal", [&](const Request&, Response& r) { reply_journal(desk, r); });
  http.Post("/journal", [&](const Request&, Response& r, const ContentReader& reader) {
    write_entries(desk, r, reader);
  });
  http.Post("/again", [&](const Request&, Response& r, const ContentReader& reader) {
    ask_of_morning(desk, r, reader, &Desk::ask_from);
  });
  http.Get("/ahead", [&](const Request&, Response& r) { reply_ahead(desk, r); });
  http.Post("/ahead", [&](const Request&, Response& r, const ContentReader& reader) {
    ask_of_morning(desk, r, reader, &Desk::ask_ahead);
  });
  http.Post("/standing", [&](const Request&, Response& r, const ContentReader& reader) {
    let_stand_from_now(desk, r, reader);
  });
}

}  // namespace aftercut::server
