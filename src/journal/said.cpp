// An entry in a line, for people.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "aftercut/core/customary.hpp"
#include "aftercut/journal/form.hpp"

namespace aftercut::journal {
namespace {

constexpr double cm_per_in = m_per_ft * 100.0 / 12.0, mm_per_in = cm_per_in * 10.0;
constexpr double m3_per_acre_ft = ha_per_acre * 10000.0 * m_per_ft;

/// Words of one entry in the farm's units.
class Words {
 public:
  explicit Words(farm::UnitSystem units) : us_{units == farm::UnitSystem::us} {}

  std::string operator()(const Harvested& h) const {
    std::string text = "harvested";
    if (h.yield_kg_per_ha) text += " " + per_ha(*h.yield_kg_per_ha);
    if (!h.lay.empty()) text += ", " + h.lay;
    if (h.cut_height_cm) text += ", cut at " + height(*h.cut_height_cm);
    return text;
  }
  std::string operator()(const Worked& w) const {
    std::string text = w.operation;
    if (w.area_ha) text += " " + area(*w.area_ha);
    if (w.finished) text += w.area_ha ? ", finished" : " finished";
    if (w.no_more) text += w.area_ha || w.finished ? ", no more of it" : ": skipped, no more of it";
    if (w.by_others) text += ", by a neighbour";
    if (w.hours) text += fmt::format(", {:.4g} h", *w.hours);
    if (w.fuel_l) text += ", " + fuel(*w.fuel_l);
    if (w.board_cm) text += ", boards " + height(*w.board_cm);
    if (!w.with.empty()) text += fmt::format(", with {}", fmt::join(w.with, ", "));
    return text;
  }
  std::string operator()(const Rain& r) const { return "rain " + rain(r.mm); }
  std::string operator()(const Looked& l) const {
    std::vector<std::string> seen;
    if (l.workable) seen.emplace_back(*l.workable ? "workable" : "wet");
    if (l.standing_cm) seen.push_back("water standing " + height(*l.standing_cm));
    if (l.cover_percent) seen.push_back(fmt::format("cover {:.4g} %", *l.cover_percent));
    if (l.straw_kg_per_ha) seen.push_back("straw " + per_ha(*l.straw_kg_per_ha));
    return fmt::format("looked: {}", fmt::join(seen, ", "));
  }
  std::string operator()(const BurnWord& b) const {
    if (b.what == BurnWord::What::asked) return "burn: asked" + (b.who.empty() ? "" : " " + b.who);
    return fmt::format("burn: answered \"{}\"{}", b.words, b.who.empty() ? "" : " by " + b.who);
  }
  std::string operator()(const Water& w) const {
    if (w.what == Water::What::off) return "water off";
    if (w.what == Water::What::metered) return "water metered " + volume(w.m3.value_or(0.0));
    return "water on" + (w.depth_cm ? ", for " + height(*w.depth_cm) : "");
  }
  std::string operator()(const Bales& b) const {
    std::vector<std::string> said;
    if (b.counted) said.push_back(fmt::format("{:.9g} bales counted", *b.counted));
    if (b.hauled) said.push_back(fmt::format("{:.9g} bales hauled", *b.hauled));
    return fmt::format("{}", fmt::join(said, ", "));
  }
  std::string operator()(const Presence& p) const {
    const char* what = p.what == Presence::What::down ? "down" : p.what == Presence::What::up ? "up" : "here";
    return p.who + " " + what + (p.until ? " until " + iso(*p.until) : "");
  }
  std::string operator()(const Word& w) const {
    std::string text;
    switch (w.what) {
      case Word::What::method:
        text = "method " + w.method;
        break;
      case Word::What::not_method:
        text = "not " + w.method;
        break;
      case Word::What::too_wet:
        text = "too wet" + (w.until ? " until " + iso(*w.until) : "");
        break;
      case Word::What::free:
        text = "free: what was said of it no longer holds";
        break;
    }
    return text + (w.why.empty() ? "" : ", because " + w.why);
  }
  std::string operator()(const TakenBack&) const { return "taken back"; }

 private:
  [[nodiscard]] std::string number(double si, double per_us, const char* si_name, const char* us_name) const {
    return us_ ? fmt::format("{:.4g} {}", si / per_us, us_name) : fmt::format("{:.4g} {}", si, si_name);
  }
  [[nodiscard]] std::string area(double ha) const { return number(ha, ha_per_acre, "ha", "acres"); }
  [[nodiscard]] std::string per_ha(double kg) const {
    const double v = us_ ? kg * ha_per_acre / kg_per_lb : kg;
    return fmt::format("{:.0f} {}", v, us_ ? "lb/acre" : "kg/ha");
  }
  [[nodiscard]] std::string height(double cm) const { return number(cm, cm_per_in, "cm", "in"); }
  [[nodiscard]] std::string rain(double mm) const { return number(mm, mm_per_in, "mm", "in"); }
  [[nodiscard]] std::string fuel(double l) const { return number(l, l_per_gal, "L", "gal"); }
  [[nodiscard]] std::string volume(double m3) const {
    return us_ ? fmt::format("{:.4g} acre-feet", m3 / m3_per_acre_ft) : fmt::format("{:.0f} m3", m3);
  }
  bool us_;
};

}  // namespace

std::string said_of(const Entry& e, farm::UnitSystem units) {
  std::string text = e.field ? "field " + e.field->value + ": " : "";
  text += std::visit(Words{units}, e.what);
  if (e.corrects && std::holds_alternative<TakenBack>(e.what))
    text += fmt::format(": entry {}", *e.corrects);
  else if (e.corrects)
    text += fmt::format(" (in the place of entry {})", *e.corrects);
  if (!e.note.empty()) text += ". " + e.note;
  return text;
}

Entry as_entry(const Form& form, const std::string& note) {
  Entry e;
  e.field = form.field;
  e.what = form.what;
  e.corrects = form.corrects;
  e.note = note;
  if (!form.note.empty()) e.note += (e.note.empty() ? "" : "; ") + form.note;
  return e;
}

}  // namespace aftercut::journal
