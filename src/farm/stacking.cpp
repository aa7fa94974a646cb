// Bales and the places where they are stacked.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

const std::vector<std::string> covers{"none", "half_open", "closed"};

std::string text_in(const geo::Feature& f, const std::string& column) {
  const auto at = f.values.find(column);
  return at == f.values.end() ? "" : at->second;
}

StackRules read_rules(const Object& o) {
  StackRules r;
  const auto metres = [&](const char* key, Metre otherwise, Range range) {
    return Metre{o.quantity(key, "m", range).value_or(otherwise.value())};
  };
  constexpr Range gap{0.0, 1000.0};
  r.from_stack = metres("from_stack", r.from_stack, gap);
  r.from_home = metres("from_home", r.from_home, gap);
  r.from_road = metres("from_road", r.from_road, gap);
  r.from_power_line = metres("from_power_line", r.from_power_line, gap);
  r.most_height = metres("most_height", r.most_height, {0.5, 12.0});
  r.most_block_m3 = o.quantity("most_block", "m3", {1.0, 1e6}).value_or(r.most_block_m3);
  r.detour = o.number("detour", {1.0, 5.0}).value_or(r.detour);
  const auto share = [&](const char* key, double otherwise) {
    return o.quantity(key, "%", {0.0, 100.0}).value_or(100.0 * otherwise) / 100.0;
  };
  r.loss_uncovered = share("loss_uncovered", r.loss_uncovered);
  r.loss_half_open = share("loss_half_open", r.loss_half_open);
  r.loss_closed = share("loss_closed", r.loss_closed);
  return r;
}

/// A whole number of bales; an issue for anything else, nothing for an empty cell.
std::optional<int> bales_in(const Object& part, const geo::Layer& layer, const geo::Feature& f,
                            const std::string& column) {
  const std::string text = text_in(f, column);
  if (text.empty()) return std::nullopt;
  const double x = std::strtod(text.c_str(), nullptr);
  if (x >= 1.0 && x <= 1e6 && x == std::floor(x)) return static_cast<int>(x);
  part.faults().add({layer.file, fmt::format("feature {}, column {}", f.row, column), in_quotes(text),
                     "a whole number of bales, 1 to 1000000", "correct it or leave it empty"});
  return std::nullopt;
}

StackPlace read_place(const Object& part, const geo::Layer& layer, const geo::Feature& f) {
  const Object columns = part.child("columns");
  const auto column = [&](const char* what) { return columns.text_or(what, what); };
  StackPlace place;
  place.id = text_in(f, column("id"));
  place.shape = f.shape;
  place.most_bales = bales_in(part, layer, f, column("bales"));
  if (place.id.empty())
    part.faults().add({layer.file, fmt::format("feature {}, column {}", f.row, column("id")), "nothing",
                       "the stack place's own id", "write one"});
  const std::string cover = text_in(f, column("cover"));
  if (cover.empty()) return place;
  const auto at = std::find(covers.begin(), covers.end(), cover);
  if (at == covers.end())
    part.faults().add({layer.file, fmt::format("feature {}, column {}", f.row, column("cover")),
                       in_quotes(cover), "one of " + listed(covers),
                       did_you_mean(cover, covers, "write one of these words")});
  else
    place.cover = static_cast<StackCover>(at - covers.begin());
  return place;
}

}  // namespace

machinery::BaleSettings read_bales(const Object& top) {
  const Object o = top.child("bales");
  machinery::BaleSettings b;
  const auto metres = [&](const char* key, Metre otherwise) {
    return Metre{o.quantity(key, "m", {0.2, 4.0}).value_or(otherwise.value())};
  };
  b.length = metres("length", b.length);
  b.width = metres("width", b.width);
  b.height = metres("height", b.height);
  b.mass = Kilogram{o.quantity("mass", "kg", {5.0, 2000.0}).value_or(b.mass.value())};
  b.per_load = o.whole("per_load", 1, 1000).value_or(b.per_load);
  b.strands = o.whole("strands", 1, 12).value_or(b.strands);
  b.storage_loss = o.quantity("storage_loss", "%", {0.0, 100.0}).value_or(100.0 * b.storage_loss) / 100.0;
  const double density = machinery::bale_density_kg_m3(b);
  if (density < 40.0 || density > 400.0)
    o.fault("mass", fmt::format("{:.0f} kg/m3 with this size", density), "40 to 400 kg/m3",
            "correct the mass or the size of a bale");
  return b;
}

ReadStacking read_stacking(const Object& top, const Folder& folder) {
  ReadStacking out;
  if (!top.has("stacks")) return out;
  const Object part = top.child("stacks");
  out.stacking.rules = read_rules(part);
  if (!part.has("file")) return out;
  const auto layer = open_layer(part, folder);
  if (!layer) return out;
  out.input = Farm::Input{layer->file, sha256_hex(canonical_rows(*layer))};
  std::set<std::string> seen;
  for (const geo::Feature& f : layer->features) {
    StackPlace place = read_place(part, *layer, f);
    if (!place.id.empty() && !seen.insert(place.id).second)
      part.faults().add({layer->file, fmt::format("feature {}", f.row), in_quotes(place.id) + " twice",
                         "each id once", "give one of the two another id"});
    out.stacking.places.push_back(std::move(place));
  }
  std::stable_sort(out.stacking.places.begin(), out.stacking.places.end(),
                   [](const auto& a, const auto& b) { return natural_less(a.id, b.id); });
  return out;
}

}  // namespace aftercut::farm
