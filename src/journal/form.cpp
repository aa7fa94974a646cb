#include "aftercut/journal/form.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/farm/fault_words.hpp"
#include "aftercut/farm/measure.hpp"
#include "form_words.hpp"

namespace aftercut::journal {
namespace {

/// One form being read.
class Reader {
 public:
  Reader(const std::vector<std::string>& words, const Names& names) : w_{words}, names_{names} {}

  Result<Form> read() {
    if (w_.take_if({"take", "back"})) {
      form_.corrects = number();
      form_.what = TakenBack{};
      because();
    } else {
      if (w_.take_if({"correct"})) form_.corrects = number();
      read_first();
    }
    if (w_.more()) w_.fault("nothing more", "leave it out, or write --note \"...\"");
    if (w_.issue()) return Issues{*w_.issue()};
    return form_;
  }

 private:
  int number() {
    const auto n = farm::plain_number(w_.next());
    if (!n || *n < 1.0 || *n > 1.0e9 || *n != static_cast<int>(*n)) {
      w_.fault("the number of an entry", "look it up with aftercut record FARM --list");
      return 0;
    }
    w_.take();
    return static_cast<int>(*n);
  }

  void because() {
    if (w_.take_if({"because"})) form_.note = rest("the reason");
  }
  std::string rest(const std::string& what) {
    std::string text = w_.take_until({});
    if (text.empty()) w_.fault(what, "write it after this word");
    return text;
  }

  void read_first() {
    const std::string field = w_.take_id(names_.fields);
    if (!field.empty()) {
      form_.field = FieldId{field};
      read_field();
    } else if (w_.take_if({"rain"})) {
      rain();
    } else {
      std::vector<std::string> all = names_.machines;
      all.insert(all.end(), names_.people.begin(), names_.people.end());
      const std::string who = w_.take_id(all);
      if (!who.empty()) return presence(who);
      all.insert(all.end(), names_.fields.begin(), names_.fields.end());
      w_.fault("a field, a machine, a person, rain, take back or correct",
               farm::did_you_mean(w_.next(), all, "its fields are " + farm::listed(names_.fields)));
    }
  }

  void rain() {
    if (const auto a = w_.take_amount({"mm"})) form_.what = Rain{a->value};
    because();
  }

  void presence(const std::string& who) {
    Presence p{Presence::What::down, who, {}};
    if (w_.take_if({"up"}))
      p.what = Presence::What::up;
    else if (w_.take_if({"here"}))
      p.what = Presence::What::here;
    else if (!w_.take_if({"down"}))
      w_.fault("down, up or here", "say whether it is there");
    if (p.what == Presence::What::down && w_.take_if({"until"})) p.until = day();
    form_.what = p;
    because();
  }

  std::optional<Date> day() {
    const auto date = parse_iso_date(w_.next());
    if (!date) w_.fault("a day like 2026-10-20", "write year-month-day");
    w_.take();
    return date;
  }

  void read_field() {
    if (w_.take_if({"rain"})) return rain();
    if (w_.take_if({"looked"})) return looked();
    if (w_.take_if({"water"})) return water();
    if (w_.take_if({"harvested"})) return harvested();
    if (w_.take_if({"bales"})) return bales();
    if (w_.take_if({"boards", "in"})) return worked(names_.boards_in, {.finished = true});
    if (w_.take_if({"boards", "out"})) return worked(names_.boards_out, {.finished = true});
    if (w_.take_if({"burn", "asked"})) return burn_word(BurnWord::What::asked);
    if (w_.take_if({"burn", "answered"})) return burn_word(BurnWord::What::answered);
    if (w_.take_if({"burn", "done"})) return worked(names_.burning, {.finished = true});
    if (w_.take_if({"burn", "stopped"})) return worked(names_.burning, {});
    if (w_.take_if({"method"})) return word(Word::What::method);
    if (w_.take_if({"not"})) return word(Word::What::not_method);
    if (w_.take_if({"too", "wet"})) return word(Word::What::too_wet);
    if (w_.take_if({"free"})) return word(Word::What::free);
    if (w_.take_if({"skip"})) return worked(operation(), {.no_more = true});
    if (w_.take_if({"neighbour"}) || w_.take_if({"neighbor"}))
      return worked(operation(), {.by_others = true});
    worked(operation(), {});
  }

  std::string operation() {
    std::string id = w_.take_id(names_.operations);
    if (id.empty()) {
      std::vector<std::string> known = names_.operations;
      for (const char* word :
           {"rain", "looked", "water", "harvested", "bales", "boards", "method", "free", "skip", "neighbour"})
        known.emplace_back(word);
      w_.fault(fmt::format("an operation ({}), or one of the words of docs/journal.md",
                           farm::listed(names_.operations)),
               farm::did_you_mean(w_.next(), known, "name it as the farm's methods do"));
    }
    return id;
  }

  void worked(const std::string& operation, Worked w) {
    if (operation.empty()) w_.fault("an operation that the farm has", "put it into methods.json");
    w.operation = operation;
    while (w_.more() && w_.next() != "because") {
      if (w_.take_if({"finished"}) || w_.take_if({"done"}))
        w.finished = true;
      else if (w_.take_if({"no", "more"}))
        w.no_more = true;
      else if (w_.number_next())
        amount_of(w);
      else
        w_.fault("an amount (12.5 ha, 4 h, 80 L), finished, no more or because", "leave it out");
    }
    if (!w.area_ha && !w.finished && !w.no_more) {
      if (w.by_others)
        w.finished = true;
      else
        w_.fault("an area, or finished", "say how much was done, like 12.5 ha, or finished");
    }
    form_.what = w;
    because();
  }

  void amount_of(Worked& w) {
    const auto a = w_.take_amount({"ha", "h", "L", "cm"});
    if (!a) return;
    std::optional<double>* const places[]{&w.area_ha, &w.hours, &w.fuel_l, &w.board_cm};
    if (*places[a->unit]) w_.fault("each amount once", "leave one out");
    *places[a->unit] = a->value;
  }

  void looked() {
    Looked l;
    while (w_.more() && w_.next() != "because") {
      if (w_.take_if({"wet"}))
        l.workable = false;
      else if (w_.take_if({"workable"}))
        l.workable = true;
      else if (w_.take_if({"standing"}))
        l.standing_cm = amount("cm");
      else if (w_.take_if({"cover"}))
        l.cover_percent = amount("%");
      else if (w_.take_if({"straw"}))
        l.straw_kg_per_ha = amount("kg/ha");
      else
        w_.fault("wet, workable, standing 5 cm, cover 60 % or straw 3000 kg/ha", "say what was seen");
    }
    if (l == Looked{}) w_.fault("wet, workable, standing, cover or straw", "say what was seen");
    form_.what = l;
    because();
  }

  std::optional<double> amount(const std::string& unit) {
    const auto a = w_.take_amount({unit});
    return a ? std::optional{a->value} : std::nullopt;
  }

  void water() {
    Water w;
    if (w_.take_if({"off"})) {
      w.what = Water::What::off;
    } else if (w_.take_if({"metered"})) {
      w.what = Water::What::metered;
      w.m3 = amount("m3");
    } else if (w_.take_if({"on"})) {
      if (w_.number_next()) w.depth_cm = amount("cm");
    } else {
      w_.fault("on, off or metered", "say what was done, like water metered 800 m3");
    }
    form_.what = w;
    because();
  }

  void harvested() {
    Harvested h;
    while (w_.more() && w_.next() != "because") {
      if (w_.next() == "windrow" || w_.next() == "spread" || w_.next() == "chopped")
        h.lay = w_.take();
      else if (w_.take_if({"cut"}))
        h.cut_height_cm = amount("cm");
      else if (w_.number_next())
        h.yield_kg_per_ha = amount("kg/ha");
      else
        w_.fault("a yield like 9200 lb/acre, windrow, spread, chopped or cut 30 cm", "leave it out");
    }
    form_.what = h;
    because();
  }

  void bales() {
    const auto n = farm::plain_number(w_.next());
    if (!n) return w_.fault("how many bales", "write their number, like bales 412 counted");
    w_.take();
    Bales b;
    if (w_.take_if({"counted"}))
      b.counted = n;
    else if (w_.take_if({"hauled"}))
      b.hauled = n;
    else
      w_.fault("counted or hauled", "say what the number is of");
    form_.what = b;
    because();
  }

  void burn_word(BurnWord::What what) {
    BurnWord b{what, "", ""};
    if (what == BurnWord::What::answered) {
      b.words = w_.take_until({"by", "because"});
      if (b.words.empty()) w_.fault("the authority's words", "write them in quotation marks");
    }
    if (w_.take_if({"by"}) || (what == BurnWord::What::asked && w_.more() && w_.next() != "because"))
      b.who = w_.take_until({"because"});
    form_.what = b;
    because();
  }

  void word(Word::What what) {
    Word w{what, "", {}, ""};
    if (what == Word::What::method || what == Word::What::not_method) {
      w.method = w_.take_id(names_.methods);
      if (w.method.empty())
        w_.fault(fmt::format("a method: {}", farm::listed(names_.methods)),
                 farm::did_you_mean(w_.next(), names_.methods, "name it as aftercut compare does"));
    }
    if (what == Word::What::too_wet && w_.take_if({"until"})) w.until = day();
    if (w_.take_if({"because"})) w.why = rest("the reason");
    form_.what = w;
  }

  FormWords w_;
  const Names& names_;
  Form form_;
};

/// The machines and people named beside the words, under their ids.
Result<std::vector<std::string>> with_ids(const std::vector<std::string>& with, const Names& names) {
  std::vector<std::string> known = names.machines, ids;
  known.insert(known.end(), names.people.begin(), names.people.end());
  Issues issues;
  for (const std::string& word : with) {
    ids.push_back(id_meant(word, known));
    if (ids.back().empty())
      issues.push_back({"command line", fmt::format("--with {}", word), farm::in_quotes(word),
                        "a machine or a person of the farm",
                        farm::did_you_mean(word, known, "one of " + farm::listed(known))});
  }
  if (!issues.empty()) return issues;
  return ids;
}

}  // namespace

Result<Form> read_form(const Said& said, const Names& names) {
  if (Issues bytes = byte_faults(said); !bytes.empty()) return bytes;
  auto form = Reader{said.words, names}.read();
  auto with = with_ids(said.with, names);
  Issues issues = form.issues();
  for (const Issue& unknown : with.issues()) issues.push_back(unknown);
  if (!issues.empty()) return issues;
  Form f = std::move(form).value();
  if (with.value().empty()) return f;
  if (!std::holds_alternative<Worked>(f.what))
    return Issues{
        {"command line", "--with", farm::listed(said.with), "work that they did", "leave --with out"}};
  std::get<Worked>(f.what).with = std::move(with).value();
  return f;
}

}  // namespace aftercut::journal
