// The way into the journal: what reading the farm would refuse later is refused now, and nothing is written.

#include "aftercut/journal/write_down.hpp"

#include <thread>

#include "aftercut/core/save_file.hpp"
#include "aftercut/journal/settle.hpp"
#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::journal;

namespace {

const Date today = make_date(2026, 10, 20);

/// The small farm in a folder of its own, gone with the value.
struct Book {
  Book() : folder{std::filesystem::temp_directory_path() / "aftercut-write-down"} {
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
  }
  Book(const Book&) = delete;
  Book& operator=(const Book&) = delete;
  ~Book() { std::filesystem::remove_all(folder); }
  Result<std::vector<Entry>> put(const std::vector<Entry>& entries) const {
    return write_down(folder, entries, {&problem, today});
  }
  [[nodiscard]] std::string bytes() const {
    const auto text = read_file(folder / file_name);
    return text.ok() ? text.value() : "";
  }
  std::filesystem::path folder;
  farm::Problem problem = test::small_problem(1);
};

Entry said(const std::string& id, const char* field, What what, Date day = today) {
  Entry e{.id = id, .done_on = day, .recorded_at = iso(today) + "T18:00:00Z", .by = "ana"};
  if (*field != '\0') e.field = FieldId{field};
  e.what = std::move(what);
  return e;
}

Entry correction(Entry e, int of) {
  e.corrects = of;
  return e;
}

Worked disk(std::vector<std::string> with = {}) {
  return {.operation = "disk", .finished = true, .with = std::move(with)};
}

}  // namespace

TEST_CASE("what reading the farm would refuse is refused with the same issue, and nothing is written",
          "[identity]") {
  const Book book;
  REQUIRE(book.put({said("first", "2", disk())}).ok());
  const std::string before = book.bytes();
  struct Row {
    const char* what;
    Entry entry;
  };
  const std::vector<Row> rows{
      {"work on a field that stands", said("a", "1", disk())},
      {"work before the harvest", said("a", "2", disk(), make_date(2026, 9, 4))},
      {"a machine of another kind", said("a", "2", disk({"baler"}))},
      {"bales that nobody counted", said("a", "2", Bales{.hauled = 5.0})},
      {"a correction to a machine of another kind", correction(said("a", "2", disk({"baler"})), 1)}};
  for (const Row& row : rows) {
    INFO(row.what);
    const auto refused = book.put({row.entry});
    REQUIRE_FALSE(refused.ok());
    CHECK(book.bytes() == before);
    // Written all the same, it would come back with these very issues.
    Entry forced = row.entry;
    forced.seq = 2;
    farm::Problem later = book.problem;
    later.as_of = today + 1;
    std::vector<Entry> all{said("first", "2", disk()), forced};
    all[0].seq = 1;
    const auto read = put_in(later, standing_on(all, later.as_of), file_name);
    REQUIRE_FALSE(read.ok());
    CHECK(read.issues() == refused.issues());
  }
}

TEST_CASE("all or nothing: one faulty entry of several keeps the others out", "[identity]") {
  const Book book;
  CHECK_FALSE(book.put({said("a", "", Rain{3.0}), said("b", "1", disk())}).ok());
  CHECK(book.bytes().empty());
  const auto both = book.put({said("a", "", Rain{3.0}), said("h", "1", Harvested{}, today - 2),
                              said("b", "1", disk())});  // cut two days ago: now it goes in
  REQUIRE(both.ok());
  CHECK(both.value().back().seq == 3);
}

TEST_CASE("a taking back that would leave work without its harvest is refused", "[identity]") {
  const Book book;
  REQUIRE(book.put({said("h", "1", Harvested{}, today - 2), said("w", "1", disk())}).ok());
  const auto refused = book.put({correction(said("t", "", TakenBack{}), 1)});
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.issues().front().place == "entry 2: done_on");
  CHECK(book.put({correction(said("t2", "", TakenBack{}), 2), correction(said("t1", "", TakenBack{}), 1)})
            .ok());
}

TEST_CASE("faults that stand already do not keep their mend out, nor anything else", "[identity]") {
  const Book book;
  // Two faulty entries, as a journal has them that was written before the farm lost a machine.
  REQUIRE(append_all(book.folder, {said("x", "2", disk({"torch"})), said("y", "1", disk())}).ok());
  CHECK(book.put({said("r", "", Rain{3.0})}).ok());
  const auto still = book.put({correction(said("c1", "2", disk({"torch"})), 1)});
  CHECK_FALSE(still.ok());  // the correction has the fault of its own
  CHECK(book.put({correction(said("c2", "2", disk()), 1)}).ok());
  CHECK(
      book.put({correction(said("c3", "2", Rain{1.0}), 4)}).ok());  // the correction corrected: still entry 1
  const auto more = book.put({said("z", "1", disk())});
  REQUIRE_FALSE(more.ok());
  CHECK(more.issues().size() == 1);
  CHECK(more.issues().front().place == "entry 6: done_on");
}

TEST_CASE("the same id again gives the entry that stands, even where the farm has changed since",
          "[identity]") {
  Book book;
  REQUIRE(book.put({said("a", "2", disk({"disk"}))}).ok());
  const std::string before = book.bytes();
  std::erase_if(book.problem.farm.implements, [](const auto& i) { return i.id.value == "disk"; });
  const auto again = book.put({said("a", "2", disk({"disk"}))});
  REQUIRE(again.ok());
  CHECK(again.value().front().seq == 1);
  CHECK(book.bytes() == before);
  CHECK_FALSE(book.put({said("a", "2", Rain{1.0})}).ok());  // says something else
}

TEST_CASE("work goes in before its weather is there: planning asks for that", "[identity]") {
  Book book;
  book.problem.seen.reset();
  CHECK(book.put({said("a", "2", disk())}).ok());
}

TEST_CASE("two writers whose entries do not go together: one of them is told", "[identity]") {
  const Book book;
  REQUIRE(book.put({said("h", "1", Harvested{}, today - 2)}).ok());
  bool worked = false, taken = false;
  {
    const std::jthread one{[&] { worked = book.put({said("w", "1", disk())}).ok(); }};
    const std::jthread two{[&] { taken = book.put({correction(said("t", "", TakenBack{}), 1)}).ok(); }};
  }
  CHECK(worked != taken);
  CHECK(read_log(book.folder).value().entries.size() == 2);
}
