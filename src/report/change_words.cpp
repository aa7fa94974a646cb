#include "aftercut/report/change_words.hpp"

#include <algorithm>
#include <cmath>

#include "parts.hpp"

namespace aftercut::report {
namespace {

template <class T>
std::string name_in(const std::vector<T>& all, const std::string& id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& x) { return x.id.value == id; });
  return found == all.end() || found->name.empty() ? id : found->name;
}

std::string machine_or_person(const farm::Farm& farm, const std::string& id) {
  std::string name = name_in(farm.tractors, id);
  if (name == id) name = name_in(farm.implements, id);
  return name == id ? name_in(farm.operators, id) : name;
}

std::string plain_price(std::string what) {
  std::ranges::replace(what, '_', ' ');
  return what;
}

std::string asked_chance(double chance) {
  const double in_hundred = 100.0 * chance;
  const bool tenths = std::abs(in_hundred - 10.0 * std::round(in_hundred / 10.0)) < 1e-9;
  return tenths ? chance_words(chance) : fmt::format("{:g} years in 100", rounded(in_hundred, 1));
}

struct Words {
  const farm::Farm* farm;
  [[nodiscard]] std::string method(const MethodId& id) const { return name_in(farm->book.recipes, id.value); }

  std::string operator()(const farm::FixMethod& c) const {
    return fmt::format("{}: “{}” and nothing else", c.field.value, method(c.method));
  }
  std::string operator()(const farm::BarMethod& c) const {
    return fmt::format("{}: not “{}”{}", c.field.value, method(c.method), c.why.empty() ? "" : ", " + c.why);
  }
  std::string operator()(const farm::MoveHarvest& c) const {
    return fmt::format("{}: cut on {}", c.field.value, short_date(c.day));
  }
  std::string operator()(const farm::MovePlanting& c) const {
    if (c.field) return fmt::format("{}: planting on {}", c.field->value, short_date(c.day));
    return fmt::format("planting from {} on, every field moved alike", short_date(c.day));
  }
  std::string operator()(const farm::SetPrice& c) const {
    return fmt::format("{} at {}", plain_price(c.what), c.price);
  }
  std::string operator()(const farm::OutOfWork& c) const {
    return fmt::format("{} not there {} to {}", machine_or_person(*farm, c.who), short_date(c.from),
                       short_date(c.to));
  }
  std::string operator()(const farm::WantChance& c) const {
    return fmt::format("{}ready by planting in {}", c.field ? c.field->value + ": " : std::string{},
                       asked_chance(c.chance));
  }
  std::string operator()(const farm::Setting& c) const { return fmt::format("{} = {}", c.path, c.value); }
};

}  // namespace

std::string change_words(const farm::Farm& farm, const farm::Change& change) {
  return std::visit(Words{&farm}, change);
}

std::string scenario_words(const farm::Farm& farm, const farm::Scenario& scenario) {
  std::string out;
  for (const farm::Change& c : scenario.changes) out += (out.empty() ? "" : "; ") + change_words(farm, c);
  return out.empty() ? "no change" : out;
}

}  // namespace aftercut::report
