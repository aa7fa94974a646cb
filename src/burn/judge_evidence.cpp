// The default ban, findings, samples, the day's class, the manner of lighting, drying.

#include <fmt/format.h>

#include <algorithm>

#include "judge.hpp"

namespace aftercut::burn {
namespace {

const char* const not_understood = "the value is not understood";

const Sample* sample_of(const Facts& f, const std::string& disease) {
  const auto at =
      std::find_if(f.samples.begin(), f.samples.end(), [&](const Sample& s) { return s.disease == disease; });
  return at == f.samples.end() ? nullptr : &*at;
}

/// A passed dryness test of the day stands in place of the drying days, where a good row says so.
bool test_stands_in(const Case& c) {
  const Rule* rule = find_rule(c.place, "dryness_test");
  return rule != nullptr && number_of(*rule, Measure::yes_no) == 1.0 && c.facts.dryness_test == true &&
         settle(*rule, c.facts.day).kind == Verdict::Kind::no_hindrance;
}

std::string since_the_cut(int days) {
  if (days < 0) return "not cut yet";
  return fmt::format("{} day{} since the cut", days, days == 1 ? "" : "s");
}

/// One more word after what is said already.
Verdict with_note(Verdict v, const std::string& note) {
  v.words.why += (v.words.why.empty() ? "" : "; ") + note;
  return v;
}

}  // namespace

Verdict judge_ban(const Rule& rule, const Case& c) {
  const auto banned = number_of(rule, Measure::yes_no);
  if (!banned) return doubtful(rule, not_understood);
  if (*banned > 0.0 && !c.facts.leave)
    return blocks(rule, "no leave of the authority for this field is entered");
  Verdict v = settle(rule, c.facts.day);
  if (*banned > 0.0) v = with_note(std::move(v), "leave entered: " + in_marks(*c.facts.leave));
  return v;
}

Verdict judge_finding(const Rule& rule, const Case& c) {
  const auto asked = number_of(rule, Measure::yes_no);
  if (!asked) return doubtful(rule, not_understood);
  if (*asked > 0.0 && c.facts.disease_finding == false) return blocks(rule, "no written finding");
  if (*asked > 0.0 && !c.facts.disease_finding) return doubtful(rule, "not known here");
  return settle(rule, c.facts.day);
}

Verdict judge_sample(const Rule& rule, const Case& c) {
  const Limits l = limits_of(c.place);
  if (!l.sample_shares.contains(rule.of)) return doubtful(rule, not_understood);
  bool all_sampled = true;
  for (const auto& [disease, threshold] : l.sample_shares) {
    const Sample* s = sample_of(c.facts, disease);
    if (s != nullptr && s->share >= threshold - slack) return settle(rule, c.facts.day);
    all_sampled = all_sampled && s != nullptr;
  }
  const Sample* own = sample_of(c.facts, rule.of);
  if (own == nullptr) return doubtful(rule, "no sample of the field is entered");
  const std::string found = "found " + in_units_of(rule, Measure::share, own->share);
  return all_sampled ? blocks(rule, found) : doubtful(rule, found + "; another disease is not sampled");
}

Verdict judge_day_class(const Rule& rule, const Case& c) {
  const auto asked = number_of(rule, Measure::yes_no);
  if (!asked) return doubtful(rule, not_understood);
  if (*asked > 0.0 && c.facts.called == false)
    return blocks(rule, iso(c.facts.day) + " is entered as a day without a call");
  Verdict v = settle(rule, c.facts.day);
  if (*asked > 0.0 && !c.facts.called) v = with_note(std::move(v), "the class of the day is not entered");
  return v;
}

Verdict judge_ignition(const Rule& rule, const Case& c) {
  const auto manners = list_of(rule, Measure::list);
  if (!manners) return doubtful(rule, not_understood);
  if (c.facts.ignition && std::count(manners->begin(), manners->end(), *c.facts.ignition) == 0)
    return blocks(rule, "lighting planned: " + in_marks(*c.facts.ignition));
  return settle(rule, c.facts.day);
}

Verdict judge_drying(const Rule& rule, const Case& c) {
  const auto wanted = number_of(rule, Measure::days);
  if (!wanted) return doubtful(rule, not_understood);
  if (test_stands_in(c)) return settle(rule, c.facts.day);
  if (!c.facts.days_since_cut) return doubtful(rule, "not known here");
  if (*c.facts.days_since_cut < *wanted - slack) return blocks(rule, since_the_cut(*c.facts.days_since_cut));
  return settle(rule, c.facts.day);
}

/// Days since the last rain that starts the drying count anew, held against the drying days of the lay.
Verdict judge_rain(const Rule& rule, const Case& c) {
  const Limits l = limits_of(c.place);
  if (!l.rain_reset_mm) return doubtful(rule, not_understood);
  if (test_stands_in(c)) return settle(rule, c.facts.day);
  const std::optional<int> wanted = c.facts.straw_in_windrow ? l.dry_days_windrow : l.dry_days_spread;
  if (wanted && c.facts.days_since_rain_reset && *c.facts.days_since_rain_reset < *wanted)
    return blocks(rule,
                  fmt::format("{} days since such rain, {} wanted", *c.facts.days_since_rain_reset, *wanted));
  if (wanted && !c.facts.days_since_rain_reset) return doubtful(rule, "not known here");
  return settle(rule, c.facts.day);
}

}  // namespace aftercut::burn
