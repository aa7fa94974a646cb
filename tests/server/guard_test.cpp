// Who may ask: host, origin and key, one row a knock.

#include "aftercut/server/guard.hpp"

#include <set>

#include "catch2/catch.hpp"

using namespace aftercut::server;

namespace {

const std::string key = "0123456789abcdef0123456789abcdef";
const Guard guard{{"127.0.0.1:8471", "localhost:8471"}, key, "aftercut_8471"};

/// A sound request of the page, to be spoiled by a row.
Knock sound(const std::string& method = "GET") {
  Knock k;
  k.method = method;
  k.path = "/state";
  k.host = "127.0.0.1:8471";
  k.cookie = "aftercut_8471=" + key;
  if (method != "GET") {
    k.origin = "http://127.0.0.1:8471";
    k.content_type = "application/json";
  }
  return k;
}

std::string code(const Knock& knock) {
  const auto away = turned_away(guard, knock);
  return away ? away->code : "served";
}

}  // namespace

TEST_CASE("the page's own requests are served", "[identity]") {
  for (const char* method : {"GET", "POST", "PUT", "DELETE"}) CHECK(code(sound(method)) == "served");
  Knock local = sound("POST");
  local.host = "localhost:8471";
  local.origin = "http://localhost:8471";
  CHECK(code(local) == "served");
  Knock script;
  script.method = "POST";
  script.path = "/plans";
  script.host = "127.0.0.1:8471";
  script.authorization = "Bearer " + key;
  script.content_type = "application/json; charset=utf-8";
  CHECK(code(script) == "served");
}

TEST_CASE("a request that is not the page's is turned away", "[identity]") {
  struct Row {
    const char* what;
    std::string code;
    void (*spoil)(Knock&);
    const char* method = "GET";
  };
  const std::vector<Row> rows{
      {"a name that points here from elsewhere", "wrong-host",
       [](Knock& k) { k.host = "farm.example:8471"; }},
      {"no host", "wrong-host", [](Knock& k) { k.host = ""; }},
      {"another port", "wrong-host", [](Knock& k) { k.host = "127.0.0.1:80"; }},
      {"another page", "wrong-origin", [](Knock& k) { k.origin = "http://127.0.0.1:9999"; }, "POST"},
      {"another page reads", "wrong-origin", [](Knock& k) { k.origin = "http://example.org"; }},
      {"an unnamed page", "wrong-origin", [](Knock& k) { k.origin = "null"; }, "POST"},
      {"a form without origin", "wrong-origin", [](Knock& k) { k.origin = ""; }, "POST"},
      {"another site by its own word", "wrong-origin", [](Knock& k) { k.fetch_site = "cross-site"; }},
      {"no key", "no-key", [](Knock& k) { k.cookie = ""; }},
      {"an empty key", "no-key", [](Knock& k) { k.cookie = "aftercut_8471="; }},
      {"the beginning of the key", "no-key", [](Knock& k) { k.cookie = "aftercut_8471=0123456789abcdef"; }},
      {"more than the key", "no-key", [](Knock& k) { k.cookie += "0"; }},
      {"the key of another server", "no-key", [](Knock& k) { k.cookie = "aftercut_9000=" + key; }},
      {"the key in the query, but not of the page", "no-key",
       [](Knock& k) {
         k.cookie = "";
         k.key = key;
       }},
      {"no scheme", "no-key",
       [](Knock& k) {
         k.cookie = "";
         k.authorization = key;
       }},
      {"a form", "not-json", [](Knock& k) { k.content_type = "text/plain"; }, "POST"},
      {"nearly JSON", "not-json", [](Knock& k) { k.content_type = "application/jsonp"; }, "PUT"}};
  for (const Row& row : rows) {
    INFO(row.what);
    Knock knock = sound(row.method);
    row.spoil(knock);
    CHECK(code(knock) == row.code);
  }
}

TEST_CASE("the opened address brings its key once, for the page alone", "[identity]") {
  Knock opened = sound();
  opened.path = "/";
  opened.cookie = "other=1; aftercut_9=x";
  opened.key = key;
  CHECK(code(opened) == "served");
  CHECK(opens_with_key(guard, opened));
  opened.key = key.substr(1);
  CHECK(code(opened) == "no-key");
  CHECK_FALSE(opens_with_key(guard, opened));
}

TEST_CASE("the key is found among other cookies", "[identity]") {
  Knock k = sound();
  k.cookie = "a=1; aftercut_8471=" + key + "; b=2";
  CHECK(code(k) == "served");
  k.cookie = "xaftercut_8471=" + key;
  CHECK(code(k) == "no-key");
}

TEST_CASE("keys drawn are long and differ", "[identity]") {
  std::set<std::string> keys;
  for (int i = 0; i < 100; ++i) keys.insert(random_key());
  CHECK(keys.size() == 100);
  CHECK(keys.begin()->size() == 32);
}
