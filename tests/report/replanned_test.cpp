// Changes, prices and a plan made again, in words.

#include "aftercut/report/replanned.hpp"

#include <nlohmann/json.hpp>

#include "aftercut/report/change_words.hpp"
#include "aftercut/report/price_words.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

using namespace aftercut;

namespace {

const farm::Farm& sample_land() {
  static const test::Sample s = test::sample();
  return s.problem.farm;
}

plan::Replanned moved() {
  plan::Replanned r;
  r.before.cost_cents = 8'340'900;
  r.kept.cost_cents = 8'512'300;
  r.after.cost_cents = 8'401'200;
  r.chances = {{0, 0.93, 0.9, 0.62}, {1, 0.5, 0.5, 0.8}, {2, 0.8, 0.8, 0.85}};
  r.changes = {{0, 0, 1}, {1, 0, 1}, {2, 1, plan::none}};
  return r;
}

std::string all(const plan::Replanned& r) {
  std::string text;
  for (const std::string& w : report::replanned_words({&sample_land(), &sample_land(), &r})) text += w + "\n";
  return text;
}

bool words_hold(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("what planning again comes to is told in sentences", "[golden]") {
  const std::string text = all(moved());
  CHECK(words_hold(text, "Planned again, a year costs 84,012 " + sample_land().currency + ": 603 " +
                             sample_land().currency + " more than before."));
  CHECK(words_hold(text, "would cost 85,123 " + sample_land().currency + ": planning again saves 1,111 "));
  CHECK(words_hold(text, "3 fields change their method: "));
  CHECK(words_hold(text, "Less often ready by planting: " + sample_land().fields[0].id.value +
                             " 6 years in 10, before 9 years in 10."));
  CHECK(words_hold(text, "More often ready by planting: " + sample_land().fields[1].id.value +
                             " 8 years in 10, before 5 years in 10."));
  CHECK_FALSE(words_hold(
      text, sample_land().fields[2].id.value + " 8 years in 10"));  // moved by less than a year in ten
}

TEST_CASE("a dearer plan says what it is dearer for", "[golden]") {
  plan::Replanned r = moved();
  r.kept.cost_cents = r.before.cost_cents;
  r.kept.below_wanted = 4;
  r.after.below_wanted = 1;
  CHECK(words_hold(all(r), "and leave 4 fields below the wanted chance."));
  CHECK(words_hold(all(r), "1 field stays below the wanted chance; before, none."));
  r.kept.below_wanted = 1;
  CHECK(words_hold(all(r), "planning again costs 603 "));
  r.changes.clear();
  r.after.cost_cents = r.before.cost_cents;
  CHECK(words_hold(all(r), "the same as before."));
  CHECK(words_hold(all(r), "No field changes its method."));
}

TEST_CASE("a field without a method comes first, with the reasons", "[golden]") {
  plan::Replanned r = moved();
  r.no_method = {{0, 0, {"the straw is chopped already"}}, {1, plan::none, {}}};
  const auto words = report::replanned_words({&sample_land(), &sample_land(), &r});
  CHECK(words_hold(words[0], "cannot be done there (the straw is chopped already)"));
  CHECK(words_hold(words[1], "no method is open any more"));
}

TEST_CASE("the answer as JSON has the three plans, every change and every chance", "[identity]") {
  const plan::Replanned r = moved();
  const auto j = nlohmann::json::parse(report::replanned_json({&sample_land(), &sample_land(), &r}));
  CHECK(j["after"]["cost"] == 84012.0);
  CHECK(j["changes"].size() == 3);
  CHECK(j["changes"][2]["to"].is_null());
  CHECK(j["chances"][1]["after"] == 0.8);
  CHECK(j["words"].size() >= 5);
}

TEST_CASE("changes are said as a grower would", "[golden]") {
  const farm::Farm& f = sample_land();
  const std::string method = f.book.recipes[0].name, id = f.book.recipes[0].id.value;
  struct Row {
    farm::Change change;
    std::string words;
  };
  const std::vector<Row> rows{
      {farm::FixMethod{{"1"}, {id}}, "1: “" + method + "” and nothing else"},
      {farm::BarMethod{{"1"}, {id}, ""}, "1: not “" + method + "”"},
      {farm::BarMethod{{"1"}, {id}, "a school"}, "1: not “" + method + "”, a school"},
      {farm::MoveHarvest{{"2"}, make_date(2026, 10, 5)}, "2: cut on 5 Oct"},
      {farm::MovePlanting{FieldId{"2"}, make_date(2027, 4, 28)}, "2: planting on 28 Apr"},
      {farm::MovePlanting{std::nullopt, make_date(2027, 4, 28)},
       "planting from 28 Apr on, every field moved alike"},
      {farm::SetPrice{"burn_fee", "9 USD/ha"}, "burn fee at 9 USD/ha"},
      {farm::OutOfWork{"nobody", make_date(2026, 10, 12), make_date(2026, 10, 18)},
       "nobody not there 12 Oct to 18 Oct"},
      {farm::WantChance{std::nullopt, 0.9}, "ready by planting in 9 years in 10"},
      {farm::WantChance{FieldId{"2"}, 0.85}, "2: ready by planting in 85 years in 100"},
      {farm::Setting{"prices.straw", "3 USD/t"}, "prices.straw = 3 USD/t"}};
  for (const Row& row : rows) CHECK(report::change_words(f, row.change) == row.words);
  CHECK(report::scenario_words(f, {"", {}}) == "no change");
  CHECK(report::scenario_words(f, {"", {rows[0].change, rows[3].change}}) ==
        rows[0].words + "; " + rows[3].words);
}

TEST_CASE("prices are told as farm.json takes them, in the farm's own units", "[derived]") {
  farm::Farm f = sample_land();
  f.currency = "USD";
  f.prices.diesel_per_l = Money{1.05};
  f.prices.straw_per_tonne = Money{28.0};
  f.prices.straw_per_bale = Money{0.0};
  f.units = farm::UnitSystem::si;
  CHECK(report::price_now(f, "diesel") == "1.05 USD/L");
  CHECK(report::price_now(f, "straw") == "28 USD/t");
  CHECK_FALSE(report::price_now(f, "straw_bale"));
  CHECK_FALSE(report::price_now(f, "hay"));
  f.units = farm::UnitSystem::us;
  CHECK(report::price_now(f, "diesel") == "3.9747 USD/gal");  // 1.05 * 3.785411784
  CHECK(report::price_now(f, "straw") == "25.401 USD/ton");   // 28 * 0.90718474
}
