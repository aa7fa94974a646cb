// What is on the desk, and what happens there as a stream.

#include <atomic>
#include <charconv>
#include <nlohmann/json.hpp>

#include "aftercut/report/change_words.hpp"
#include "aftercut/report/price_words.hpp"
#include "aftercut/server/scenario_files.hpp"
#include "http.hpp"
#include "replies.hpp"

namespace aftercut::server {
namespace {

using httplib::Request;
using httplib::Response;
using json = nlohmann::ordered_json;

constexpr int most_listeners = 8;
constexpr auto breath = std::chrono::seconds{10};  // an idle stream says that it is there

json scenarios_json(const Desk& desk, const farm::Farm* farm) {
  json all = json::array();
  for (const ScenarioOnFile& s : scenarios_on_file(desk.setup().folder)) {
    json one = json::parse(farm::scenario_text(s.scenario));
    all.push_back({{"name", s.name},
                   {"mark", s.mark},
                   {"title", s.scenario.name.empty() ? s.name : s.scenario.name},
                   {"words", farm == nullptr ? "" : report::scenario_words(*farm, s.scenario)},
                   {"changes", one["changes"]},
                   {"issues", issues_json(s.issues)}});
  }
  return all;
}

json prices_json(const farm::Farm& farm) {
  json all = json::array();
  for (const std::string& what : farm::price_names())
    if (const auto now = report::price_now(farm, what)) all.push_back({{"what", what}, {"now", *now}});
  return all;
}

std::string state_json(const Desk& desk) {
  const auto base = desk.plan("base");
  const farm::Farm* farm = base ? &base->problem->farm : nullptr;
  json plans = json::array();
  for (const auto& p : desk.plans()) plans.push_back({{"id", p->id}, {"title", p->title}});
  const auto job = desk.latest();
  return json{{"folder", desk.setup().folder.string()},
              {"event", desk.events.last()},
              {"job", job ? json::parse(job_json(*job)) : json(nullptr)},
              {"plans", plans},
              {"weighed", base && trade_offs_in_folder(desk.setup(), *base->problem).has_value()},
              {"prices", farm == nullptr ? json::array() : prices_json(*farm)},
              {"scenarios", scenarios_json(desk, farm)}}
      .dump(-1, ' ', false, json::error_handler_t::replace);
}

std::uint64_t number_of(const std::string& text) {
  std::uint64_t n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  return error == std::errc{} && end == text.data() + text.size() ? n : 0;
}

/// From the event that the page saw last; "?after=" for a page that opens, the header for one that comes
/// back.
void stream_events(Desk& desk, std::atomic<int>& listeners, const Request& q, Response& r) {
  if (++listeners > most_listeners) {
    --listeners;
    return reply_error(r, 503, "too-many-pages", "Too many pages listen already: close one.");
  }
  const std::string back = q.get_header_value("Last-Event-ID");
  const auto seen =
      std::make_shared<std::uint64_t>(number_of(back.empty() ? q.get_param_value("after") : back));
  if (*seen > desk.events.last()) *seen = 0;  // it listened to a server before this one
  r.set_chunked_content_provider(
      "text/event-stream",
      [&desk, seen](std::size_t, httplib::DataSink& sink) {
        std::string text;
        for (const Event& event : desk.events.after(*seen, breath)) {
          text += as_stream(event);
          *seen = event.number;
        }
        if (text.empty()) text = ": still here\n\n";
        if (desk.events.closed()) {
          sink.done();
          return true;
        }
        return sink.write(text.data(), text.size());
      },
      [&listeners](bool) { --listeners; });
}

}  // namespace

void add_state_routes(httplib::Server& http, Desk& desk) {
  const auto listeners = std::make_shared<std::atomic<int>>(0);
  http.Get("/state", [&](const Request&, Response& r) { reply_json(r, 200, state_json(desk)); });
  http.Get("/events",
           [&desk, listeners](const Request& q, Response& r) { stream_events(desk, *listeners, q, r); });
}

}  // namespace aftercut::server
