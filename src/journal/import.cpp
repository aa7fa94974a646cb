#include "aftercut/journal/import.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/json_text.hpp"
#include "aftercut/farm/fault_words.hpp"
#include "aftercut/geo/table.hpp"
#include "aftercut/journal/log.hpp"
#include "entry_json.hpp"
#include "form_words.hpp"

namespace aftercut::journal {
namespace {

constexpr std::size_t id_digits = 16;

const std::vector<std::string>& columns() {
  static const std::vector<std::string> names{"done_on", "what", "field", "with", "by", "note", "id"};
  return names;
}

Issues column_faults(const geo::Table& table) {
  Issues issues;
  for (const std::string& c : table.columns)
    if (std::ranges::find(columns(), c) == columns().end())
      issues.push_back({table.file, "line 1", "column " + farm::in_quotes(c),
                        "columns " + farm::listed(columns()),
                        farm::did_you_mean(c, columns(), "take the column out")});
  for (const char* needed : {"done_on", "what"})
    if (std::ranges::find(table.columns, needed) == table.columns.end())
      issues.push_back({table.file, "line 1", "no column " + std::string{needed}, "columns done_on and what",
                        "add the column, docs/journal.md shows one"});
  return issues;
}

/// The rows of one table as entries.
class Rows {
 public:
  Rows(const geo::Table& table, const farm::Farm& farm, const ImportDefaults& defaults)
      : table_{table}, farm_{farm}, names_{names_of(farm)}, defaults_{defaults} {}

  Result<std::vector<Entry>> read() {
    std::vector<Entry> all;
    for (row_ = 0; row_ < table_.rows.size(); ++row_) all.push_back(entry());
    if (table_.rows.empty())
      issues_.push_back(
          {table_.file, "whole file", "a header and no rows", "a row for each entry", "add rows"});
    if (!issues_.empty()) return std::move(issues_);
    return all;
  }

 private:
  [[nodiscard]] std::string cell(const std::string& column) const {
    const auto at = std::ranges::find(table_.columns, column);
    if (at == table_.columns.end()) return {};
    return table_.rows[row_][static_cast<std::size_t>(at - table_.columns.begin())];
  }
  void fault(Issue issue) {
    issue.place = fmt::format("line {}, {}", row_ + 2, issue.place);
    issue.file = table_.file;
    issues_.push_back(std::move(issue));
  }
  void faults(const Issues& issues) {
    for (const Issue& issue : issues) fault(issue);
  }

  Entry entry() {
    const auto day = parse_iso_date(cell("done_on"));
    if (!day)
      fault(
          {"", "done_on", farm::in_quotes(cell("done_on")), "a day like 2026-10-14", "write year-month-day"});
    const auto form = read_form(said(), names_);
    faults(form.issues());
    if (!form.ok() || !day) return {};
    Entry e = as_entry(form.value(), cell("note"));
    e.done_on = *day;
    e.recorded_at = defaults_.recorded_at;
    e.by = cell("by").empty() ? defaults_.by : cell("by");
    e.id = cell("id").empty() ? id_of(e) : cell("id");
    faults(faults_on(farm_, e, defaults_.today));
    own_faults(e);
    return e;
  }

  Said said() const {
    Said s{words_of(cell("what")), {}};
    const bool corrects = !s.words.empty() && s.words.front() == "correct";
    const auto at_field = s.words.begin() + (corrects ? std::min<std::ptrdiff_t>(2, std::ssize(s.words)) : 0);
    if (!cell("field").empty()) s.words.insert(at_field, cell("field"));
    std::string with = cell("with");
    std::ranges::replace(with, ';', ',');
    for (std::size_t at = 0; at < with.size();) {
      const std::size_t end = std::min(with.find(',', at), with.size());
      std::string word = with.substr(at, end - at);
      word.erase(0, word.find_first_not_of(' '));
      while (!word.empty() && word.back() == ' ') word.pop_back();
      if (!word.empty()) s.with.push_back(word);
      at = end + 1;
    }
    return s;
  }

  /// From what the row says, and how many rows before it say the same.
  std::string id_of(Entry e) {
    e.seq = 1;
    e.id = "row";
    e.recorded_at.clear();
    const std::string says = json_of(e).dump();
    return "row-" + sha256_hex(fmt::format("{}#{}", says, same_before_[says]++)).substr(0, id_digits);
  }

  /// What the journal itself does not take, told with the row.
  void own_faults(Entry e) {
    e.seq = 1;
    faults(entry_of(json_of(e), "", "entry").issues());
  }

  const geo::Table& table_;
  const farm::Farm& farm_;
  Names names_;
  const ImportDefaults& defaults_;
  std::size_t row_ = 0;
  std::map<std::string, int> same_before_;
  Issues issues_;
};

}  // namespace

Result<std::vector<Entry>> read_import(const std::filesystem::path& file, const farm::Farm& farm,
                                       const ImportDefaults& defaults) {
  if (!is_utf8(defaults.by))
    return Issues{{"command line", "--by", in_ascii(defaults.by), "text in UTF-8", "write it again"}};
  const auto table = geo::read_table(file);
  if (!table.ok()) return table.issues();
  const Issues wrong = column_faults(table.value());
  if (!wrong.empty()) return wrong;
  return Rows{table.value(), farm, defaults}.read();
}

}  // namespace aftercut::journal
