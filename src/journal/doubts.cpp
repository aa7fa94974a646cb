#include "aftercut/journal/doubts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

#include "aftercut/core/customary.hpp"

namespace aftercut::journal {
namespace {

using farm::Doubt;

/// A pass as it was written down, whatever the field's area.
struct Pass {
  int operation = 0;
  double written_ha = 0.0;
  std::vector<int> entries;  ///< that tell an area
};

bool takes_bales_off(const method::Operation& op) { return op.implement == "bale_wagon"; }

std::optional<int> baling_in(const method::Book& book) {
  const auto at =
      std::ranges::find_if(book.operations, [](const auto& op) { return op.effect.bale_share > 0.0; });
  if (at == book.operations.end()) return std::nullopt;
  return static_cast<int>(at - book.operations.begin());
}

/// The methods that have the operation, if the owner has ruled out each of them on the field.
std::vector<std::string> ruled_out(const farm::Farm& farm, const farm::Field& field, int operation) {
  std::vector<std::string> methods;
  for (const method::Recipe& r : farm.book.recipes) {
    if (std::ranges::find(r.steps, operation, &method::Step::operation) == r.steps.end()) continue;
    const bool barred = std::ranges::any_of(field.not_allowed, [&](const farm::NotAllowed& n) {
      return n.method == r.id && n.why.starts_with("your word");
    });
    if (!barred) return {};
    methods.push_back(r.id.value);
  }
  return methods;
}

/// One field's work, entry after entry.
class FieldDoubts {
 public:
  FieldDoubts(const farm::Farm& farm, std::size_t field) : farm_{&farm}, field_{field} {}

  void add(int seq, const farm::WorkDone& w) {
    const method::Operation& op = farm_->book.operations[static_cast<std::size_t>(w.operation)];
    if (w.finishes || w.area_ha > 0.0) {
      note_ruled_out(seq, w.operation);
      if (takes_bales_off(op)) bales_.push_back(seq);
      baled_ = baled_ || op.effect.bale_share > 0.0;
    }
    if (op.effect.bale_share > 0.0) all_hauled_ = false;
    const bool none_lie = takes_bales_off(op) && all_hauled_ && w.area_ha > 0.0;
    if (w.bales_beyond || none_lie) all_.push_back({Doubt::What::bales_beyond, field_, w.operation, {seq}});
    std::optional<Pass>& pass = takes_bales_off(op) ? hauling_ : pass_;  // hauling goes on beside the baling
    if (pass && pass->operation != w.operation) end(pass);
    if (!pass) pass = Pass{w.operation, 0.0, {}};
    pass->written_ha += w.area_ha;
    if (w.area_ha > 0.0) pass->entries.push_back(seq);
    if (w.finishes || w.no_more) end(pass);
    if (takes_bales_off(op) && w.finishes) all_hauled_ = true;
  }

  void add_count(int seq) { bales_.push_back(seq); }

  std::vector<Doubt> all() && {
    end(pass_);
    end(hauling_);
    if (const auto baling = baling_in(farm_->book); baling && !baled_ && !bales_.empty())
      all_.push_back({Doubt::What::not_baled, field_, *baling, bales_});
    std::ranges::stable_sort(all_, {}, [](const Doubt& d) { return d.entries.front(); });
    return std::move(all_);
  }

 private:
  [[nodiscard]] const farm::Field& field() const { return farm_->fields[field_]; }
  [[nodiscard]] double area() const { return field().area.value(); }

  void end(std::optional<Pass>& pass) {
    if (pass && pass->written_ha > area() * (1.0 + farm::told_beyond_share))
      all_.push_back({Doubt::What::area_beyond, field_, pass->operation, pass->entries, pass->written_ha});
    pass.reset();
  }

  void note_ruled_out(int seq, int operation) {
    const auto told = std::ranges::find_if(
        all_, [&](const Doubt& d) { return d.what == Doubt::What::ruled_out && d.operation == operation; });
    if (told != all_.end()) {
      told->entries.push_back(seq);
      return;
    }
    auto methods = ruled_out(*farm_, field(), operation);
    if (!methods.empty())
      all_.push_back({Doubt::What::ruled_out, field_, operation, {seq}, 0.0, std::move(methods)});
  }

  const farm::Farm* farm_;
  std::size_t field_;
  std::optional<Pass> pass_, hauling_;
  std::vector<int> bales_;  // entries that count or haul them
  bool baled_ = false;
  bool all_hauled_ = false;  // that lay there, and none baled since
  std::vector<Doubt> all_;
};

std::string entry_words(const std::vector<int>& entries) {
  return fmt::format("{} {}", entries.size() == 1 ? "entry" : "entries", fmt::join(entries, ", "));
}

std::string area_words(const farm::Farm& farm, double ha) {
  const bool us = farm.units == farm::UnitSystem::us;
  return fmt::format("{:.4g} {}", us ? ha / ha_per_acre : ha, us ? "acres" : "ha");
}

}  // namespace

std::vector<Doubt> doubts_of(const farm::Problem& problem) {
  std::vector<Doubt> out;
  for (std::size_t f = 0; f < problem.farm.fields.size(); ++f) {
    FieldDoubts field{problem.farm, f};
    for (const farm::Happened& h : problem.so_far.events) {
      const auto* w = std::get_if<farm::WorkDone>(&h.what);
      const auto* counted = std::get_if<farm::BalesCounted>(&h.what);
      if (w != nullptr && w->field == f) field.add(h.seq, *w);
      if (counted != nullptr && counted->field == f) field.add_count(h.seq);
    }
    for (Doubt& d : std::move(field).all()) out.push_back(std::move(d));
  }
  return out;
}

std::string doubt_words(const farm::Farm& farm, const Doubt& d) {
  const farm::Field& field = farm.fields[d.field];
  const std::string& name = farm.book.operations[static_cast<std::size_t>(d.operation)].name;
  const std::string entries = entry_words(d.entries);
  switch (d.what) {
    case Doubt::What::area_beyond:
      return fmt::format(
          "{}: {} of {} written down on {} ({}): the pass counts as done; correct an entry if a figure is "
          "wrong",
          field.id.value, area_words(farm, d.written_ha), name, area_words(farm, field.area.value()),
          entries);
    case Doubt::What::ruled_out:
      return fmt::format(
          "{}: {} written down ({}), which only methods have that you ruled out there ({}): it "
          "counts as done; correct an entry, or what you said of the method, if one is wrong",
          field.id.value, name, entries, fmt::join(d.methods, ", "));
    case Doubt::What::not_baled:
      return fmt::format(
          "{}: bales counted or hauled ({}), but no baling is written down there: its straw is taken to lie "
          "there still; write the baling down, or correct the field",
          field.id.value, entries);
    case Doubt::What::bales_beyond:
      break;
  }
  return fmt::format(
      "{}: more bales hauled than lay there ({}): all count as hauled; correct a count, an area or the field "
      "if one is wrong",
      field.id.value, entries);
}

}  // namespace aftercut::journal
