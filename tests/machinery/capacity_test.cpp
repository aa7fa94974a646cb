// Rate, draft, power and fuel against read worked examples, and SI against US units.
#include "aftercut/machinery/capacity.hpp"

#include <cmath>

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::machinery;
using test::Kind;

namespace {

// US units in, US units out, through the SI functions. Exact by definition: 0.3048 m, 1.609344 km,
// 0.40468564224 ha.
double acres_per_hour(double feet, double mph, double efficiency) {
  return field_capacity(KmPerHour{mph * 1.609344}, Metre{feet * 0.3048}, Fraction{efficiency}).value() /
         0.40468564224;
}

constexpr double kw_per_hp = 0.745699872;
constexpr double newton_per_lbf = 4.4482216153;

DraftInput tool(double a, double b, double c, double f, double w, double t, double s) {
  return {a, b, c, f, w, t, KmPerHour{s}};
}

double newton(const DraftInput& in) { return draft(in).value() * 1000.0; }

/// US table row: D lbf = F (A + B S) W T, S mph, W ft or tools, T inch. Independent of the SI code.
double us_draft_newton(double a, double b, double w, double inches, double mph) {
  return (a + b * mph) * w * inches * newton_per_lbf;
}

Implement make(const std::string& kind, double width_m, double speed, double depth_cm, int tools,
               double efficiency) {
  Implement i;
  i.kind = kind;
  i.width = Metre{width_m};
  i.speed = KmPerHour{speed};
  i.depth_cm = depth_cm;
  i.tools = tools;
  i.field_efficiency = Fraction{efficiency};
  return i;
}

}  // namespace

TEST_CASE("field capacity of published examples", "[published]") {
  // Tolerance: half the last printed digit (the source rounds 8.25 too: 0.01 %).
  test::check({
      {"40 ft, 6 mph, 70 % [ac/h]", "PM696", Kind::published, 20.4, acres_per_hour(40, 6, 0.70), 0.05},
      {"60 ft, 12 mph, 68 % [ac/h]", "A3-24", Kind::published, 59.3, acres_per_hour(60, 12, 0.68), 0.06},
      {"80 ft, 6 mph, 68 % [ac/h]", "A3-24", Kind::published, 39.6, acres_per_hour(80, 6, 0.68), 0.05},
      {"30 ft, 6 mph, 60 % [ac/h]", "A3-24", Kind::published, 13.1, acres_per_hour(30, 6, 0.60), 0.05},
      {"plow 7 x 16 in, 5 mph, 85 % [ac/h]", "PM696", Kind::published, 4.8,
       acres_per_hour(112.0 / 12, 5, 0.85), 0.05},
      {"chisel 11 ft 3, 5.5 mph, 85 % [ac/h]", "PM696", Kind::published, 6.4,
       acres_per_hour(11.25, 5.5, 0.85), 0.05},
      {"chisel 13 ft 9, 5.5 mph, 85 % [ac/h]", "PM696", Kind::published, 7.8,
       acres_per_hour(13.75, 5.5, 0.85), 0.05},
      {"chisel 16 ft 3, 5.5 mph, 83 % [ac/h]", "PM696", Kind::published, 9.0,
       acres_per_hour(16.25, 5.5, 0.83), 0.05},
      {"40 ft, 6 mph, 70 % [ha/h]", "PM696, converted", Kind::derived, 8.241,
       acres_per_hour(40, 6, 0.70) * 0.40468564224, 0.01},
  });
}

TEST_CASE("SI and US capacity agree with the rounded 8.25", "[derived]") {
  test::check({
      {"26 ft, 5 mph, 80 %", "AEN73", Kind::derived, 5.0 * 26 * 0.80 / 8.25, acres_per_hour(26, 5, 0.80),
       1e-3 * 12.6},
      {"15 ft, 4.5 mph, 72 %", "AEN73", Kind::derived, 4.5 * 15 * 0.72 / 8.25, acres_per_hour(15, 4.5, 0.72),
       1e-3 * 5.9},
  });
}

TEST_CASE("throughput caps the rate", "[identity]") {
  const HaPerHour rate{5.6};
  CHECK(capped_by_throughput(rate, std::nullopt, KgPerHa{5000.0}) == rate);
  CHECK(capped_by_throughput(rate, TonnePerHour{13.0}, KgPerHa{5000.0}).value() ==
        Approx(2.6));  // 13 t/h over 5 t/ha
  CHECK(capped_by_throughput(rate, TonnePerHour{130.0}, KgPerHa{5000.0}) == rate);
  CHECK(capped_by_throughput(rate, TonnePerHour{13.0}, KgPerHa{0.0}) == rate);
  // 10 ha of 5 t/ha at 13 t/h take 3.846 h.
  CHECK(10.0 / capped_by_throughput(rate, TonnePerHour{13.0}, KgPerHa{5000.0}).value() ==
        Approx(3.846).margin(5e-4));
}

TEST_CASE("draft of the textbook chisel and of recalled rows", "[published]") {
  test::check({
      {"chisel 45 tools, 15 cm, 10 km/h, F 0.70 [N]", "ChiselExample", Kind::published, 68512.5,
       newton(tool(91, 5.4, 0, 0.70, 45, 15, 10)), 0.05},
      {"the same, F 0.85 [N]", "ChiselExample, other F", Kind::derived, 83193.75,
       newton(tool(91, 5.4, 0, 0.85, 45, 15, 10)), 0.005},
      {"the same, drawbar power [kW]", "ChiselExample", Kind::derived, 190.3,
       drawbar_power(KiloNewton{68.5125}, KmPerHour{10}).value(), 0.05},
      {"tandem disk 6 m, 15 cm, 8 km/h, fine [N]", "D497.7 table 1", Kind::recalled, 39330,
       newton(tool(309, 16, 0, 1, 6, 15, 8)), 0.5},
      {"tandem disk 4 m, 10 cm, 8 km/h, medium [N]", "D497.7 table 1", Kind::recalled, 15382.4,
       newton(tool(309, 16, 0, 0.88, 4, 10, 8)), 0.05},
      {"tandem secondary 6 m, 10 cm, 9 km/h [N]", "D497.7 table 1", Kind::recalled, 19008,
       newton(tool(216, 11.2, 0, 1, 6, 10, 9)), 0.5},
      {"cultivator 30 tools, 8 cm, 10 km/h [N]", "D497.7 table 1", Kind::recalled, 12240,
       newton(tool(32, 1.9, 0, 1, 30, 8, 10)), 0.5},
      {"roller packer 7.5 m [N]", "D497.7 table 1", Kind::recalled, 4500,
       newton(tool(600, 0, 0, 1, 7.5, 1, 8)), 0.5},
      {"land plane 4.5 m [N]", "D497.7 table 1", Kind::recalled, 36000,
       newton(tool(8000, 0, 0, 1, 4.5, 1, 7)), 0.5},
      {"land plane 4.5 m at 7 km/h [kW]", "D497.7 table 1", Kind::recalled, 70.0,
       drawbar_power(KiloNewton{36}, KmPerHour{7}).value(), 0.05},
      {"speed squared: plow 2 m, 20 cm, 6 km/h [N]", "D497.7 table 1", Kind::derived,
       (652 + 5.1 * 36) * 2 * 20, newton(tool(652, 0, 5.1, 1, 2, 20, 6)), 1e-6},
  });
}

TEST_CASE("SI draft rows agree with their US twins within 3 %", "[recalled]") {
  const auto twin = [](const char* name, double a, double b, double us_a, double us_b, bool by_tools) {
    const double mph = 5.0, inches = 6.0, w = 10.0;
    const double us = us_draft_newton(us_a, us_b, w, inches, mph);
    const double si = newton(tool(a, b, 0, 1, by_tools ? w : w * 0.3048, inches * 2.54, mph * 1.609344));
    return test::Row{name, "D497.7 table 1, SI and US columns", Kind::recalled, us, si, 0.03 * us};
  };
  test::check({twin("tandem disk, primary", 309, 16.0, 53, 4.6, false),
               twin("tandem disk, secondary", 216, 11.2, 37, 3.2, false),
               twin("offset disk, primary", 364, 18.8, 62, 5.4, false),
               twin("chisel, straight point", 91, 5.4, 52, 4.9, true),
               twin("chisel, twisted shovel", 123, 7.3, 70, 6.7, true),
               twin("cultivator, primary", 46, 2.8, 26, 2.5, true)});
  // 8000 N/m is 548 lbf/ft, table 550; 10 kW/m is 4.09 hp/ft, table 4.1.
  test::check(
      {{"land plane [lbf/ft]", "D497.7 table 1", Kind::recalled, 550, 8000 * 0.3048 / newton_per_lbf, 2.0},
       {"flail [hp/ft]", "D497.7 table 2", Kind::recalled, 4.1,
        row_of("chopper")->rotary_b_kw_per_m * 0.3048 / kw_per_hp, 0.05}});
}

TEST_CASE("power at the PTO", "[published]") {
  // 24 ft at 200 lbf/ft and 6 mph, x 1.5 for soil.
  const KiloNewton pull{24 * 200 * newton_per_lbf / 1000.0};
  const double hp = drawbar_power(pull, KmPerHour{6 * 1.609344}).value() * 1.5 / kw_per_hp;
  test::check({{"tandem disk 24 ft, 6 mph [PTO hp]", "A3-26", Kind::published, 115, hp, 0.5},
               {"the same [kW]", "A3-26, converted", Kind::derived, 85.9, hp * kw_per_hp, 0.05},
               {"2WD firm", "ArizonaMachinery", Kind::published, 0.72,
                traction_ratio(Drive::two_wheel, Ground::firm).value(), 1e-9},
               {"2WD soft", "ArizonaMachinery", Kind::published, 0.55,
                traction_ratio(Drive::two_wheel, Ground::soft).value(), 1e-9},
               {"front assist tilled", "ArizonaMachinery", Kind::published, 0.73,
                traction_ratio(Drive::front_assist, Ground::tilled).value(), 1e-9},
               {"front assist soft", "ArizonaMachinery", Kind::published, 0.65,
                traction_ratio(Drive::front_assist, Ground::soft).value(), 1e-9},
               {"4WD tilled", "ArizonaMachinery", Kind::published, 0.75,
                traction_ratio(Drive::four_wheel, Ground::tilled).value(), 1e-9},
               {"track soft", "ArizonaMachinery", Kind::published, 0.78,
                traction_ratio(Drive::track, Ground::soft).value(), 1e-9}});
  // Softer ground never helps; more driven wheels never harm. Tracks on tilled ground are the one exception
  // of the source.
  for (const Drive d : {Drive::two_wheel, Drive::front_assist, Drive::four_wheel}) {
    CHECK(traction_ratio(d, Ground::firm) > traction_ratio(d, Ground::tilled));
    CHECK(traction_ratio(d, Ground::tilled) > traction_ratio(d, Ground::soft));
  }
  CHECK(traction_ratio(Drive::two_wheel, Ground::soft) < traction_ratio(Drive::track, Ground::soft));
}

TEST_CASE("from disk to litres a hectare", "[recalled]") {
  const Implement disk = make("disk", 6.0, 8.0, 15.0, 0, 0.80);
  const KiloWatt used =
      power_needed(disk, Drive::front_assist, Ground::tilled, SoilGroup::fine, KgPerHa{0.0});
  const double rate = field_capacity(disk.speed, disk.width, disk.field_efficiency).value();
  test::check({{"power [kW]", "D497.7 with ArizonaMachinery", Kind::recalled, 119.73, used.value(), 0.005},
               {"rate [ha/h]", "EP496.3", Kind::recalled, 3.84, rate, 0.005},
               {"fuel on 150 kW [L/h]", "Grisso2004", Kind::recalled, 40.74,
                fuel_rate(used, KiloWatt{150}).value(), 0.005},
               {"fuel [L/ha]", "Grisso2004", Kind::recalled, 10.61,
                fuel_rate(used, KiloWatt{150}).value() / rate, 0.005},
               {"fuel by the older form [L/ha]", "D497.5", Kind::recalled, 12.89,
                specific_fuel_l_per_kwh(used.value() / 150) * used.value() / rate, 0.005}});
  // The stated ranges of draft (50 %) and fuel (35 %) take in the 4.21 and 5.14 L/ha of G1208 at its
  // shallower depth.
  Implement shallow = disk;
  shallow.depth_cm = 8.0;
  const KiloWatt light =
      power_needed(shallow, Drive::front_assist, Ground::firm, SoilGroup::medium, KgPerHa{0.0});
  const double most = fuel_rate(1.5 * light, KiloWatt{90}).value() / rate * 1.35;
  const double least = fuel_rate(0.5 * light, KiloWatt{90}).value() / rate * 0.65;
  CHECK(least < 4.21);
  CHECK(most > 5.14);
}

TEST_CASE("what an implement asks for", "[identity]") {
  const auto need = [](const Implement& i, double straw) {
    return power_needed(i, Drive::front_assist, Ground::tilled, SoilGroup::fine, KgPerHa{straw}).value();
  };
  // Chisel counts tools, not metres.
  CHECK(need(make("chisel", 6.0, 8.0, 15.0, 20, 0.85), 0) ==
        Approx((91 + 5.4 * 8) * 20 * 15 / 1000 * 8 / 3.6 / 0.73));
  CHECK(need(make("chisel", 6.0, 8.0, 15.0, 0, 0.85), 0) == 0.0);
  // Flail: by width; land plane and rollers: depth does not matter.
  CHECK(need(make("chopper", 6.0, 8.0, 0.0, 0, 0.8), 0) == Approx(60.0));
  CHECK(need(make("plane", 4.5, 7.0, 0.0, 0, 0.8), 0) == Approx(70.0 / 0.73));
  CHECK(need(make("plane", 4.5, 7.0, 20.0, 0, 0.8), 0) == need(make("plane", 4.5, 7.0, 0.0, 0, 0.8), 0));
  CHECK(need(make("torch", 10.0, 4.0, 0.0, 0, 0.7), 0) == 0.0);
  // Baler: rotary power grows with straw until the throughput caps the feed; 4 + 1.3 x 20 t/h.
  Implement baler = make("baler", 7.0, 8.0, 0.0, 0, 0.8);
  CHECK(need(baler, 6000) > need(baler, 3000));
  baler.throughput = TonnePerHour{20.0};
  const double pulled = 7.0 * 8.0 / 3.6 / 0.73;
  CHECK(need(baler, 6000) == Approx(30.0 + pulled));
  CHECK(need(baler, 9000) == Approx(30.0 + pulled));
  // Lighter soil asks for less; worse ground for more.
  const Implement disk = make("disk", 6.0, 8.0, 15.0, 0, 0.80);
  const auto on = [&](Ground g, SoilGroup s) {
    return power_needed(disk, Drive::front_assist, g, s, KgPerHa{0}).value();
  };
  CHECK(on(Ground::tilled, SoilGroup::coarse) < on(Ground::tilled, SoilGroup::medium));
  CHECK(on(Ground::tilled, SoilGroup::medium) < on(Ground::tilled, SoilGroup::fine));
  CHECK(on(Ground::soft, SoilGroup::fine) > on(Ground::tilled, SoilGroup::fine));
  CHECK_THROWS_AS(need(make("spaceship", 1, 1, 1, 1, 1), 0), InternalError);
}

TEST_CASE("rotary power", "[recalled]") {
  test::check({{"large baler at 20 t/h [kW]", "D497.7 table 2", Kind::recalled, 30.0,
                rotary_power(*row_of("baler"), Metre{7}, TonnePerHour{20}).value(), 1e-9},
               {"flail 6 m [kW]", "D497.7 table 2", Kind::recalled, 60.0,
                rotary_power(*row_of("chopper"), Metre{6}, TonnePerHour{0}).value(), 1e-9},
               {"rake 7 m [kW]", "D497.7 table 2", Kind::recalled, 2.8,
                rotary_power(*row_of("rake"), Metre{7}, TonnePerHour{0}).value(), 1e-9}});
}

TEST_CASE("fuel", "[published]") {
  // gal/(hp h) from the read US twin, by its own equation.
  const auto us = [](double x) { return 0.52 * x + 0.77 - 0.04 * std::sqrt(738 * x + 173); };
  constexpr double gal_hp_per_l_kw = kw_per_hp / 3.785411784;  // L/kWh -> gal/(hp h)
  test::check({
      {"average fuel 180 hp [gal/h]", "Grisso", Kind::published, 0.044 * 180,
       average_fuel(KiloWatt{180 * kw_per_hp}).value() / 3.785411784, 0.0005 * 180},
      {"average fuel 100 kW [L/h]", "Grisso", Kind::published, 22.3, average_fuel(KiloWatt{100}).value(),
       0.05},
      {"specific fuel X 0.2, US", "MSUfuel", Kind::derived, us(0.2),
       specific_fuel_l_per_kwh(0.2) * gal_hp_per_l_kw, 0.02 * us(0.2)},
      {"specific fuel X 0.4, US", "MSUfuel", Kind::derived, us(0.4),
       specific_fuel_l_per_kwh(0.4) * gal_hp_per_l_kw, 0.02 * us(0.4)},
      {"specific fuel X 0.5, US", "MSUfuel", Kind::derived, us(0.5),
       specific_fuel_l_per_kwh(0.5) * gal_hp_per_l_kw, 0.02 * us(0.5)},
      {"specific fuel X 0.8, US", "MSUfuel", Kind::derived, us(0.8),
       specific_fuel_l_per_kwh(0.8) * gal_hp_per_l_kw, 0.02 * us(0.8)},
      {"specific fuel X 1.0, US", "MSUfuel", Kind::derived, us(1.0),
       specific_fuel_l_per_kwh(1.0) * gal_hp_per_l_kw, 0.02 * us(1.0)},
      {"specific fuel X 0.5 [L/kWh]", "D497.5", Kind::recalled, 0.5040, specific_fuel_l_per_kwh(0.5), 5e-5},
      {"specific fuel X 1.0 [L/kWh]", "D497.5", Kind::recalled, 0.4229, specific_fuel_l_per_kwh(1.0), 5e-5},
      {"full throttle X 0.2 [L/h per kW]", "Grisso2004", Kind::recalled, 0.1400,
       fuel_rate(KiloWatt{20}, KiloWatt{100}).value() / 100, 1e-9},
      {"full throttle X 0.5, 100 kW [L/h]", "Grisso2004", Kind::recalled, 20.60,
       fuel_rate(KiloWatt{50}, KiloWatt{100}).value(), 1e-9},
      {"full throttle X 1.0 [L/h per kW]", "Grisso2004", Kind::recalled, 0.3160,
       fuel_rate(KiloWatt{100}, KiloWatt{100}).value() / 100, 1e-9},
  });
  CHECK(fuel_rate(KiloWatt{60}, KiloWatt{100}) > fuel_rate(KiloWatt{50}, KiloWatt{100}));
  CHECK(fuel_rate(KiloWatt{50}, KiloWatt{150}) > fuel_rate(KiloWatt{50}, KiloWatt{100}));
  CHECK_THROWS_AS(fuel_rate(KiloWatt{50}, KiloWatt{0}), InternalError);
  CHECK_THROWS_AS(fuel_rate(KiloWatt{-1}, KiloWatt{100}), InternalError);
}
