#include "aftercut/scenario/days_moved.hpp"

#include <algorithm>
#include <set>

#include "aftercut/core/require.hpp"
#include "aftercut/readiness/readiness.hpp"

namespace aftercut::scenario {
namespace {

const plan::Work* first_work(const plan::YearRun& run, int field) {
  const auto at =
      std::ranges::find_if(run.work, [&](const plan::Work& w) { return w.field == field && !w.stands_by; });
  return at == run.work.end() ? nullptr : &*at;
}

/// Half of the years have come by it, years without a day last.
std::optional<int> middle(std::vector<std::optional<int>> days) {
  std::ranges::sort(days, [](const auto& a, const auto& b) { return a && (!b || *a < *b); });
  return days[(days.size() - 1) / 2];
}

bool is_spring(const method::Book& book, int method, const plan::Work& w) {
  const method::Recipe* recipe = &book.recipes[static_cast<std::size_t>(method)];
  if (w.fell_back) {
    require(recipe->fall_back.has_value(), "work of a fall-back has one");
    recipe = &*std::ranges::find(book.recipes, recipe->fall_back->method, &method::Recipe::id);
  }
  return recipe->steps[static_cast<std::size_t>(w.step)].season == method::Season::spring;
}

class Moved {
 public:
  explicit Moved(const DaysMovedInput& in) : in_{&in} {}

  [[nodiscard]] plan::DayMove of(int field) const {
    const auto f = static_cast<std::size_t>(field);
    plan::DayMove out{.field = field,
                      .first = {typical_first(*in_->stood, field), typical_first(*in_->runs, field)},
                      .ready = {typical_ready(*in_->stood, f), typical_ready(*in_->runs, f)},
                      .order = plan::OrderMoved::neither,
                      .before = {}};
    const int first = plan::way_of(out.first), way = first != 0 ? first : plan::way_of(out.ready);
    if (way == 0) return out;
    out.order = order_moved(field, way, first == 0);
    if (first != 0) out.before = before(field, way);
    return out;
  }

 private:
  [[nodiscard]] std::optional<int> typical_first(const std::vector<plan::YearRun>& runs, int field) const {
    std::vector<std::optional<int>> days;
    for (const std::size_t y : *in_->shown) {
      const plan::Work* w = first_work(runs[y], field);
      days.push_back(w != nullptr ? std::optional{w->day} : std::nullopt);
    }
    return middle(std::move(days));
  }

  [[nodiscard]] std::optional<int> typical_ready(const std::vector<plan::YearRun>& runs,
                                                 std::size_t f) const {
    std::vector<plan::FieldRun> shown;
    for (const std::size_t y : *in_->shown) shown.push_back(runs[y].fields[f]);
    return readiness::of_field(in_->farm->fields[f], shown).ready.p50;
  }

  /// The order by which the field's next work is served, where its place there moved `way`.
  [[nodiscard]] plan::OrderMoved order_moved(int field, int way, bool only_ready) const {
    const plan::Decision &now = in_->plan->decision, &stood = in_->plan->again->stood;
    const bool spring = only_ready || next_in_spring(field);
    const auto place = [&](const plan::Decision& d) {
      const auto& order = spring ? d.spring_order : d.autumn_order;
      return std::ranges::find(order, field) - order.begin();
    };
    const auto by = place(now) - place(stood);
    if (by * way <= 0) return plan::OrderMoved::neither;
    return spring ? plan::OrderMoved::spring : plan::OrderMoved::autumn;
  }

  /// In more than half of the years with work, under this plan or, where it has none, the one that stood.
  [[nodiscard]] bool next_in_spring(int field) const {
    const int method = in_->plan->decision.method[static_cast<std::size_t>(field)];
    std::size_t spring = 0, all = 0;
    for (const std::size_t y : *in_->shown) {
      const plan::Work* w = first_work((*in_->runs)[y], field);
      if (w == nullptr) w = first_work((*in_->stood)[y], field);
      if (w == nullptr) continue;
      ++all;
      spring += is_spring(in_->farm->book, method, *w) ? 1 : 0;
    }
    return 2 * spring > all;
  }

  /// Fields that take the field's implement in the days by which it moved: under this plan where it moves
  /// back, under the one that stood where it moves forward, and there alone.
  [[nodiscard]] std::vector<int> before(int field, int way) const {
    const auto& with = way > 0 ? *in_->runs : *in_->stood;
    const auto& without = way > 0 ? *in_->stood : *in_->runs;
    std::vector<std::size_t> years(in_->farm->fields.size(), 0);
    for (const std::size_t y : *in_->shown) {
      const plan::Work *earlier = first_work(without[y], field), *later = first_work(with[y], field);
      if (earlier == nullptr || earlier->implement == plan::none) continue;
      const int until = later != nullptr ? later->day : in_->farm->season.days;
      const auto users = [&](const plan::YearRun& run) {
        std::set<int> fields;
        for (const plan::Work& w : run.work)
          if (w.implement == earlier->implement && w.day >= earlier->day && w.day < until && w.field != field)
            fields.insert(w.field);
        return fields;
      };
      const std::set<int> there = users(with[y]), elsewhere = users(without[y]);
      for (const int g : there) years[static_cast<std::size_t>(g)] += elsewhere.contains(g) ? 0 : 1;
    }
    std::vector<int> out;
    for (std::size_t g = 0; g < years.size(); ++g)
      if (2 * years[g] > in_->shown->size()) out.push_back(static_cast<int>(g));
    return out;
  }

  const DaysMovedInput* in_;
};

}  // namespace

std::vector<plan::DayMove> days_moved(const DaysMovedInput& in) {
  const plan::Again& again = *in.plan->again;
  const int from = in.farm->season.day(in.plan->as_of);
  std::vector<plan::DayMove> out;
  for (std::size_t f = 0; f < in.farm->fields.size(); ++f) {
    const int field = static_cast<int>(f), method = in.plan->decision.method[f];
    const bool replaced =
        std::ranges::any_of(again.barred, [&](const plan::Move& m) { return m.field == field; });
    if (method == plan::none || replaced || again.stood.method[f] != method) continue;
    plan::DayMove move = Moved{in}.of(field);
    const bool is_ready =
        move.ready.stood && *move.ready.stood < from && move.ready.now && *move.ready.now < from;
    if (!is_ready && (plan::way_of(move.first) != 0 || plan::way_of(move.ready) != 0))
      out.push_back(std::move(move));
  }
  return out;
}

}  // namespace aftercut::scenario
