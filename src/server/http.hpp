#pragma once
// The only header of the room that sees the HTTP library. Internal to the room.

#include <httplib.h>

#include <string>

#include "aftercut/server/desk.hpp"
#include "aftercut/server/guard.hpp"

namespace aftercut::server {

inline constexpr std::size_t most_body = 1024 * 1024;  ///< bytes

/// Headers of every answer: nothing from elsewhere, nothing kept, nothing framed.
void set_headers(httplib::Response& response);
/// For a sheet without scripts that carries its style inside: no script runs there.
void allow_own_style(httplib::Response& response);
/// Sent as it is: on the loopback address the library's compression (a second for the page) only costs time.
void reply_large(httplib::Response& response, std::string bytes, const std::string& type);
void reply_json(httplib::Response& response, int status, const std::string& json);
void reply_error(httplib::Response& response, int status, const std::string& code, const std::string& words,
                 const Issues& issues = {});
Knock knock_of(const httplib::Request& request);

/// The body, in whole and in time; otherwise the answer is set and nothing is given.
std::optional<std::string> whole_body(const httplib::ContentReader& reader, httplib::Response& response);

/// Limits, guard, errors and every route below. Desk and guard are looked at with each request.
void set_up(httplib::Server& http, Desk& desk, const Guard& guard);

/// The page, its program and style, plans and files.
void add_page_routes(httplib::Server& http, const Desk& desk, const Guard& guard);
/// What happens, and what is on the desk.
void add_state_routes(httplib::Server& http, Desk& desk);
/// Questions and scenarios.
void add_question_routes(httplib::Server& http, Desk& desk);
/// The journal, and the plan made again after it.
void add_journal_routes(httplib::Server& http, Desk& desk);

}  // namespace aftercut::server
