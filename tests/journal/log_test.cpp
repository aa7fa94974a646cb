// The journal's text: what was written is read, what was changed is told.
#include "aftercut/journal/log.hpp"

#include <limits>
#include <nlohmann/json.hpp>

#include "aftercut/core/digest.hpp"
#include "catch2/catch.hpp"
#include "memory_disk.hpp"
#include "write_log.hpp"
#include "written.hpp"

using namespace aftercut;
using namespace aftercut::journal;
using aftercut::test::disked;
using aftercut::test::entry;

namespace {

std::vector<Entry> numbered(std::vector<Entry> entries) {
  int seq = 0;
  for (Entry& e : entries) e.seq = ++seq;
  return entries;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = text.find('\n', at);
    lines.push_back(text.substr(at, end + 1 - at));
    at = end + 1;
  }
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

/// A journal of one line, with the right sum, whose JSON was changed before.
std::string forged(const std::string& pointer, const nlohmann::json& value) {
  auto json = nlohmann::json::parse(entry_text(numbered({entry("a1", disked(12.5))})[0]));
  if (value.is_discarded())
    json = json.patch(nlohmann::json::array({{{"op", "remove"}, {"path", pointer}}}));
  else
    json[nlohmann::json::json_pointer{pointer}] = value;
  json["sum"] = sha256_hex(json.dump()).substr(0, 16);
  return json.dump() + "\n";
}

const auto gone = nlohmann::json(nlohmann::json::value_t::discarded);

}  // namespace

TEST_CASE("every kind of entry is read as it was written", "[identity]") {
  const auto entries = numbered(test::one_of_each());
  const std::string text = log_text(entries);
  const auto log = read_log_text(text);
  REQUIRE(log.ok());
  CHECK(log.value().entries == entries);
  CHECK(log.value().torn.empty());
  CHECK(log.value().whole_bytes == text.size());
  CHECK(log_text(log.value().entries) == text);
  CHECK(read_log_text("").value().entries.empty());
}

TEST_CASE("a sum is that of the sum before and the line's own JSON", "[identity]") {
  const auto lines = lines_of(log_text(test::one_of_each()));
  std::string before;
  for (const std::string& line : lines) {
    auto json = nlohmann::json::parse(line);
    const std::string sum = json["sum"];
    json.erase("sum");
    CHECK(sum == sha256_hex(before + json.dump()).substr(0, 16));
    before = sum;
  }
}

TEST_CASE("a journal cut at any byte has the lines before it, and the rest is torn", "[identity]") {
  const auto entries = numbered(test::one_of_each());
  const std::string text = log_text(entries);
  for (std::size_t size = 0; size <= text.size(); ++size) {
    const auto log = read_log_text(text.substr(0, size));
    REQUIRE(log.ok());
    const auto whole = static_cast<std::size_t>(std::ranges::count(text.substr(0, size), '\n'));
    REQUIRE(log.value().entries ==
            std::vector<Entry>(entries.begin(), entries.begin() + static_cast<long>(whole)));
    REQUIRE(log.value().whole_bytes + log.value().torn.size() == size);
  }
}

TEST_CASE("any byte changed is noticed: an issue of that line, or a torn last line", "[identity]") {
  const auto entries =
      numbered({entry("a1", disked(12.5)), entry("a2", Rain{23.0}), entry("a3", Bales{4.0, {}})});
  const std::string text = log_text(entries);
  const std::size_t last = text.rfind('\n', text.size() - 2) + 1;
  for (std::size_t at = 0; at < text.size(); ++at)
    for (const char other : {'0', 'x', '\n', '"', '\0'}) {
      if (text[at] == other) continue;
      std::string changed = text;
      changed[at] = other;
      const auto log = read_log_text(changed);
      CAPTURE(at, other);
      const std::size_t before = at == last - 1 ? 1 : 2;  // without its end, a line is torn with the next
      const bool torn = log.ok() && log.value().entries.size() == before && !log.value().torn.empty();
      REQUIRE((at < last - 1 ? !log.ok() : torn || !log.ok()));
    }
}

TEST_CASE("lines taken out, put in twice or in another order are told, each with its number", "[identity]") {
  const auto lines = lines_of(log_text(test::one_of_each()));
  auto without = lines;
  without.erase(without.begin() + 4);
  auto log = read_log_text(joined(without), "farm/journal.jsonl");
  REQUIRE(log.issues().size() == 2);
  CHECK(log.issues()[0].file == "farm/journal.jsonl");
  CHECK(log.issues()[0].place == "line 5");
  CHECK(log.issues()[1].found == "entry 6");
  auto twice = lines;
  twice.insert(twice.begin() + 2, lines[1]);
  CHECK(read_log_text(joined(twice)).issues().size() >= 2);
  auto swapped = lines;
  std::swap(swapped[2], swapped[3]);
  CHECK(read_log_text(joined(swapped)).issues().size() >= 2);
}

TEST_CASE("all wrong lines are told at once, and a torn one beside them is none", "[identity]") {
  auto lines = lines_of(log_text(test::one_of_each()));
  lines[1] = "\n";
  lines[5] = "{\"seq\":6}\n";
  lines[9].replace(lines[9].find("412"), 3, "413");
  const auto issues = read_log_text(joined(lines) + "{\"seq\":1").issues();
  std::set<std::string> places;
  for (const Issue& i : issues) places.insert(i.place.substr(0, i.place.find(':')));
  CHECK(places == std::set<std::string>{"line 10", "line 2", "line 3", "line 6", "line 7"});
}

TEST_CASE("what the format does not know is an issue, its sum right or not", "[identity]") {
  struct Row {
    std::string pointer;
    nlohmann::json value;
    std::string place;
  };
  const std::vector<Row> rows{
      {"/data/area_ha", -1.0, "line 1: data.area_ha"},
      {"/data/area_ha", 10000.5, "line 1: data.area_ha"},
      {"/data/area_ha", "12 ha", "line 1: data.area_ha"},
      {"/data/area_ha", nullptr, "line 1: data.area_ha"},
      {"/data/area_ha", gone, "line 1: data.area_ha"},
      {"/data/operation", 3, "line 1: data.operation"},
      {"/data/operation", "", "line 1: data.operation"},
      {"/data/operation", "a\nb", "line 1: data.operation"},
      {"/data/with", nlohmann::json::array(), "line 1: data.with"},
      {"/data/finished", 1, "line 1: data.finished"},
      {"/data/unheard", 1, "line 1: data.unheard"},
      {"/data", nlohmann::json::array(), "line 1: data"},
      {"/kind", "danced", "line 1: kind"},
      {"/kind", "rain", "line 1: data.mm"},
      {"/field", gone, "line 1: field"},
      {"/unheard", true, "line 1: unheard"},
      {"/done_on", "2026-13-01", "line 1: done_on"},
      {"/recorded_at", "2026-10-14 18:03", "line 1: recorded_at"},
      {"/recorded_at", "2026-10-14T25:03:22Z", "line 1: recorded_at"},
      {"/by", gone, "line 1: by"},
      {"/seq", 0, "line 1: seq"},
      {"/seq", 1.5, "line 1: seq"},
      {"/seq", 2, "line 1"},
      {"/corrects", 1, "line 1"},
      {"/note", std::string(3000, 'x'), "line 1: note"},
  };
  for (const Row& row : rows) {
    const auto log = read_log_text(forged(row.pointer, row.value));
    CAPTURE(row.pointer, row.place);
    REQUIRE_FALSE(log.ok());
    std::set<std::string> places;
    for (const Issue& i : log.issues()) places.insert(i.place);
    CHECK(places.contains(row.place));
  }
  CHECK(read_log_text(forged("/data/area_ha", 12.5)).ok());
}

TEST_CASE("deep or long nonsense is told without harm", "[identity]") {
  const std::string good = log_text({entry("a1", disked(1.0))});
  CHECK_FALSE(read_log_text(std::string(200000, '[') + "\n" + good).ok());
  CHECK_FALSE(read_log_text(std::string(90000, '[') + "\n" + good).ok());
  CHECK_FALSE(read_log_text(std::string(90000, '{') + "\n" + good).ok());
  CHECK(read_log_text(good + std::string(90000, '[')).value().torn.size() == 90000);
}

TEST_CASE("an entry is written under the next number, and the same id twice stands once", "[identity]") {
  test::MemoryDisk disk;
  const auto first = append_alone(disk, "f", {entry("a1", disked(12.5)), entry("a2", Rain{3.0})});
  REQUIRE(first.ok());
  CHECK(first.value()[1].seq == 2);
  Entry again = entry("a1", disked(12.5));
  again.recorded_at = "2026-10-15T06:00:00Z";
  const auto second = append_alone(disk, "f", {again, entry("a3", Rain{4.0})});
  REQUIRE(second.ok());
  CHECK(second.value()[0] == first.value()[0]);
  CHECK(second.value()[1].seq == 3);
  const auto other = append_alone(disk, "f", {entry("a1", disked(9.0))});
  CHECK(other.issues().at(0).expected == "what entry 1 of this id says");
  CHECK(read_log("f", disk).value().entries.size() == 3);
}

TEST_CASE("entries with faults are told at once, and nothing is written", "[identity]") {
  test::MemoryDisk disk;
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Entry bytes = entry("a3", Rain{1.0});
  bytes.note = "\xFF";
  const auto found = append_alone(
      disk, "f", {entry("a1", disked(nan)), entry("a2", TakenBack{}, 7), bytes, entry("a4", Rain{-1.0})});
  CHECK(found.issues().size() == 4);
  CHECK(disk.files().empty());
}

TEST_CASE("a torn line is put aside, and the journal goes on without it", "[identity]") {
  const auto disk =
      test::MemoryDisk::holding({{"f/journal.jsonl", log_text({entry("a1", disked(1.0))}) + "{\"by\":\"A"},
                                 {"f/journal.torn-1.txt", "old"}});
  REQUIRE(append_alone(*disk, "f", {entry("a2", Rain{3.0})}).ok());
  CHECK(disk->files().at("f/journal.torn-2.txt") == "{\"by\":\"A");
  CHECK(disk->files().at("f/journal.torn-1.txt") == "old");
  CHECK(disk->files().at("f/journal.jsonl") == log_text({entry("a1", disked(1.0)), entry("a2", Rain{3.0})}));
}

TEST_CASE("a journal with a wrong line is not written to", "[identity]") {
  std::string text = log_text({entry("a1", disked(1.0)), entry("a2", Rain{3.0})});
  text[5] = 'X';
  const auto disk = test::MemoryDisk::holding({{"f/journal.jsonl", text}});
  CHECK_FALSE(append_alone(*disk, "f", {entry("a3", Rain{3.0})}).ok());
  CHECK(disk->files() == std::map<std::string, std::string>{{"f/journal.jsonl", text}});
}

TEST_CASE("an empty line is told as one", "[regression]") {
  const auto lines = lines_of(log_text(test::one_of_each()));
  const auto log = read_log_text(lines[0] + "\n\n" + lines[1] + "\n");
  REQUIRE_FALSE(log.ok());
  CHECK(log.issues()[0].place == "line 2");
  CHECK(log.issues()[0].found == "an empty line");
}

TEST_CASE("a long value is quoted up to a whole character", "[regression]") {
  for (const std::size_t before : {0U, 1U}) {  // two bytes a letter: one of the two is cut amid a letter
    std::string who(before, 'x');
    for (int k = 0; k < 60; ++k) who += "\xC3\xA9";
    const std::string first = log_text({entry("a1", BurnWord{BurnWord::What::asked, who, ""})});
    const std::string after = log_text({entry("a1", Rain{1.0}), entry("a2", Rain{1.0})});
    const auto log = read_log_text(first + after.substr(after.find('\n') + 1));
    REQUIRE_FALSE(log.ok());
    const Issues issues = log.issues();
    const auto told = std::ranges::find(issues, "line 1: data.who", &Issue::place);
    REQUIRE(told != issues.end());
    CHECK_NOTHROW(nlohmann::json(told->found).dump());  // which takes UTF-8 only
  }
}
