#pragma once
// What a grower changes before planning again, as values: a scenario is a named list of them, kept as
// `scenarios/NAME.json` in the farm folder. Reading a farm with a scenario leaves farm.json as it is.

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/result.hpp"
#include "aftercut/farm/setting.hpp"

namespace aftercut::farm {

struct Farm;

/// The field takes this method.
struct FixMethod {
  FieldId field;
  MethodId method;
  friend bool operator==(const FixMethod&, const FixMethod&) = default;
};
/// The field does not take this method.
struct BarMethod {
  FieldId field;
  MethodId method;
  std::string why;
  friend bool operator==(const BarMethod&, const BarMethod&) = default;
};
struct MoveHarvest {
  FieldId field;
  Date day;
  friend bool operator==(const MoveHarvest&, const MoveHarvest&) = default;
};
/// No field: the planting date of the season, and every field's own by as many days.
struct MovePlanting {
  std::optional<FieldId> field;
  Date day;
  friend bool operator==(const MovePlanting&, const MovePlanting&) = default;
};
/// `what`: one of price_names(); `price` as farm.json writes it, "40 USD/t".
struct SetPrice {
  std::string what, price;
  friend bool operator==(const SetPrice&, const SetPrice&) = default;
};
/// A tractor, an implement or a person is not there from one day to another, both included.
struct OutOfWork {
  std::string who;
  Date from, to;
  friend bool operator==(const OutOfWork&, const OutOfWork&) = default;
};
/// No field: the chance wanted on every field that has none of its own.
struct WantChance {
  std::optional<FieldId> field;
  double chance = 0.0;
  friend bool operator==(const WantChance&, const WantChance&) = default;
};
using Change =
    std::variant<FixMethod, BarMethod, MoveHarvest, MovePlanting, SetPrice, OutOfWork, WantChance, Setting>;

struct Scenario {
  std::string name;  ///< what people call it
  std::vector<Change> changes;
  friend bool operator==(const Scenario&, const Scenario&) = default;
};

/// The fields of both are the same, in the same order: no change takes one away or adds one.
bool same_fields(const Farm& a, const Farm& b);

/// The prices that a change can name: keys of farm.json's `prices`, and `canal_water`.
const std::vector<std::string>& price_names();

/// docs/schema/scenario.schema.json. `file` is how issues call the text.
Result<Scenario> read_scenario(const std::string& text, const std::string& file);
/// Read back, it is the same scenario.
std::string scenario_text(const Scenario& scenario);

/// "scenarios/NAME.json" in the folder. A name that is no file name (letters, digits, `-`, `_`, at most 60)
/// is an issue.
Result<std::filesystem::path> scenario_file(const std::filesystem::path& folder, const std::string& name);
/// The names of the folder's scenarios, in order; none: no such folder.
std::vector<std::string> scenario_names(const std::filesystem::path& folder);

}  // namespace aftercut::farm
