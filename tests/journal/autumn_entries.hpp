#pragma once
// Entries of an autumn put into the small farm, all of it cut.

#include "aftercut/journal/doubts.hpp"
#include "aftercut/journal/settle.hpp"
#include "catch2/catch.hpp"
#include "small_farm.hpp"

namespace aftercut::test {

/// The small farm on 1 November, all of it cut. Field 3 has 16 ha, field 2 has 12 ha.
inline farm::Problem cut_farm_in_autumn() {
  farm::Problem p = small_problem(1);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p.as_of = make_date(2026, 11, 1);
  const weather::Year& seen = p.years.years.front();
  p.seen = weather::Series{
      p.farm.season.first, {seen.days.begin(), seen.days.begin() + p.farm.season.day(p.as_of)}, {}};
  return p;
}

struct WrittenOn {
  const char* field;
  journal::What what;
  std::optional<Date> day = {};  ///< none: a day after the entry before, from 1 October
};

/// Entries numbered as they come.
inline farm::Problem put_written(const std::vector<WrittenOn>& said) {
  std::vector<journal::Entry> entries;
  for (const WrittenOn& s : said) {
    const Date day = s.day.value_or(make_date(2026, 10, 1) + static_cast<int>(entries.size()));
    journal::Entry e{.seq = static_cast<int>(entries.size()) + 1, .id = iso(day), .done_on = day};
    e.recorded_at = iso(day) + "T18:00:00Z";
    e.by = "ana";
    e.field = FieldId{s.field};
    e.what = s.what;
    entries.push_back(e);
  }
  auto result = put_in(cut_farm_in_autumn(), entries, "journal.jsonl");
  for (const Issue& i : result.issues()) FAIL(to_text(i));
  CHECK(journal::doubts_in(cut_farm_in_autumn(), entries) == journal::doubts_of(result.value()));
  return std::move(result).value();
}

inline journal::Worked part_of_pass(const char* operation, double ha) {
  return {.operation = operation, .area_ha = ha};
}
inline journal::Worked last_part_of_pass(const char* operation, double ha) {
  return {.operation = operation, .area_ha = ha, .finished = true};
}
inline journal::Worked whole_pass(const char* operation) {
  return {.operation = operation, .finished = true};
}

}  // namespace aftercut::test
