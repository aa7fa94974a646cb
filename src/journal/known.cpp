// Which entries a plan was made with.
#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/journal/log.hpp"

namespace aftercut::journal {
namespace {

constexpr std::size_t furthest_back = 200;  // looks, each of which makes the text anew

std::string digest_of(const std::vector<Entry>& standing) {
  return standing.empty() ? "" : sha256_hex(standing_text(standing));
}

}  // namespace

std::string standing_text(const std::vector<Entry>& standing) {
  std::string text;
  for (const Entry& e : standing) text += entry_text(e) + "\n";
  return text;
}

std::optional<std::size_t> known_to_plan(const std::vector<Entry>& entries, Date as_of,
                                         const std::string& sha256) {
  const std::string by_then = iso(as_of);
  std::vector<Entry> first = entries;
  for (std::size_t looks = 0; looks < furthest_back; ++looks) {
    while (!first.empty() && first.back().recorded_at.substr(0, by_then.size()) > by_then) first.pop_back();
    if (digest_of(standing_on(first, as_of)) == sha256) return first.size();
    if (first.empty()) break;
    first.pop_back();
  }
  return std::nullopt;
}

}  // namespace aftercut::journal
