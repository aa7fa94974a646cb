// Rooms use only the rooms below them: each #include line of include/ and src/ against the table of rooms.
#include <fmt/format.h>

#include <map>
#include <optional>
#include <regex>

#include "catch2/catch.hpp"
#include "tree.hpp"

using namespace aftercut::test;

namespace {

using Rooms = std::set<std::string>;

struct Room {
  Rooms uses;        ///< and what those may use; core always
  Rooms bans = {};   ///< wins over what is reached through another room
  bool all = false;  ///< every room below
};

const Rooms physics{"soil", "straw", "machinery", "burn", "water"};  // levels 2 and 3

const std::map<std::string, Room>& table() {
  static const std::map<std::string, Room> rooms{
      {"core", {{}}},
      {"geo", {{"core"}}},
      {"weather", {{"core"}}},
      {"soil", {{"weather"}}},
      {"straw", {{"weather"}}},
      {"machinery", {{"soil", "straw", "geo"}}},
      {"burn", {{"weather", "straw", "geo"}}},
      {"water", {{"weather", "soil"}}},
      {"method", {physics}},
      {"farm", {{"method", "geo", "weather", "soil", "straw", "machinery", "burn", "water"}}},
      {"season", {{"farm"}}},
      {"plan", {{"farm"}}},
      {"journal", {{"season"}}},
      {"dispatch", {{"season", "plan", "journal"}}},
      {"audit", {{"season", "plan", "journal"}}},
      {"planner", {{"dispatch"}}},
      {"readiness", {{"dispatch"}}},
      {"scenario", {{"planner", "readiness"}}},
      {"review", {{"scenario"}}},
      {"report", {{"geo", "readiness", "audit", "journal"}, {"planner", "dispatch"}}},
      {"server", {{}, {"app"}, true}},
      {"app", {{}, {}, true}},
  };
  return rooms;
}

void reach(const std::string& room, Rooms& reached) {
  if (!reached.insert(room).second) return;
  for (const std::string& next : table().at(room).uses) reach(next, reached);
}

Rooms may_use(const std::string& name) {
  const Room& room = table().at(name);
  Rooms reached{"core"};
  reach(name, reached);
  if (room.all)
    for (const auto& [other, unused] : table()) reached.insert(other);
  for (const std::string& ban : room.bans) reached.erase(ban);
  return reached;
}

// What is wrong with one line of a file; nothing when it may stand there.
std::optional<std::string> fault(const std::string& path, const std::string& line) {
  static const std::regex include{R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])"};
  std::smatch m;
  if (!std::regex_search(line, m, include)) return std::nullopt;
  const std::string name = m[2], room = room_of(path);
  if (!table().contains(room)) return fmt::format("{}: no such room in the table", path);
  if (name.starts_with("aftercut/")) {
    const std::string used = name.substr(9, name.find('/', 9) - 9);
    if (!may_use(room).contains(used)) return fmt::format("{}: {} may not use {}", path, room, used);
    return std::nullopt;
  }
  if (m[1] == "\"" && name.find('/') != std::string::npos)
    return fmt::format("{}: another room's inside: {}", path, name);
  static const std::regex geographic{R"(^(gdal|ogr|cpl_|geos|proj|geodesic))"};
  if (m[1] == "<" && room != "geo" && std::regex_search(name, geographic))
    return fmt::format("{}: only geo sees {}", path, name);
  if (m[1] == "<" && path.starts_with("include/") && name.find_first_of("./") != std::string::npos)
    return fmt::format("{}: a public header shows {}", path, name);
  return std::nullopt;
}

}  // namespace

TEST_CASE("no file includes what its room may not use", "[structure]") {
  const auto files = files_below({"include/aftercut", "src"}, {".hpp", ".cpp"});
  REQUIRE(files.size() > 20);
  for (const TextFile& file : files)
    for (const std::string& line : file.lines)
      if (const auto found = fault(file.path, line)) FAIL_CHECK(*found);
}

TEST_CASE("planted faults are caught", "[structure]") {
  const auto caught = [](const char* path, const char* line) { return fault(path, line).has_value(); };
  CHECK(caught("src/soil/water.cpp", "#include \"aftercut/straw/pools.hpp\""));            // equal levels
  CHECK(caught("include/aftercut/core/date.hpp", "#include \"aftercut/geo/shape.hpp\""));  // upwards
  CHECK(caught("src/audit/check.cpp", "#include \"aftercut/dispatch/dispatch.hpp\""));
  CHECK(caught("src/report/page.cpp", "#include \"aftercut/planner/planner.hpp\""));
  CHECK(caught("src/report/page.cpp", "  #  include \"aftercut/dispatch/dispatch.hpp\""));
  CHECK(caught("src/planner/search.cpp", "#include \"aftercut/readiness/readiness.hpp\""));
  CHECK(caught("src/server/http.cpp", "#include \"aftercut/app/run.hpp\""));
  CHECK(caught("src/method/book.cpp", "#include \"aftercut/farm/farm.hpp\""));
  CHECK(caught("src/unheard/x.cpp", "#include \"aftercut/core/date.hpp\""));
  CHECK(caught("src/soil/water.cpp", "#include \"../straw/parts.hpp\""));
  CHECK(caught("src/burn/rules.cpp", "#include <ogrsf_frmts.h>"));
  CHECK(caught("include/aftercut/farm/read.hpp", "#include <nlohmann/json.hpp>"));
}

TEST_CASE("what the table grants passes", "[structure]") {
  const auto passes = [](const char* path, const char* line) { return !fault(path, line).has_value(); };
  CHECK(passes("src/soil/water.cpp", "#include \"aftercut/core/date.hpp\""));
  CHECK(passes("src/soil/water.cpp", "#include \"aftercut/soil/water.hpp\""));
  CHECK(passes("src/machinery/cost.cpp", "#include \"aftercut/weather/sun.hpp\""));  // through soil
  CHECK(passes("src/report/page.cpp", "#include \"aftercut/plan/plan.hpp\""));       // through readiness
  CHECK(passes("src/report/page.cpp", "#include \"aftercut/farm/farm.hpp\""));
  CHECK(passes("src/app/main.cpp", "#include \"aftercut/planner/planner.hpp\""));
  CHECK(passes("src/geo/layer.cpp", "#include <ogrsf_frmts.h>"));
  CHECK(passes("src/farm/read.cpp", "#include <nlohmann/json.hpp>"));
  CHECK(passes("src/soil/water.cpp", "#include \"layers.hpp\""));
  CHECK(passes("src/soil/water.cpp", "// #include \"aftercut/app/run.hpp\" is only a comment"));
}
