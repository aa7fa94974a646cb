#include "http.hpp"

#include <chrono>
#include <memory>

#include "replies.hpp"

namespace aftercut::server {
namespace {

constexpr auto most_body_time = std::chrono::seconds{10};

}  // namespace

void set_headers(httplib::Response& response) {
  if (response.has_header("Content-Security-Policy")) return;
  response.set_header("Content-Security-Policy",
                      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
                      "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  response.set_header("Cross-Origin-Opener-Policy", "same-origin");
  response.set_header("Cache-Control", "no-store");
}

void allow_own_style(httplib::Response& response) {
  response.headers.erase("Content-Security-Policy");
  response.set_header("Content-Security-Policy",
                      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
                      "form-action 'none'; frame-ancestors 'none'; sandbox allow-modals");
}

void reply_large(httplib::Response& response, std::string bytes, const std::string& type) {
  const auto kept = std::make_shared<const std::string>(std::move(bytes));
  response.set_content_provider(kept->size(), type,
                                [kept](std::size_t from, std::size_t size, httplib::DataSink& sink) {
                                  return sink.write(kept->data() + from, size);
                                });
}

void reply_json(httplib::Response& response, int status, const std::string& json) {
  response.status = status;
  response.set_content(json, "application/json");
}

void reply_error(httplib::Response& response, int status, const std::string& code, const std::string& words,
                 const Issues& issues) {
  reply_json(response, status, error_json(code, words, issues));
}

Knock knock_of(const httplib::Request& request) {
  const auto header = [&](const char* name) { return request.get_header_value(name); };
  return {.method = request.method,
          .path = request.path,
          .host = header("Host"),
          .origin = header("Origin"),
          .fetch_site = header("Sec-Fetch-Site"),
          .cookie = header("Cookie"),
          .authorization = header("Authorization"),
          .content_type = header("Content-Type"),
          .key = request.get_param_value("key")};
}

std::optional<std::string> whole_body(const httplib::ContentReader& reader, httplib::Response& response) {
  std::string body;
  bool too_large = false, too_slow = false;
  const auto end = std::chrono::steady_clock::now() + most_body_time;
  const bool whole = reader([&](const char* data, std::size_t size) {
    too_large = body.size() + size > most_body;
    too_slow = std::chrono::steady_clock::now() > end;
    if (too_large || too_slow) return false;
    body.append(data, size);
    return true;
  });
  if (whole) return body;
  if (too_large || response.status == 413)
    reply_error(response, 413, "too-large", "A request can hold 1 MiB.");
  else
    reply_error(response, 408, "too-slow", "The request did not come in whole within ten seconds.");
  return std::nullopt;
}

}  // namespace aftercut::server
