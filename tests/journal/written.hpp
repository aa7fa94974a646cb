#pragma once
// Entries for tests of the journal's file.
#include "aftercut/journal/log.hpp"

namespace aftercut::test {

inline journal::Entry entry(const std::string& id, journal::What what, std::optional<int> corrects = {}) {
  journal::Entry e;
  e.id = id;
  e.done_on = make_date(2026, 10, 14);
  e.recorded_at = "2026-10-14T18:03:22Z";
  e.by = "Ana";
  if (!std::holds_alternative<journal::Presence>(what) && !std::holds_alternative<journal::TakenBack>(what))
    e.field = FieldId{"N3"};
  e.what = std::move(what);
  e.corrects = corrects;
  return e;
}

inline journal::Worked disked(double area_ha) {
  journal::Worked w;
  w.operation = "disk";
  w.area_ha = area_ha;
  return w;
}

/// One of every kind, with all that it can say.
inline std::vector<journal::Entry> one_of_each() {
  using namespace journal;
  Worked all = disked(12.5);
  all.finished = all.by_others = true;
  all.with = {"T2", "disk 1", "Ana"};
  all.hours = 4.0;
  all.fuel_l = 88.25;
  all.board_cm = 15.0;
  Worked skipped;
  skipped.operation = "disk";
  skipped.no_more = true;
  std::vector<Entry> list{
      entry("a1", Harvested{9100.0, "windrow", 32.0}),
      entry("a2", all),
      entry("a3", skipped),
      entry("a4", Rain{23.0}),
      entry("a5", Looked{false, 5.0, 60.0, 3200.0}),
      entry("a6", BurnWord{BurnWord::What::asked, "the office", ""}),
      entry("a7", BurnWord{BurnWord::What::answered, "the office", "no burning before noon, \"zone 3\""}),
      entry("a8", Water{Water::What::on, 10.0, {}}),
      entry("a9", Water{Water::What::metered, {}, 800.0}),
      entry("b1", Bales{412.0, 100.0}),
      entry("b2", Presence{Presence::What::down, "baler", make_date(2026, 10, 20)}),
      entry("b3", Word{Word::What::too_wet, "", make_date(2026, 10, 19), "ruts at the gate"}),
      entry("b4", Word{Word::What::not_method, "burn", {}, "the neighbour's hay"}),
      entry("b5", TakenBack{}, 4),
  };
  list[3].field.reset();
  list[4].note = "m\xC3\xA1s agua al sur";
  return list;
}

}  // namespace aftercut::test
