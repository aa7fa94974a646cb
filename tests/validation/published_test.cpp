// Each published field result beside the middle of the real winters.

#include <fmt/format.h>

#include <cmath>

#include "aftercut/straw/load.hpp"
#include "catch2/catch.hpp"
#include "left.hpp"
#include "tables.hpp"
#include "tied_up.hpp"

using namespace aftercut;
using namespace aftercut::validation;

namespace {

struct Row {
  std::string result, source;
  double measured = 0.0, modelled = 0.0;
  int decimals = 2;
  const char* used = "check";
};

std::vector<std::string> cells_of(const Row& r) {
  return {r.result,
          r.source,
          fmt::format("{:.{}f}", r.measured, r.decimals),
          fmt::format("{:.{}f}", r.modelled, r.decimals),
          fmt::format("{:+.0f} %", 100.0 * (r.modelled / r.measured - 1.0)),
          r.used};
}

/// The middle winter of what `get` makes of each.
template <class Get>
double middle(Get get) {
  std::vector<double> all;
  for (const Left& w : left_by_winter()) all.push_back(get(w));
  return at_share(all, 0.5);
}

/// How many times more flooded straw is lost from 1 to 18 February where ducks feed, in the middle winter.
double duck_loss(bool rolled) {
  std::vector<double> times;
  const farm::Farm farm = one_field(7000.0);
  farm::Farm with_ducks = farm;
  with_ducks.decay.waterfowl_loose = straw::duck_loss_loose;
  with_ducks.decay.waterfowl_pressed = straw::duck_loss_pressed;
  Case held{.name = "held", .work = {}, .hold = Hold{{11, 1}, {3, 1}}};
  if (rolled) held.work = {{{11, 4}, "cage_roll"}};
  for (const auto& year : davis()->winters.years) {
    season::YearDrivers drivers = season::drivers_of(year, farm);
    season::FieldYear quiet = live(farm, drivers, held, {2, 1}).end;
    const auto lost_by_the_18th = [&](season::FieldYear field) {
      const double before = field.pools().total();
      while (field.day() < farm.season.day({2, 19})) field.end_day(field.fill_need_mm(100.0));
      return before - field.pools().total();
    };
    const double without = lost_by_the_18th(quiet);
    drivers.rates.decay = straw::rates_of(with_ducks.decay);
    times.push_back(lost_by_the_18th(quiet) / without);
  }
  return at_share(times, 0.5);
}

std::vector<Row> rows() {
  const char *disked = "chopped and disked twice", *flooded = "chopped, disked twice, flooded";
  std::vector<Row> all{
      {"straw left, disked and flooded (share; Mississippi, 9.9 t/ha)", "Manley2005 (read)", 0.323,
       middle([&](const Left& w) { return w.share.at(flooded); })},
      {"straw left, flooded over not flooded", "Linquist2006 (read)", 0.91,
       middle([&](const Left& w) { return w.share.at(flooded) / w.share.at(disked); })},
      {"straw taken off by baling (share)", "Linquist2006 (read)", 0.40,
       middle([](const Left& w) { return w.baled_share; }), 2, "choose"},
      {"loss of flooded straw with many ducks over without, unrolled", "Bird2000 (read)", 1.78,
       duck_loss(false), 2, "choose"},
      {"the same, rolled in wet", "Bird2000 (read)", 1.18, duck_loss(true), 2, "choose"},
      {"straw of a crop of 9.2 t/ha, harvest index 0.53 [t/ha]", "Linquist2006 (read)", 7.0,
       straw::straw_load(straw::dry_grain(KgPerHa{9200.0}, Fraction{0.14}), Fraction{0.53}).value() / 1000.0,
       2, "choose"}};
  for (const auto& [cut_cm, share] : {std::pair{5.0, 0.215}, {10.1, 0.285}, {28.7, 0.535}})
    all.push_back({fmt::format("share of straw in the stubble, cut at {} cm (middle of the range)", cut_cm),
                   "Lu2017 (read)", share, straw::stubble_share(cut_cm).value(), 3, "choose"});
  for (const auto& row : test::tied_up_measured)
    all.push_back({row.name, "BrownDickey1970 (read)", row.measured_kg_per_ha,
                   test::most_tied_up(row.straw_kg_per_ha), 1, "choose"});
  return all;
}

}  // namespace

TEST_CASE("published results of straw beside the middle winter", "[published]") {
  if (no_record()) return;
  Table table{"published results", {"result", "source", "measured", "modelled", "error", "used to"}, {}};
  for (const Row& row : rows()) {
    CAPTURE(row.result, row.modelled);
    CHECK(row.modelled == Catch::Detail::Approx(row.measured).epsilon(0.5));
    table.rows.push_back(cells_of(row));
  }
  CHECK(page_holds(table));
}
