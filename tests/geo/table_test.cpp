// Plain tables: what is read, and each fault.
#include "aftercut/geo/table.hpp"

#include "catch2/catch.hpp"
#include "drawn.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;
using Catch::Contains;

namespace {

using Cells = std::vector<std::string>;

Table table_of(const std::string& text) {
  const Folder folder{"aftercut-table"};
  const Result<Table> table = read_table(folder.put("t.csv", text));
  for (const Issue& issue : table.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(table.ok());
  return table.value();
}

Issues bad(const std::string& text) {
  const Folder folder{"aftercut-table"};
  const Result<Table> table = read_table(folder.put("t.csv", text));
  REQUIRE_FALSE(table.ok());
  return table.issues();
}

}  // namespace

TEST_CASE("cells stay text, trimmed, in the file's order", "[identity]") {
  const Table t = table_of("date, tmin ,rain\n2026-01-01,007,1e2\n2026-01-02, -3.50 ,\n");
  CHECK(t.columns == Cells{"date", "tmin", "rain"});
  REQUIRE(t.rows.size() == 2);
  CHECK(t.rows[0] == Cells{"2026-01-01", "007", "1e2"});
  CHECK(t.rows[1] == Cells{"2026-01-02", "-3.50", ""});
}

TEST_CASE("comma, semicolon and tab separate; quotes hold separators; line ends of every kind",
          "[identity]") {
  const Cells expected{"A,1;2", "3"};
  CHECK(table_of("name,x\n\"A,1;2\",3\n").rows.at(0) == expected);
  CHECK(table_of("name;x\n\"A,1;2\";3\n").rows.at(0) == expected);
  CHECK(table_of("name\tx\nA,1;2\t3\n").rows.at(0) == expected);
  CHECK(table_of("name,x\r\n\"A,1;2\",3\r\n").rows.at(0) == expected);
  CHECK(table_of("name,x\n\"A,1;2\",3").rows.at(0) == expected);
  CHECK(table_of("name,x\n\"say \"\"no\"\"\",3\n").rows.at(0) == Cells{"say \"no\"", "3"});
  CHECK(table_of("tmin [C];rain [mm]\n1,5;2,0\n").rows.at(0) == Cells{"1,5", "2,0"});
}

TEST_CASE("a byte-order mark, a lone column, empty lines at the end", "[identity]") {
  CHECK(table_of("\xEF\xBB\xBF"
                 "date,rain\n2026-01-01,2\n\n\n")
            .columns == Cells{"date", "rain"});
  CHECK(table_of("\xEF\xBB\xBF"
                 "\"date\",rain\n2026-01-01,2\n")
            .columns == Cells{"date", "rain"});
  CHECK(table_of("name\nA\nB\n").rows == std::vector<Cells>{{"A"}, {"B"}});
  CHECK(table_of("name,x\n").rows.empty());
  CHECK(table_of("nombre,año\nSeñora,1\n").columns[1] == "año");
}

TEST_CASE("missing and empty tables", "[identity]") {
  const Folder folder{"aftercut-table"};
  CHECK(read_table(folder.path / "gone.csv").issues().at(0).found == "no such file");
  CHECK(read_table(folder.path).issues().at(0).found == "a folder");
  CHECK(bad("").at(0).found == "an empty file");
  CHECK(bad(" \n\n").at(0).found == "an empty file");
  CHECK(bad("\xEF\xBB\xBF").at(0).found == "an empty file");
}

TEST_CASE("no header, a column without name, the same name twice", "[identity]") {
  CHECK_THAT(bad("2026-01-01,1,2\n2026-01-02,3,4\n").at(0).found, Contains("no header"));
  CHECK_THAT(bad("\ndate,rain\n1,2\n").at(0).found, Contains("no header"));
  CHECK_THAT(bad("date,,rain\n1,2,3\n").at(0).found, Contains("column 2 without a name"));
  const Issues twice = bad("date,rain,tmin, rain\n1,2,3,4\n");
  REQUIRE(twice.size() == 1);
  CHECK_THAT(twice[0].found, Contains("duplicate column 'rain' (columns 2 and 4)"));
  CHECK(twice[0].place == "line 1");
}

TEST_CASE("every ragged row is named by its line", "[identity]") {
  const Issues issues = bad("a,b,c\n1,2,3\n1,2\n1,2,3\n1,2,3,4\n");
  REQUIRE(issues.size() == 2);
  CHECK(issues[0].place == "line 3");
  CHECK(issues[0].found == "2 cells");
  CHECK(issues[1].place == "line 5");
  CHECK(issues[1].found == "4 cells");
  CHECK_THAT(issues[1].expected, Contains("3 cells"));
  CHECK(bad("a,b\n1,2\n\n3,4\n").at(0).place == "line 3");
}

TEST_CASE("a quotation mark that stays open, a cell over two lines", "[identity]") {
  CHECK_THAT(bad("a,b\n\"1,2\n3,4\n").at(0).found, Contains("quoted cell"));
  CHECK(bad("a,b\n1,2\n\"3\n4\",5\n").at(0).place == "line 3");
}

TEST_CASE("bytes that are not text", "[identity]") {
  const Issues latin = bad("name,x\nA,1\nSe\xF1ora,2\n");
  CHECK(latin.at(0).place == "line 3");
  CHECK_THAT(latin[0].found, Contains("UTF-8"));
  CHECK_THAT(bad(std::string("a,b\n1,\0\n", 8)).at(0).found, Contains("UTF-8"));
  CHECK_THAT(bad(std::string("\xFF\xFE"
                             "a\0,\0b\0\n\0",
                             10))
                 .at(0)
                 .found,
             Contains("UTF-8"));
}
