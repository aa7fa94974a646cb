#include "aftercut/review/reliability.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/random.hpp"
#include "aftercut/core/require.hpp"

namespace aftercut::review {
namespace {

constexpr int class_count = 4;

/// Sums over one winter's chances.
struct Sums {
  int count = 0, happened = 0;
  double said = 0.0;  ///< of the chances
  /// Of chance less what happened.
  double said_squares = 0.0, climatology_squares = 0.0, start_squares = 0.0;
};

void add(Sums& s, const plan::SaidChance& c) {
  const double truth = c.happened ? 1.0 : 0.0;
  ++s.count;
  s.happened += c.happened ? 1 : 0;
  s.said += c.said;
  s.said_squares += (c.said - truth) * (c.said - truth);
  s.climatology_squares += (c.climatology - truth) * (c.climatology - truth);
  s.start_squares += (c.at_start - truth) * (c.at_start - truth);
}

Sums operator+(const Sums& a, const Sums& b) {
  return {a.count + b.count,
          a.happened + b.happened,
          a.said + b.said,
          a.said_squares + b.said_squares,
          a.climatology_squares + b.climatology_squares,
          a.start_squares + b.start_squares};
}

/// Every winter that anything was said in; those without a chance in `which` have empty sums.
template <class Which>
std::vector<Sums> by_winter(const std::vector<plan::SaidChance>& said, Which which) {
  std::map<int, Sums> sums;
  for (const plan::SaidChance& c : said) {
    Sums& s = sums[c.winter];
    if (which(c)) add(s, c);
  }
  std::vector<Sums> out;
  for (const auto& [winter, s] : sums) out.push_back(s);
  return out;
}

Sums all_of(const std::vector<Sums>& winters) {
  Sums all;
  for (const Sums& s : winters) all = all + s;
  return all;
}

/// Source: Efron1979 (recalled). `value` of whole winters drawn with replacement, as many as there are; draws
/// without a chance are left out. The same winters are drawn for the same seed and number of winters,
/// whatever is asked of them.
template <class Value>
std::optional<plan::Interval> redrawn(const std::vector<Sums>& winters, const Redraws& r, Value value) {
  std::vector<double> values;
  const auto n = static_cast<std::uint32_t>(winters.size());
  for (int k = 0; k < r.count; ++k) {
    Draws draws{r.seed, stream_of("hindcast-winters"), static_cast<std::uint64_t>(k)};
    Sums all;
    for (std::uint32_t i = 0; i < n; ++i) all = all + winters[draws.below(n)];
    if (all.count > 0) values.push_back(value(all));
  }
  if (values.empty()) return std::nullopt;
  const double tail = 0.5 * (1.0 - r.covers);
  return plan::Interval{quantile(values, tail), quantile(values, 1.0 - tail)};
}

double share_happened(const Sums& s) { return static_cast<double>(s.happened) / s.count; }

/// Of a chance that came out the same in all of `trials` independent trials. Source: ClopperPearson1934
/// (recalled)
plan::Interval when_all_agree(bool happened, int trials, double covers) {
  const double far = std::pow(0.5 * (1.0 - covers), 1.0 / trials);
  return happened ? plan::Interval{far, 1.0} : plan::Interval{0.0, 1.0 - far};
}

std::optional<plan::Interval> interval_of(const std::vector<Sums>& winters, const plan::ChanceClass& c,
                                          const Redraws& r) {
  if (c.winters < 2) return std::nullopt;
  if (c.happened == 0.0 || c.happened == 1.0) return when_all_agree(c.happened > 0.5, c.winters, r.covers);
  return redrawn(winters, r, share_happened);
}

plan::BrierBeside beside(const std::vector<Sums>& winters, double Sums::*other, const Redraws& r) {
  const auto less_other = [other](const Sums& s) { return (s.said_squares - s.*other) / s.count; };
  const Sums all = all_of(winters);
  plan::BrierBeside b{.score = all.*other / all.count, .difference = less_other(all)};
  if (b.score > 0.0) b.skill = 1.0 - all.said_squares / (all.*other);
  if (winters.size() > 1) b.interval = redrawn(winters, r, less_other);
  return b;
}

/// The class that a chance falls in.
int class_of(double said) { return std::min(class_count - 1, static_cast<int>(said * class_count)); }

}  // namespace

std::vector<plan::ChanceClass> classes_of(const std::vector<plan::SaidChance>& said, const Redraws& r) {
  std::vector<plan::ChanceClass> classes;
  for (int k = 0; k < class_count; ++k) {
    const auto winters = by_winter(said, [k](const plan::SaidChance& c) { return class_of(c.said) == k; });
    const Sums all = all_of(winters);
    plan::ChanceClass c{.from = static_cast<double>(k) / class_count,
                        .below = static_cast<double>(k + 1) / class_count,
                        .field_winters = all.count};
    c.winters = static_cast<int>(std::ranges::count_if(winters, [](const Sums& s) { return s.count > 0; }));
    if (all.count > 0) {
      c.said = all.said / all.count;
      c.happened = share_happened(all);
    }
    c.interval = interval_of(winters, c, r);
    classes.push_back(c);
  }
  return classes;
}

plan::BrierScores brier_scores(const std::vector<plan::SaidChance>& said, const Redraws& r) {
  require(!said.empty(), "a score needs something that was said");
  const auto winters = by_winter(said, [](const plan::SaidChance&) { return true; });
  const Sums all = all_of(winters);
  return {.said = all.said_squares / all.count,
          .climatology = beside(winters, &Sums::climatology_squares, r),
          .at_start = beside(winters, &Sums::start_squares, r)};
}

}  // namespace aftercut::review
