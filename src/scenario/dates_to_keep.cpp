#include "aftercut/scenario/dates_to_keep.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "aftercut/core/week.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/scenario/storm.hpp"

namespace aftercut::scenario {
namespace {

/// Dates as they are gathered; the same thing on the same day for the same reason is one entry.
class Agenda {
 public:
  Agenda(const dispatch::Table& t, const plan::Plan& p) : t_{t}, p_{p} {}

  [[nodiscard]] const dispatch::Table& table() const { return t_; }
  [[nodiscard]] const farm::Farm& farm() const { return t_.problem->farm; }
  [[nodiscard]] const plan::Plan& plan() const { return p_; }
  /// The chosen recipe; null: none.
  [[nodiscard]] const method::Recipe* recipe(std::size_t f) const {
    const int m = p_.decision.method[f];
    return m == plan::none ? nullptr : &farm().book.recipes[static_cast<std::size_t>(m)];
  }
  [[nodiscard]] int day(Date d) const { return farm().season.day(d); }

  /// A day that has passed is due at once.
  void add(int day, plan::DateToKeep entry, std::vector<int> fields) {
    entry.day = std::max(day, t_.as_of_day);
    for (plan::DateToKeep& known : dates_)
      if (std::tie(known.day, known.what, known.why, known.source) ==
          std::tie(entry.day, entry.what, entry.why, entry.source)) {
        for (const int f : fields)
          if (std::ranges::count(known.fields, f) == 0) known.fields.push_back(f);
        return;
      }
    entry.fields = std::move(fields);
    dates_.push_back(std::move(entry));
  }
  /// Only while it lies ahead.
  void add_ahead(int day, plan::DateToKeep entry, std::vector<int> fields) {
    if (day >= t_.as_of_day) add(day, std::move(entry), std::move(fields));
  }

  std::vector<plan::DateToKeep> sorted() {
    std::stable_sort(dates_.begin(), dates_.end(), [](const plan::DateToKeep& a, const plan::DateToKeep& b) {
      return std::tie(a.day, a.what) < std::tie(b.day, b.what);
    });
    return std::move(dates_);
  }

 private:
  const dispatch::Table& t_;
  const plan::Plan& p_;
  std::vector<plan::DateToKeep> dates_;
};

std::string height_words(const farm::Farm& farm, double cm) {
  return farm.units == farm::UnitSystem::us ? fmt::format("{:.0f} in", cm / 2.54)
                                            : fmt::format("{:.0f} cm", cm);
}

void add_combine(Agenda& a) {
  for (std::size_t f = 0; f < a.farm().fields.size(); ++f) {
    const farm::Field& field = a.farm().fields[f];
    if (field.cut || a.recipe(f) == nullptr) continue;
    const plan::Chosen& c = a.plan().fields[f].chosen;
    const char* lay = c.lay == straw::Lay::windrow ? "straw in a windrow, chopper off"
                      : c.chopper                  ? "chopper on"
                                                   : "straw spread, chopper off";
    a.add_ahead(
        a.day(field.harvest),
        {.what = fmt::format("set the combine: {}, cut at {}", lay, height_words(a.farm(), c.cut_height_cm)),
         .why = "the chosen method starts from straw laid so",
         .source = "harvest date in the fields"},
        {static_cast<int>(f)});
  }
}

/// Fields whose chosen method has a step that the implement could do, cut before the day.
std::vector<int> fields_for(const Agenda& a, int implement, int cut_before) {
  std::vector<int> fields;
  for (std::size_t f = 0; f < a.farm().fields.size(); ++f) {
    const method::Recipe* r = a.recipe(f);
    if (r == nullptr || a.day(a.farm().fields[f].harvest) >= cut_before) continue;
    const bool wanted = std::ranges::any_of(r->steps, [&](const method::Step& s) {
      const auto& outfits = a.table().outfits[f][static_cast<std::size_t>(s.operation)];
      return std::ranges::any_of(outfits, [&](const auto& o) { return o.implement == implement; });
    });
    if (wanted) fields.push_back(static_cast<int>(f));
  }
  return fields;
}

void add_outfit(Agenda& a, int index) {
  const machinery::Implement& i = a.farm().implements[static_cast<std::size_t>(index)];
  const machinery::Hire& hire = *i.hire;
  const std::string what = fmt::format("book the {}, date in writing", i.name);
  const std::string source = fmt::format("hire terms of {}", i.id.value);
  if (!hire.comes.empty()) {
    const auto fields = fields_for(a, index, a.farm().season.days);
    if (!fields.empty())
      a.add(a.day(hire.comes.front().day) - 1,
            {.what = what,
             .why = fmt::format("it may be there from {} on, in {:.0f} of 100 years by {}",
                                day_words(hire.comes.front().day), 100.0 * hire.comes.back().chance,
                                day_words(hire.comes.back().day)),
             .source = source},
            fields);
  }
  for (const auto& w : hire.windows) {
    const auto fields = fields_for(a, index, a.day(w.to));
    if (hire.comes.empty() && !fields.empty() && a.day(w.to) >= a.table().as_of_day)
      a.add(a.day(w.from) - 1,
            {.what = what,
             .why = fmt::format("it can come from {} to {}", day_words(w.from), day_words(w.to)),
             .source = source},
            fields);
  }
  if (hire.bales_off_by)
    if (const auto fields = fields_for(a, index, a.farm().season.days); !fields.empty())
      a.add_ahead(a.day(*hire.bales_off_by),
                  {.what = fmt::format("bales off, by the {}", i.name),
                   .why = "the next pass or water waits for it",
                   .source = source},
                  fields);
}

void add_hired(Agenda& a) {
  for (std::size_t i = 0; i < a.farm().implements.size(); ++i)
    if (a.farm().implements[i].hire && !a.farm().implements[i].hire->with) add_outfit(a, static_cast<int>(i));
}

/// Boards, canal and leases of one field.
void add_field_water(Agenda& a, std::size_t f, const method::Recipe& r) {
  const farm::Field& field = a.farm().fields[f];
  const std::vector<int> here{static_cast<int>(f)};
  const auto& supply = a.farm().supply;
  if (r.water->from_canal && supply)
    a.add(a.day(next_on(supply->on, a.farm().season.first)) - 1,
          {.what = "order canal water",
           .why = fmt::format("the canal gives water from {} to {}",
                              day_words(next_on(supply->on, a.farm().season.first)),
                              day_words(next_on(supply->off, next_on(supply->on, a.farm().season.first)))),
           .source = "water in farm.json"},
          here);
  for (const method::Step& s : r.steps)
    if (dispatch::operation_of(a.table(), s).water == method::Water::boards_in && s.give_up)
      a.add_ahead(dispatch::day_of(a.table(), *s.give_up) - 1,
                  {.what = "boards in",
                   .why = "later the method leaves them out and goes on to spring",
                   .source = "methods"},
                  here);
  a.add_ahead(dispatch::drawdown_day(a.table(), field, r),
              {.what = "boards out from this day on, lowest field first",
               .why = "the ground needs the time to dry before the first pass",
               .source = field.lease ? "water lease in the fields" : "methods"},
              here);
  if (!field.lease) return;
  a.add_ahead(a.day(field.lease->from) - 1,
              {.what = "water lease signed, water on the field",
               .why = fmt::format("it pays for water on every day from {} to {}",
                                  day_words(field.lease->from), day_words(field.lease->until)),
               .source = "water lease in the fields"},
              here);
}

/// The first row of the name that sets something; null: none.
const burn::Rule* row_named(const burn::Jurisdiction& j, const char* name) {
  const auto at = std::ranges::find_if(
      j.rules, [&](const burn::Rule& r) { return r.name == name && r.value != "none" && r.value != "no"; });
  return at == j.rules.end() ? nullptr : &*at;
}

/// The rows that ask for a notice before a burn, quoted; empty: none.
std::string notice_rows(const burn::Jurisdiction& j) {
  std::string notices;
  for (const char* name : {"notice_authority", "notice_fire_service", "notice_neighbours",
                           "notice_day_before", "notice_same_day"})
    if (const burn::Rule* rule = row_named(j, name))
      notices += (notices.empty() ? "" : "; ") + burn::quoted(*rule);
  return notices;
}

/// Papers, notices and the end of the window of a field that the plan would burn.
void add_burn(Agenda& a, std::size_t f, const method::Recipe& r) {
  const burn::Jurisdiction& j = *a.farm().burning;
  const auto& step = r.steps[static_cast<std::size_t>(dispatch::key_step(a.table(), r))];
  const int first = dispatch::first_day_of(a.table(), f, r, step);
  const bool spring = step.season != method::Season::autumn;
  const auto& from = spring ? a.table().burn_limits.spring_from : a.table().burn_limits.autumn_from;
  const auto& to = spring ? a.table().burn_limits.spring_to : a.table().burn_limits.autumn_to;
  const int opens =
      std::max({first, a.day(a.farm().fields[f].harvest) + 1, from ? dispatch::day_of(a.table(), *from) : 0});
  const std::vector<int> here{static_cast<int>(f)};
  const auto paper = [&](const char* row, std::string what, const char* why) {
    if (const burn::Rule* rule = row_named(j, row))
      a.add(opens - 1, {.what = std::move(what), .why = why, .source = burn::quoted(*rule)}, here);
  };
  paper("permit", fmt::format("permit in hand: ask {}", j.authority),
        "the rules ask for the paper before a burn");
  paper("wait_list", fmt::format("ask {} for the place on its list", j.authority), "burns come up by a list");
  if (const std::string notices = notice_rows(j); !notices.empty())
    a.add(opens - 1,
          {.what = "ready to give notice before each burn",
           .why = "those whom the rows name are told, so long ahead as they say",
           .source = notices},
          here);
  const burn::Rule* end = row_named(j, spring ? "spring_to" : "autumn_to");
  if (to && end != nullptr)
    a.add_ahead(dispatch::day_of(a.table(), *to),
                {.what = "last day of the rules' burn window",
                 .why = "what is not burned by then goes over to its fall-back",
                 .source = burn::quoted(*end)},
                here);
}

/// Standing fields that no sample is known of, where the rules look at one.
void add_samples(Agenda& a) {
  if (!a.farm().burning) return;
  const burn::Rule* row = row_named(*a.farm().burning, "disease_sample");
  if (row == nullptr) return;
  for (std::size_t f = 0; f < a.farm().fields.size(); ++f) {
    const farm::Field& field = a.farm().fields[f];
    const bool ruled_out = std::ranges::any_of(field.not_allowed, [&](const farm::NotAllowed& n) {
      return std::ranges::any_of(a.farm().book.recipes,
                                 [&](const method::Recipe& r) { return r.burns && r.id == n.method; });
    });
    if (field.cut || !field.burn.samples.empty() || ruled_out) continue;
    a.add_ahead(a.day(field.harvest) - 1,
                {.what = fmt::format("sample {} before the field is cut", row->of),
                 .why = "the rules look at a sample; without one burning stays blocked here",
                 .source = burn::quoted(*row)},
                {static_cast<int>(f)});
  }
}

void add_planting(Agenda& a) {
  for (std::size_t f = 0; f < a.farm().fields.size(); ++f) {
    const farm::NextUse& next = a.farm().fields[f].next;
    if (next.kind == farm::NextUseKind::fallow) continue;
    a.add(a.day(next.planting),
          {.what = "seedbed ready to plant", .why = "later days cost yield", .source = "planting date"},
          {static_cast<int>(f)});
    a.add(a.day(next.cut_off),
          {.what = "last day to plant",
           .why = "a field not ready by then stays unplanted",
           .source = "cut-off date"},
          {static_cast<int>(f)});
  }
}

void add_fall_backs(Agenda& a) {
  for (const plan::FallBackTest& test : a.plan().fall_back_tests) {
    if (!test.start_by) continue;
    const int day = std::min(*test.start_by, test.rule_day.value_or(*test.start_by));
    const Date monday = week_start(a.farm().season.date(day));
    a.add(a.day(monday),
          {.what = fmt::format("fall-backs start, if {}", test.words),
           .why = fmt::format("after one storm ({}) they are then done in time in {:.0f} of {} years",
                              storm_words(a.farm(), test.storm),
                              test.chance * static_cast<double>(a.plan().shown_years.size()),
                              a.plan().shown_years.size()),
           .worked_out = true},
          test.fields);
  }
}

}  // namespace

std::vector<plan::DateToKeep> dates_to_keep(const dispatch::Table& table, const plan::Plan& plan) {
  Agenda a{table, plan};
  add_combine(a);
  add_hired(a);
  add_samples(a);
  for (std::size_t f = 0; f < a.farm().fields.size(); ++f) {
    const method::Recipe* r = a.recipe(f);
    if (r == nullptr) continue;
    if (r->water) add_field_water(a, f, *r);
    if (r->burns && a.farm().burning) add_burn(a, f, *r);
  }
  add_planting(a);
  add_fall_backs(a);
  return a.sorted();
}

}  // namespace aftercut::scenario
