#include "aftercut/report/replanned.hpp"

#include <algorithm>
#include <cmath>

#include "beside.hpp"

namespace aftercut::report {
namespace {

constexpr double told_shift = 0.1;  // a chance that moves by a year in ten is told

std::string amount(const farm::Farm& farm, double cents) {
  return fmt::format("{} {}", with_thousands(std::abs(cents) / 100.0), farm.currency);
}

std::string against(const farm::Farm& farm, std::int64_t cents) {
  if (std::abs(cents) < 50) return "the same as before";
  return amount(farm, static_cast<double>(cents)) + (cents > 0 ? " more" : " less") + " than before";
}

std::string cost_sentence(const ReplannedShown& s) {
  const plan::Replanned& r = *s.replanned;
  return fmt::format("Planned again, a year costs {}: {}.",
                     amount(*s.after, static_cast<double>(r.after.cost_cents)),
                     against(*s.after, r.after.cost_cents - r.before.cost_cents));
}

std::string fields_words(int n) { return n == 1 ? std::string{"1 field"} : fmt::format("{} fields", n); }

/// A field whose fixed method is not open has none: that comes before all figures.
std::string no_method_sentence(const ReplannedShown& s, const plan::NoMethod& n) {
  const std::string& id = s.after->fields[static_cast<std::size_t>(n.field)].id.value;
  if (n.fixed == plan::none)
    return fmt::format("{}: no method is open any more; the field is left as it is.", id);
  std::string why;
  for (const std::string& w : n.why_not) why += (why.empty() ? "" : "; ") + w;
  return fmt::format("{}: “{}” cannot be done there ({}), so nothing is planned on it.", id,
                     s.after->book.recipes[static_cast<std::size_t>(n.fixed)].name, why);
}

std::string kept_sentence(const ReplannedShown& s) {
  const plan::Replanned& r = *s.replanned;
  const std::int64_t saves = r.kept.cost_cents - r.after.cost_cents;
  const std::string kept = amount(*s.after, static_cast<double>(r.kept.cost_cents));
  if (r.kept.below_wanted > r.after.below_wanted)
    return fmt::format("The plan kept as it was would cost {} and leave {} below the wanted chance.", kept,
                       fields_words(r.kept.below_wanted));
  if (std::abs(saves) < 50) return fmt::format("The plan kept as it was would cost the same, {}.", kept);
  const std::string by = amount(*s.after, static_cast<double>(saves));
  if (saves > 0)
    return fmt::format("The plan kept as it was would cost {}: planning again saves {}.", kept, by);
  return fmt::format(
      "The plan kept as it was would cost {}: planning again costs {} more, for seedbeds that are surer in "
      "the "
      "years that it is searched on.",
      kept, by);
}

std::string methods_sentence(const ReplannedShown& s) {
  const plan::Replanned& r = *s.replanned;
  if (r.changes.empty()) return "No field changes its method.";
  return fmt::format("{} {} method: {}.", r.changes.size(),
                     r.changes.size() == 1 ? "field changes its" : "fields change their",
                     change_words(*s.before, r.changes));
}

std::string chance_list(const ReplannedShown& s, bool surer) {
  std::string out;
  for (const plan::ChanceShift& c : s.replanned->chances) {
    const double shift = c.after - c.before;
    if ((surer ? shift : -shift) + 1e-9 < told_shift) continue;
    const std::string& id = s.after->fields[static_cast<std::size_t>(c.field)].id.value;
    out += fmt::format("{}{} {}, before {}", out.empty() ? "" : "; ", id, chance_words(c.after),
                       chance_words(c.before));
  }
  return out;
}

std::string wish_sentence(const ReplannedShown& s) {
  const int before = s.replanned->before.below_wanted, after = s.replanned->after.below_wanted;
  if (after == 0 && before == 0) return "";
  if (after == 0)
    return fmt::format("Every field now has its wanted chance; before, {} did not.", fields_words(before));
  return fmt::format("{} {} below the wanted chance; before, {}.", fields_words(after),
                     after == 1 ? "stays" : "stay", before == 0 ? "none" : fmt::format("{}", before));
}

json chances_json(const ReplannedShown& s) {
  json out = json::array();
  for (const plan::ChanceShift& c : s.replanned->chances)
    out.push_back({{"field", s.after->fields[static_cast<std::size_t>(c.field)].id.value},
                   {"before", rounded(c.before, 4)},
                   {"kept", rounded(c.kept, 4)},
                   {"after", rounded(c.after, 4)}});
  return out;
}

}  // namespace

std::vector<std::string> replanned_words(const ReplannedShown& s) {
  std::vector<std::string> words;
  for (const plan::NoMethod& n : s.replanned->no_method) words.push_back(no_method_sentence(s, n));
  for (const auto& sentence : {cost_sentence(s), kept_sentence(s), methods_sentence(s)})
    words.push_back(sentence);
  if (const std::string less = chance_list(s, false); !less.empty())
    words.push_back("Less often ready by planting: " + less + ".");
  if (const std::string more = chance_list(s, true); !more.empty())
    words.push_back("More often ready by planting: " + more + ".");
  if (const std::string wish = wish_sentence(s); !wish.empty()) words.push_back(wish);
  return words;
}

std::string replanned_json(const ReplannedShown& s) {
  const plan::Replanned& r = *s.replanned;
  return json{{"currency", s.after->currency},
              {"before", figures_json(r.before, r.before)},
              {"kept", figures_json(r.kept, r.before)},
              {"after", figures_json(r.after, r.before)},
              {"changes", changes_json(*s.before, r.changes)},
              {"replaced", changes_json(*s.before, r.replaced)},
              {"chances", chances_json(s)},
              {"words", replanned_words(s)}}
      .dump();
}

}  // namespace aftercut::report
