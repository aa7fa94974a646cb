// Terms of hired outfits.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

/// Rising days with rising chances.
std::vector<machinery::ComesBy> read_comes(const Object& h) {
  std::vector<machinery::ComesBy> out;
  for (const Object& o : h.list("comes")) {
    const auto day = o.date("day");
    const auto chance = o.number("chance", {0.0, 1.0});
    if (!day || !chance) continue;
    if (!out.empty() && *day <= out.back().day)
      o.fault("day", iso(*day), "a day after " + iso(out.back().day), "list the days in order");
    if (!out.empty() && *chance < out.back().chance)
      o.fault("chance", fmt::format("{:g}", *chance),
              fmt::format("at least {:g}, the chance of the day before it", out.back().chance),
              "who has come by a day has come by every later one");
    out.push_back({*day, *chance});
  }
  return out;
}

machinery::Hire read_prices_of_hire(const Object& h, const std::string& currency) {
  machinery::Hire hire;
  hire.per_ha = Money{h.money("per_area", "ha", currency, {0.0, 1e5}).value_or(0.0)};
  hire.per_tonne = Money{h.money("per_mass", "t", currency, {0.0, 1e5}).value_or(0.0)};
  hire.per_hour = Money{h.money("per_hour", "h", currency, {0.0, 1e5}).value_or(0.0)};
  hire.per_bale = Money{h.money("per_bale", "", currency, {0.0, 1e5}).value_or(0.0)};
  hire.call_out = Money{h.money("call_out", "", currency, {0.0, 1e7}).value_or(0.0)};
  return hire;
}

void check_baler_terms(const Object& h, const std::string& kind) {
  if (kind == "baler") return;
  for (const char* key : {"per_bale", "rakes", "bales_off_by"})
    if (h.has(key)) h.fault(key, "given for a " + kind, "nothing: a term of balers", "take it out");
}

}  // namespace

std::optional<machinery::Hire> read_hire(const Object& o, const std::string& currency,
                                         const std::string& kind) {
  if (!o.has("hire")) return std::nullopt;
  const Object h = o.child("hire");
  machinery::Hire hire = read_prices_of_hire(h, currency);
  hire.windows = read_ranges(h, "windows");
  hire.brings_tractor = h.yes("brings_tractor").value_or(true);
  hire.brings_operator = h.yes("brings_operator").value_or(true);
  hire.least_area = Hectare{h.quantity("least_area", "ha", {0.0, 1e5}).value_or(0.0)};
  const auto below = h.word("below_least", {"stays_away", "charges_least"});
  if (below) hire.below_least = static_cast<machinery::BelowLeast>(*below);
  hire.rakes = h.word("rakes", {"farm", "outfit"}).value_or(0) == 1;
  for (const std::string& field : h.texts("order")) hire.order.push_back(FieldId{field});
  hire.bales_off_by = h.date("bales_off_by");
  hire.comes = read_comes(h);
  check_baler_terms(h, kind);
  return hire;
}

void check_hire_orders(const Object& top, const std::vector<Field>& fields) {
  std::vector<std::string> ids;
  for (const Field& f : fields) ids.push_back(f.id.value);
  for (const Object& o : top.list("implements")) {
    if (!o.has("hire")) continue;
    const Object h = o.child("hire");
    const std::vector<std::string> order = h.texts("order");
    for (std::size_t i = 0; i < order.size(); ++i) {
      const std::string key = fmt::format("order[{}]", i);
      if (std::find(ids.begin(), ids.end(), order[i]) == ids.end())
        h.fault(key, in_quotes(order[i]), "the id of a field", did_you_mean(order[i], ids, "correct the id"));
      else if (std::find(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(i), order[i]) !=
               order.begin() + static_cast<std::ptrdiff_t>(i))
        h.fault(key, in_quotes(order[i]) + " twice", "each field once", "take one of the two out");
    }
  }
}

}  // namespace aftercut::farm
