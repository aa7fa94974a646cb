// What people write for the journal: w, a line of words an entry, machines and people behind " --with "; t,
// the bytes of a table. What can be read is recorded in a folder in memory.

#include <sstream>

#include "aftercut/core/digest.hpp"
#include "aftercut/journal/import.hpp"
#include "aftercut/journal/log.hpp"
#include "season.hpp"

namespace {

using namespace aftercut;
using namespace aftercut::journal;

constexpr const char* now = "2026-09-27T18:03:22Z";

/// Nothing recorded yet.
void clear(const fuzz::SeasonFolder& season) { std::filesystem::remove(season.folder().path() / file_name); }

/// Either every fault is told and nothing written, or the entries stand and are read again; again, they stay.
void record(const fuzz::SeasonFolder& season, const std::vector<Entry>& entries) {
  const auto& folder = season.folder().path();
  const auto before = read_log(folder);
  fuzz::must(before.ok(), "a journal of ours is sound");
  const auto stand = append_all(folder, entries);
  const auto after = read_log(folder);
  fuzz::must(after.ok() && after.value().torn.empty(), "a journal that was written is sound");
  if (!stand.ok()) {
    fuzz::checked(stand.issues());
    fuzz::must(after.value().entries == before.value().entries, "with a fault nothing is written");
    return;
  }
  fuzz::must(stand.value().size() == entries.size(), "every entry stands");
  fuzz::check_entries(after.value().entries);
  const auto again = append_all(folder, entries);
  fuzz::must(again.ok() && again.value() == stand.value(), "recorded again, they stand as they did");
  fuzz::must(read_log(folder).value().whole_bytes == after.value().whole_bytes, "and nothing is written");
}

Said said_in(const std::string& line) {
  constexpr std::string_view mark = " --with ";
  const std::size_t at = line.find(mark);
  Said said{words_of(line.substr(0, at)), {}};
  if (at == std::string::npos) return said;
  std::istringstream names{line.substr(at + mark.size())};
  for (std::string name; std::getline(names, name, ',');) said.with.push_back(name);
  return said;
}

void read_words(const fuzz::SeasonFolder& season, const std::string& text) {
  const farm::Farm& farm = season.problem().farm;
  const Names names = names_of(farm);
  std::istringstream lines{text};
  std::string line;
  for (int number = 1; number <= 20 && std::getline(lines, line); ++number) {
    const auto form = read_form(said_in(line), names);
    if (!form.ok()) {
      fuzz::checked(form.issues());
      continue;
    }
    Entry e;
    e.id = "words-" + std::to_string(number);
    e.done_on = make_date(2026, 9, 20);
    e.recorded_at = now;
    e.by = "Ana";
    e.field = form.value().field;
    e.what = form.value().what;
    e.note = form.value().note;
    e.corrects = form.value().corrects;
    const Issues faults = faults_on(farm, e, make_date(2026, 9, 27));
    if (!faults.empty()) fuzz::checked(faults);
    record(season, {e});
  }
}

void read_table(const fuzz::SeasonFolder& season, const std::string& text) {
  const auto file = season.folder().path() / "notes.csv";
  season.folder().put("notes.csv", text);
  const ImportDefaults defaults{"Ana", now, make_date(2026, 9, 27)};
  const auto rows = read_import(file, season.problem().farm, defaults);
  const auto again = read_import(file, season.problem().farm, defaults);
  if (!rows.ok()) {
    fuzz::must(!again.ok() && fuzz::checked(again.issues()) == fuzz::checked(rows.issues()),
               "the same bytes are read the same");
    return;
  }
  fuzz::must(again.ok() && again.value() == rows.value(), "the same bytes are read the same");
  record(season, rows.value());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::SeasonFolder season{"notes"};
  const std::string bytes = fuzz::text_of(data, size);
  if (bytes.empty() || (bytes[0] != 'w' && bytes[0] != 't')) return -1;
  clear(season);
  if (bytes[0] == 'w')
    read_words(season, bytes.substr(1));
  else
    read_table(season, bytes.substr(1));
  const auto log = read_log(season.folder().path());
  fuzz::check_season(season.problem(), log.value().entries);
  return 0;
}
