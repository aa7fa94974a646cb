#pragma once
// The journal as a server shows it.

#include "catch2/catch.hpp"
#include "served.hpp"

namespace aftercut::test {

inline Json shown(const Served& s) {
  auto c = s.client();
  const auto r = c.Get("/journal");
  REQUIRE(r);
  REQUIRE(r->status == 200);
  return Json::parse(r->body);
}

inline Json field_of(const Json& journal, const char* id) {
  for (const Json& f : journal["fields"])
    if (f["id"] == id) return f;
  FAIL("no such field");
  return {};
}

}  // namespace aftercut::test
