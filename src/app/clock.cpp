#include "aftercut/app/clock.hpp"

#include <fmt/chrono.h>

#include <ctime>
#include <string_view>

namespace aftercut::app {

Result<journal::Now> now_of(const Options& o) {
  if (o.now.empty()) {
    const std::time_t now = std::time(nullptr);
    const std::tm here = fmt::localtime(now);
    return journal::Now{fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now)),
                        make_date(here.tm_year + 1900, here.tm_mon + 1, here.tm_mday)};
  }
  const auto day = parse_iso_date(std::string_view{o.now}.substr(0, 10));
  if (!day || o.now.size() != 20)
    return Issues{{"command line", "--now", o.now, "a time like 2026-10-14T18:03:22Z", "mend the option"}};
  return journal::Now{o.now, *day};
}

}  // namespace aftercut::app
