#include "aftercut/scenario/region.hpp"

#include <limits>
#include <mutex>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"

namespace aftercut::scenario {
namespace {

using plan::Shares;

/// What is kept of a farm between its two visits.
struct LookedAt {
  Issues issues;
  FarmOffers offers;
  Fits fits;
  double area_ha = 0.0;
  int years = 0;
};

class PlanningRegion {
 public:
  explicit PlanningRegion(const RegionInput& in) : in_{in}, farms_{in.folder->farms.size()} {
    const farm::RegionLimits& l = in.folder->limits;
    limits_ = {l.burn_day_ha, l.burn_season_ha, l.flow_m3_s};
    told_.farms = farms_;
  }

  Result<plan::Region> run() {
    look_at_all();
    Issues issues;
    for (const LookedAt& l : looked_) issues.insert(issues.end(), l.issues.begin(), l.issues.end());
    if (!issues.empty()) return issues;
    const planner::SharedOut out = shared_out();
    plan::Region region{.name = in_.folder->name,
                        .currency = in_.folder->currency,
                        .seed = in_.seed,
                        .years = fewest_years(),
                        .limits = limits_};
    for (std::size_t k = 0; k < plan::shared_kinds; ++k) region.worth[k] = out.prices[k] / 100.0;
    region.fits = out.fits;
    plan_all(region, out);
    return region;
  }

 private:
  void tell(const std::function<void(RegionStep&)>& change) {
    const std::scoped_lock lock{telling_};
    change(told_);
    if (in_.step) in_.step(told_);
  }

  void look_at_all() {
    looked_.resize(farms_);
    for_each_index(farms_, in_.threads, [&](std::size_t f) {
      looked_[f] = look_at(f);
      tell([](RegionStep& s) { ++s.looked_at; });
    });
  }

  LookedAt look_at(std::size_t f) const {
    LookedAt l;
    auto read = in_.read(f, nullptr);
    if (!read.ok()) {
      l.issues = read.issues();
      for (Issue& i : l.issues) i.file = in_.folder->farms[f] + "/" + i.file;
      return l;
    }
    const farm::Problem problem = std::move(read).value();
    if (problem.farm.currency != in_.folder->currency)
      l.issues.push_back({in_.folder->farms[f] + "/farm.json", "currency", problem.farm.currency,
                          in_.folder->currency + ", as in region.json",
                          "give all farms of a region in one currency"});
    if (problem.years.years.empty())
      l.issues.push_back({in_.folder->farms[f] + "/farm.json", "weather", "no whole season in the record",
                          "one weather year or more", "give a longer record"});
    if (!l.issues.empty()) return l;
    for (const farm::Field& field : problem.farm.fields) l.area_ha += field.area.value();
    l.years = static_cast<int>(problem.years.years.size());
    l.offers = offers_of(problem, limits_, in_.seed, in_.look_changes);
    l.fits = problem.farm.fits;
    return l;
  }

  [[nodiscard]] int fewest_years() const {
    int years = std::numeric_limits<int>::max();
    for (const LookedAt& l : looked_) years = std::min(years, l.years);
    return years;
  }

  planner::SharedOut shared_out() {
    std::vector<std::vector<planner::Offer>> offers;
    for (const LookedAt& l : looked_) offers.push_back(l.offers.offers);
    planner::SharedOut out = planner::share_out(offers, limits_);
    tell([&](RegionStep& s) { s.cents = out.cents; });
    return out;
  }

  /// What its offer needs and, of what nobody needs, a part by its area.
  std::vector<Shares> shares(const planner::SharedOut& out) const {
    double area = 0.0;
    for (const LookedAt& l : looked_) area += l.area_ha;
    std::vector<Shares> all(farms_);
    for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
      double left = limits_[k].value_or(std::numeric_limits<double>::infinity());
      for (std::size_t f = 0; f < farms_; ++f) left -= taken(out, f).needs[k];
      for (std::size_t f = 0; f < farms_; ++f)
        all[f][k] = taken(out, f).needs[k] + std::max(left, 0.0) * looked_[f].area_ha / area;
    }
    return all;
  }
  const planner::Offer& taken(const planner::SharedOut& out, std::size_t f) const {
    return looked_[f].offers.offers[out.taken[f]];
  }

  void plan_all(plan::Region& region, const planner::SharedOut& out) {
    const std::vector<Shares> share = shares(out);
    region.farms.resize(farms_);
    for_each_index(farms_, in_.threads, [&](std::size_t f) {
      const auto read = in_.read(f, &looked_[f].fits);
      plan::RegionFarm farm = plan_farm(read.value(), {.share = share[f],
                                                       .start = looked_[f].offers.decisions[out.taken[f]],
                                                       .seed = in_.seed,
                                                       .changes = in_.plan_changes,
                                                       .bound_rounds = in_.bound_rounds});
      farm.folder = in_.folder->farms[f];
      farm.alone_cents = to_cents(looked_[f].offers.offers.front().cents / 100.0);
      tell([&](RegionStep& s) {
        ++s.planned;
        s.cents += static_cast<double>(farm.cost_cents) - taken(out, f).cents;
        s.planned_cents += static_cast<double>(farm.cost_cents);
        s.bound_cents += static_cast<double>(farm.bound_cents);
      });
      region.farms[f] = std::move(farm);
    });
  }

  const RegionInput& in_;
  std::size_t farms_;
  std::array<std::optional<double>, plan::shared_kinds> limits_;
  std::vector<LookedAt> looked_;
  std::mutex telling_;
  RegionStep told_;
};

}  // namespace

Result<plan::Region> plan_region(const RegionInput& input) { return PlanningRegion{input}.run(); }

}  // namespace aftercut::scenario
