#include "variation.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace aftercut::report {
namespace {

struct Share {
  double share;
  const char* words;
};
constexpr std::array<Share, 12> shares{{{0.05, "a twentieth"},
                                        {0.1, "a tenth"},
                                        {0.125, "an eighth"},
                                        {1.0 / 6.0, "a sixth"},
                                        {0.2, "a fifth"},
                                        {0.25, "a quarter"},
                                        {1.0 / 3.0, "a third"},
                                        {0.4, "two fifths"},
                                        {0.5, "half"},
                                        {0.6, "three fifths"},
                                        {2.0 / 3.0, "two thirds"},
                                        {0.75, "three quarters"}}};
constexpr double small_share = 0.035, large_share = 0.85;

std::string load_words(const farm::Farm& farm, double kg_per_ha) {
  return with_thousands(kg_per_ha * units_of(farm).mass_per_kg_ha);
}

}  // namespace

const farm::YieldPattern* pattern_of(const farm::Farm& farm, std::size_t field) {
  const auto& all = farm.yield_map.patterns;
  return field < all.size() && all[field] ? &*all[field] : nullptr;
}

std::string share_words(double share) {
  if (share < small_share) return "a small part";
  if (share > large_share) return "nearly all";
  return std::min_element(shares.begin(), shares.end(),
                          [share](const Share& a, const Share& b) {
                            return std::abs(a.share - share) < std::abs(b.share - share);
                          })
      ->words;
}

std::string variation_words(const farm::Farm& farm, std::size_t field) {
  const farm::YieldPattern* p = pattern_of(farm, field);
  if (p == nullptr) return "";
  const Units& u = units_of(farm);
  std::string text =
      fmt::format("Straw varies: four fifths of the field carry {} to {} {}.",
                  load_words(farm, p->p10_kg_per_ha), load_words(farm, p->p90_kg_per_ha), u.mass_per_area);
  if (p->zones.empty()) return text + " No large part of it stands out.";
  const double area = p->heavy_share * farm.fields.at(field).area.value() * u.area_per_ha;
  std::string share = share_words(p->heavy_share);
  share.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(share.front())));
  return text + fmt::format(
                    " {} of it ({:.1f} {}) carries over {} {}, {} on the mean: where the straw is "
                    "worked in, chop and disk twice there.",
                    share, area, u.area, load_words(farm, p->heavy_from_kg_per_ha), u.mass_per_area,
                    load_words(farm, p->heavy_kg_per_ha));
}

json variation_json(const farm::Farm& farm, std::size_t field) {
  const farm::YieldPattern* p = pattern_of(farm, field);
  if (p == nullptr) return nullptr;
  const double area = farm.fields.at(field).area.value();
  return {{"p10_kg_per_ha", rounded(p->p10_kg_per_ha, 1)},
          {"p90_kg_per_ha", rounded(p->p90_kg_per_ha, 1)},
          {"cv_percent", rounded(100.0 * p->cv, 1)},
          {"heavy_from_kg_per_ha", rounded(p->heavy_from_kg_per_ha, 1)},
          {"heavy_kg_per_ha", rounded(p->heavy_kg_per_ha, 1)},
          {"heavy_share", rounded(p->heavy_share, 4)},
          {"heavy_area_ha", rounded(p->heavy_share * area, 3)},
          {"words", variation_words(farm, field)}};
}

}  // namespace aftercut::report
