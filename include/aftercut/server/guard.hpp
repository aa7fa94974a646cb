#pragma once
// Who may ask this server for anything: requests to its own address, from its own page, with its key.

#include <optional>
#include <string>
#include <vector>

namespace aftercut::server {

/// What of a request is looked at before anything of it is done. Header values as they came, empty: absent.
struct Knock {
  std::string method, path, host, origin, fetch_site, cookie, authorization, content_type;
  std::string key;  ///< of the query, on the opened address
};

struct Guard {
  std::vector<std::string> hosts;  ///< "127.0.0.1:8765", as a browser writes them
  std::string key;                 ///< at least 32 characters
  std::string cookie_name;
};

/// Why a request is turned away: the HTTP status, a short fixed name, a sentence.
struct TurnedAway {
  int status = 403;
  std::string code, words;
  friend bool operator==(const TurnedAway&, const TurnedAway&) = default;
};

/// In this order: the host is one of ours; a change comes from our own page and is JSON; the key is in the
/// cookie, in the header "Authorization: Bearer KEY" or, for the page itself, in the query.
std::optional<TurnedAway> turned_away(const Guard& guard, const Knock& knock);

/// Whether the key came with the query of the opened address, to be put into a cookie.
bool opens_with_key(const Guard& guard, const Knock& knock);

/// Takes as long whether or not they are the same.
bool same_key(const std::string& a, const std::string& b);

/// 128 random bits of the operating system, as 32 hexadecimal digits.
std::string random_key();

}  // namespace aftercut::server
