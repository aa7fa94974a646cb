// What stands in the way of a field's wanted chance, worked out by playing the plan otherwise.

#include <algorithm>
#include <set>

#include "aftercut/core/parallel.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/scenario/one_more.hpp"
#include "aftercut/scenario/risk.hpp"

namespace aftercut::scenario {
namespace {

using plan::InTheWay;

constexpr int days_before_planting = 56;  // eight weeks, in which spring's work lies

std::vector<std::string> used_in(const farm::Farm& farm, const std::vector<plan::YearRun>& runs) {
  std::set<std::string> ids;
  for (const plan::YearRun& run : runs)
    for (const plan::Work& w : run.work) {
      if (w.tractor != plan::none) ids.insert(farm.tractors[static_cast<std::size_t>(w.tractor)].id.value);
      if (w.implement != plan::none)
        ids.insert(farm.implements[static_cast<std::size_t>(w.implement)].id.value);
      for (const int who : w.crew)
        if (who != plan::none) ids.insert(farm.operators[static_cast<std::size_t>(who)].id.value);
    }
  return {ids.begin(), ids.end()};
}

/// One method on a field that has the farm for itself.
struct Tried {
  std::size_t way = 0;
  int method = plan::none;
  int ready = 0;
  std::int64_t cents = 0;
};

class Ways {
 public:
  Ways(const RiskInput& in, const std::vector<plan::Wish>& wishes)
      : in_{in}, farm_{in.table->problem->farm}, wanted_(farm_.fields.size(), 0), ready_(wanted_) {
    for (const plan::Wish& w : wishes) {
      const auto f = static_cast<std::size_t>(w.field);
      wanted_[f] = farm::years_wanted(w.chance, in.shown.size());
      ready_[f] = w.shown;
      if (w.shown >= wanted_[f]) continue;
      InTheWay& way = ways_.emplace_back();
      way.field = w.field;
      way.wanted = wanted_[f];
      way.ready = w.shown;
    }
  }

  std::vector<InTheWay> all() {
    add_alone();
    add_other_methods();
    if (std::ranges::any_of(ways_, hemmed_in)) {
      add_more();
      add_first();
    }
    return std::move(ways_);
  }

 private:
  /// Something shared stands in the way.
  static bool hemmed_in(const InTheWay& w) { return w.own_method_alone >= w.wanted; }

  /// [field] shown years in which it is ready.
  [[nodiscard]] std::vector<int> played(const dispatch::Table& t, const plan::Decision& d) const {
    std::vector<int> ready(farm_.fields.size(), 0);
    for (const std::size_t y : in_.shown) {
      const plan::YearRun run = dispatch::run(t, d, y);
      for (std::size_t f = 0; f < ready.size(); ++f)
        ready[f] += run.fields[f].status == plan::Status::ready ? 1 : 0;
    }
    return ready;
  }

  [[nodiscard]] std::vector<int> falls_below(const std::vector<int>& then, int but) const {
    std::vector<int> fields;
    for (std::size_t f = 0; f < then.size(); ++f)
      if (static_cast<int>(f) != but && ready_[f] >= wanted_[f] && then[f] < wanted_[f])
        fields.push_back(static_cast<int>(f));
    return fields;
  }

  [[nodiscard]] plan::Decision alone_with(int field, int method) const {
    plan::Decision d = *in_.decision;
    d.method[static_cast<std::size_t>(field)] = method;
    d.autumn_order = d.spring_order = {field};
    return d;
  }

  void add_alone() {
    std::vector<Tried> tried;
    for (std::size_t k = 0; k < ways_.size(); ++k)
      for (std::size_t r = 0; r < farm_.book.recipes.size(); ++r)
        if (in_.table->why_not[static_cast<std::size_t>(ways_[k].field)][r].empty())
          tried.push_back({.way = k, .method = static_cast<int>(r)});
    for_each_index(tried.size(), in_.threads, [&](std::size_t i) {
      Tried& t = tried[i];
      const int field = ways_[t.way].field;
      const plan::Decision d = alone_with(field, t.method);
      for (const std::size_t y : in_.shown) {
        const auto run = dispatch::run(*in_.table, d, y, {.only_field = field});
        const plan::FieldRun& f = run.fields[static_cast<std::size_t>(field)];
        t.ready += f.status == plan::Status::ready ? 1 : 0;
        t.cents += f.cost.out_of_pocket();
      }
    });
    for (std::size_t k = 0; k < ways_.size(); ++k) take_best(ways_[k], k, tried);
    for_each_index(ways_.size(), in_.threads, [&](std::size_t k) { add_waits(ways_[k]); });
  }

  /// The surest; of equals the plan's own, then the cheapest.
  void take_best(InTheWay& way, std::size_t k, const std::vector<Tried>& tried) const {
    const int own = in_.decision->method[static_cast<std::size_t>(way.field)];
    const Tried* best = nullptr;
    const auto rank = [&](const Tried& t) { return std::tuple{-t.ready, t.method == own ? 0 : 1, t.cents}; };
    for (const Tried& t : tried) {
      if (t.way != k) continue;
      if (t.method == own) way.own_method_alone = t.ready;
      if (best == nullptr || rank(t) < rank(*best)) best = &t;
    }
    if (best == nullptr) return;
    way.alone.method = best->method;
    way.alone.ready = best->ready;
    way.alone.failed = static_cast<int>(in_.shown.size()) - best->ready;
  }

  /// Days without work before planting, in the years that fail even so.
  void add_waits(InTheWay& way) const {
    plan::AloneOnFarm& a = way.alone;
    if (a.method == plan::none || a.failed == 0) return;
    const farm::Field& field = farm_.fields[static_cast<std::size_t>(way.field)];
    const int planting = farm_.season.day(field.next.planting), harvest = farm_.season.day(field.harvest);
    const int from = std::max(planting - days_before_planting, in_.table->as_of_day);
    a.days_looked_at = std::max(0, planting - from);
    a.days_standing = std::clamp(harvest + 1 - from, 0, a.days_looked_at);
    const plan::Decision d = alone_with(way.field, a.method);
    for (const std::size_t y : in_.shown) {
      const auto run = dispatch::run(*in_.table, d, y, {.only_field = way.field, .keep_waits = true});
      if (run.fields[static_cast<std::size_t>(way.field)].status == plan::Status::ready) continue;
      for (const plan::Waited& w : run.waits)
        if (w.field == way.field && w.day >= from && w.day < planting) add_day(a.waits, w);
    }
    std::ranges::stable_sort(a.waits, [](const auto& x, const auto& z) { return x.all() > z.all(); });
  }

  static void add_day(std::vector<plan::StepWaited>& waits, const plan::Waited& w) {
    auto at = std::ranges::find(waits, w.operation, &plan::StepWaited::operation);
    if (at == waits.end()) at = waits.insert(waits.end(), {.operation = w.operation});
    ++at->days[static_cast<std::size_t>(w.what)];
  }

  void add_other_methods() {
    for_each_index(ways_.size(), in_.threads, [&](std::size_t k) {
      InTheWay& way = ways_[k];
      if (hemmed_in(way) || way.alone.ready < way.wanted) return;
      plan::Decision d = *in_.decision;
      d.method[static_cast<std::size_t>(way.field)] = way.alone.method;
      way.other_method = with(way, d, way.alone.method);
    });
  }

  void add_first() {
    for_each_index(ways_.size(), in_.threads, [&](std::size_t k) {
      InTheWay& way = ways_[k];
      if (!hemmed_in(way)) return;
      plan::Decision d = *in_.decision;
      for (auto* list : {&d.autumn_order, &d.spring_order}) {
        const auto at = std::ranges::find(*list, way.field);
        std::rotate(list->begin(), at, at + 1);
      }
      way.first = with(way, d, d.method[static_cast<std::size_t>(way.field)]);
    });
  }

  [[nodiscard]] plan::OtherWay with(const InTheWay& way, const plan::Decision& d, int method) const {
    const std::vector<int> then = played(*in_.table, d);
    return {method, then[static_cast<std::size_t>(way.field)], falls_below(then, way.field)};
  }

  /// A farm with more, and how its fields fare.
  struct Played {
    plan::MoreThing thing;
    std::vector<int> ready;  // [field]
  };

  [[nodiscard]] std::vector<Played> played_with_more() const {
    const farm::Problem& p = *in_.table->problem;
    const auto used = used_in(farm_, *in_.runs);
    std::vector<Played> all;
    std::vector<farm::Problem> farms;
    for (const bool twice : {false, true})
      for (WithMore& w : twice ? with_each_twice(p) : with_a_tenth_more(p)) {
        if (!w.of.id.empty() && !std::ranges::binary_search(used, w.of.id)) continue;
        all.push_back({{.kind = w.of.kind, .id = w.of.id, .twice = twice}, {}});
        farms.push_back(std::move(w.problem));
      }
    all.push_back({{.kind = "all", .id = "", .twice = true}, {}});
    farms.push_back(with_all_twice(p));
    for_each_index(all.size(), in_.threads, [&](std::size_t k) {
      all[k].ready = played(dispatch::make_table(farms[k], in_.table->seed), *in_.decision);
      for (const InTheWay& way : ways_)
        all[k].thing.brings += all[k].ready[static_cast<std::size_t>(way.field)] >= way.wanted ? 1 : 0;
    });
    return all;
  }

  /// A tenth more goes before twice as much; of equals the one that brings most fields there.
  void add_more() {
    const auto all = played_with_more();
    for (InTheWay& way : ways_) {
      if (!hemmed_in(way)) continue;
      const auto f = static_cast<std::size_t>(way.field);
      for (const Played& p : all) {
        plan::MoreThing thing = p.thing;
        thing.ready = p.ready[f];
        if (thing.kind == "all") {
          way.all_twice = thing.ready;
          continue;
        }
        const auto better = [&](const std::optional<plan::MoreThing>& than, auto rank) {
          return !than || rank(thing) < rank(*than);
        };
        if (thing.ready >= way.wanted && better(way.more, [](const auto& t) {
              return std::pair{t.twice ? 1 : 0, -t.brings};
            }))
          way.more = thing;
        if (thing.ready > way.ready && better(way.most, [](const auto& t) {
              return std::pair{-t.ready, t.twice ? 1 : 0};
            }))
          way.most = thing;
      }
      if (way.more) way.most.reset();
    }
  }

  const RiskInput& in_;
  const farm::Farm& farm_;
  std::vector<int> wanted_, ready_;  // [field] shown years
  std::vector<InTheWay> ways_;
};

}  // namespace

std::vector<InTheWay> in_the_way(const RiskInput& in, const std::vector<plan::Wish>& wishes) {
  return Ways{in, wishes}.all();
}

}  // namespace aftercut::scenario
