#include "aftercut/server/guard.hpp"

#include <sys/random.h>

#include <algorithm>
#include <array>

#include "aftercut/core/require.hpp"

namespace aftercut::server {
namespace {

bool changes_something(const std::string& method) { return method != "GET" && method != "HEAD"; }

std::string cookie_value(const std::string& header, const std::string& name) {
  for (std::size_t from = 0; from < header.size();) {
    const std::size_t to = std::min(header.find(';', from), header.size());
    std::size_t begin = from;
    while (begin < to && header[begin] == ' ') ++begin;
    if (header.compare(begin, name.size() + 1, name + "=") == 0)
      return header.substr(begin + name.size() + 1, to - begin - name.size() - 1);
    from = to + 1;
  }
  return "";
}

std::string bearer(const std::string& header) {
  constexpr const char* scheme = "Bearer ";
  return header.starts_with(scheme) ? header.substr(std::string{scheme}.size()) : "";
}

bool own_origin(const Guard& guard, const std::string& origin) {
  return std::ranges::any_of(guard.hosts,
                             [&](const std::string& host) { return origin == "http://" + host; });
}

bool is_json(const std::string& type) {
  return type == "application/json" || type.starts_with("application/json;");
}

}  // namespace

bool same_key(const std::string& a, const std::string& b) {
  unsigned differs = a.size() == b.size() ? 0U : 1U;
  for (std::size_t i = 0; i < a.size(); ++i)
    differs |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(i < b.size() ? b[i] : '\0');
  return differs == 0U;
}

bool opens_with_key(const Guard& guard, const Knock& knock) {
  return knock.method == "GET" && knock.path == "/" && !knock.key.empty() && same_key(guard.key, knock.key);
}

std::optional<TurnedAway> turned_away(const Guard& guard, const Knock& knock) {
  if (std::ranges::find(guard.hosts, knock.host) == guard.hosts.end())
    return TurnedAway{403, "wrong-host", "This server answers at its own address only."};
  const bool by_header = same_key(guard.key, bearer(knock.authorization));
  if (!knock.origin.empty() && !own_origin(guard, knock.origin))
    return TurnedAway{403, "wrong-origin", "Another page asked; this server answers its own page only."};
  if (knock.fetch_site == "cross-site")
    return TurnedAway{403, "wrong-origin", "Another page asked; this server answers its own page only."};
  const bool by_cookie = same_key(guard.key, cookie_value(knock.cookie, guard.cookie_name));
  if (!by_header && !by_cookie && !opens_with_key(guard, knock))
    return TurnedAway{401, "no-key", "Open the address that aftercut serve printed, with its key."};
  if (!changes_something(knock.method)) return std::nullopt;
  if (knock.origin.empty() && !by_header)
    return TurnedAway{403, "wrong-origin", "A change has to say which page it comes from."};
  if (knock.method != "DELETE" && !is_json(knock.content_type))
    return TurnedAway{415, "not-json", "Send application/json."};
  return std::nullopt;
}

std::string random_key() {
  std::array<unsigned char, 16> bytes{};
  require(::getrandom(bytes.data(), bytes.size(), 0) == static_cast<ssize_t>(bytes.size()),
          "the operating system gives random bytes");
  constexpr const char* digits = "0123456789abcdef";
  std::string key;
  for (const unsigned char b : bytes) {
    key += digits[b >> 4U];
    key += digits[b & 15U];
  }
  return key;
}

}  // namespace aftercut::server
