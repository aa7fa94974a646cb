#include "aftercut/report/hindcast.hpp"

#include <cmath>

#include "aftercut/core/save_file.hpp"
#include "out_folder.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

std::string winters_words(const plan::Hindcast& h) {
  return fmt::format("{} winters ({} to {})", h.winters.size(), h.winters.front(), h.winters.back());
}

std::string percent_words(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string class_words(const plan::ChanceClass& c) {
  if (c.from <= 0.0) return "under " + percent_words(c.below);
  if (c.below >= 1.0) return percent_words(c.from) + " or more";
  return fmt::format("{:.0f} to {}", 100.0 * c.from, percent_words(c.below));
}

std::string between_words(const plan::ChanceClass& c) {
  if (!c.interval) return "";
  return fmt::format("{:.0f} to {}", 100.0 * c.interval->low, percent_words(c.interval->high));
}

std::string table_row(const std::vector<std::string>& cells) {
  std::string row = "  " + fit(cells.front(), 14);
  for (std::size_t k = 1; k < cells.size(); ++k) row += " " + fit(cells[k], k == 1 ? 16 : 12, true);
  return row + "\n";
}

std::string better_words(const plan::BrierBeside& b) {
  if (!b.skill) return "nothing to better";
  const double share = 100.0 * std::abs(*b.skill);
  if (share < 0.5) return "alike";
  return fmt::format("{:.0f} % {}", share, *b.skill > 0.0 ? "better" : "worse");
}

/// "  Climatology 0.229: 5 % better, difference -0.012 (-0.029 to +0.003), within chance."
std::string beside_words(const std::string& other, const plan::BrierBeside& b) {
  std::string words = fmt::format("{} {:.3f}: {}", other, b.score, better_words(b));
  if (b.interval) {
    const bool beyond = b.interval->high < 0.0 || b.interval->low > 0.0;
    words +=
        fmt::format(", difference {:+.3f} ({:+.3f} to {:+.3f}), {} chance", rounded(b.difference, 3),
                    rounded(b.interval->low, 3), rounded(b.interval->high, 3), beyond ? "beyond" : "within");
  }
  return "  " + wrapped(words + ".", terminal_width - 2, 4) + "\n";
}

std::string date_text(const farm::Farm& farm, const plan::HindcastDate& date) {
  std::string out = fmt::format("Said on {}\n", short_date(farm.season.date(date.day)));
  out += table_row({"chance said", "fields x winters", "winters", "mean said", "happened", "9 in 10"});
  for (const plan::ChanceClass& c : date.classes) {
    const bool empty = c.field_winters == 0;
    out += table_row({class_words(c), std::to_string(c.field_winters), std::to_string(c.winters),
                      empty ? "" : percent_words(c.said), empty ? "" : percent_words(c.happened),
                      between_words(c)});
  }
  const plan::BrierScores& scores = date.scores;
  return out + fmt::format("  Brier score {:.3f}\n", scores.said) +
         beside_words("Climatology", scores.climatology) +
         beside_words("What the same plan said on " + short_date(farm.season.first), scores.at_start);
}

json interval_json(const std::optional<plan::Interval>& i, int digits) {
  if (!i) return nullptr;
  return {{"low", rounded(i->low, digits)}, {"high", rounded(i->high, digits)}};
}

json class_json(const plan::ChanceClass& c) {
  const bool empty = c.field_winters == 0;
  return {{"from", c.from},
          {"below", c.below},
          {"field_winters", c.field_winters},
          {"winters", c.winters},
          {"mean_said", empty ? json(nullptr) : json(rounded(c.said, 4))},
          {"happened", empty ? json(nullptr) : json(rounded(c.happened, 4))},
          {"happened_interval", interval_json(c.interval, 4)}};
}

json beside_json(const plan::BrierBeside& b) {
  return {{"brier", rounded(b.score, 5)},
          {"skill", b.skill ? json(rounded(*b.skill, 4)) : json(nullptr)},
          {"difference", rounded(b.difference, 5)},
          {"difference_interval", interval_json(b.interval, 5)}};
}

json scores_json(const plan::BrierScores& s) {
  return {{"brier", rounded(s.said, 5)},
          {"climatology", beside_json(s.climatology)},
          {"at_start", beside_json(s.at_start)}};
}

json ready_on(const farm::Farm& farm, const plan::SaidChance& c) {
  return c.ready_day == plan::none ? json(nullptr) : json(iso(farm.season.date(c.ready_day)).substr(5));
}

json date_json(const farm::Farm& farm, const plan::HindcastDate& date) {
  json said = json::array(), classes = json::array();
  for (const plan::SaidChance& c : date.said)
    said.push_back({{"winter", c.winter},
                    {"field", farm.fields[static_cast<std::size_t>(c.field)].id.value},
                    {"said", rounded(c.said, 4)},
                    {"climatology", rounded(c.climatology, 4)},
                    {"at_start", rounded(c.at_start, 4)},
                    {"happened", c.happened},
                    {"ready_on", ready_on(farm, c)}});
  for (const plan::ChanceClass& c : date.classes) classes.push_back(class_json(c));
  return {{"date", iso(farm.season.date(date.day)).substr(5)},
          {"classes", classes},
          {"scores", scores_json(date.scores)},
          {"said", said}};
}

}  // namespace

std::string hindcast_text(const HindcastShown& s) {
  const farm::Farm& farm = s.problem->farm;
  const plan::Hindcast& h = *s.hindcast;
  std::string out = wrapped(fmt::format("Chances of a seedbed by its planting date in {}, each left out of "
                                        "its own years and of its own search, beside what then happened.",
                                        winters_words(h)),
                            terminal_width, 0) +
                    "\n\n";
  for (const plan::HindcastDate& date : h.dates) out += date_text(farm, date) + "\n";
  return out +
         wrapped(
             "What happened is this program's own run of the whole winter, not a farm's: it shows whether "
             "the chances follow from what was known on the day, not whether ground dries as it says.",
             terminal_width, 0) +
         "\n";
}

std::string hindcast_json(const HindcastShown& s) {
  const farm::Farm& farm = s.problem->farm;
  json plans = json::array(), dates = json::array();
  for (std::size_t w = 0; w < s.hindcast->winters.size(); ++w)
    plans.push_back(
        {{"winter", s.hindcast->winters[w]}, {"methods", methods_json(farm, s.hindcast->decisions[w])}});
  for (const plan::HindcastDate& date : s.hindcast->dates) dates.push_back(date_json(farm, date));
  const json out{{"schema", "aftercut-hindcast-1"},
                 {"version", s.version},
                 {"seed", s.seed},
                 {"changes_judged", s.evaluations},
                 {"farm", farm_head_json(*s.problem)},
                 {"plans", plans},
                 {"dates", dates}};
  return out.dump(1) + "\n";
}

std::string hindcast_csv(const HindcastShown& s) {
  const farm::Farm& farm = s.problem->farm;
  std::string out = "date,winter,field,chance_said,ready_in_time,ready_on,climatology,chance_at_start\n";
  for (const plan::HindcastDate& date : s.hindcast->dates)
    for (const plan::SaidChance& c : date.said)
      out += fmt::format("{},{},{},{:.4f},{},{},{:.4f},{:.4f}\n", iso(farm.season.date(date.day)).substr(5),
                         c.winter, csv_cell(farm.fields[static_cast<std::size_t>(c.field)].id.value), c.said,
                         c.happened ? "yes" : "no",
                         c.ready_day == plan::none ? "" : iso(farm.season.date(c.ready_day)).substr(5),
                         c.climatology, c.at_start);
  return out;
}

Result<std::filesystem::path> write_hindcast(const HindcastShown& s, const std::filesystem::path& out) {
  return write_folder(out, {"hindcast.csv", "hindcast.svg"}, [&](const std::filesystem::path& folder) {
    Issues issues;
    gather(issues, save_file(folder / "hindcast.csv", hindcast_csv(s)));
    gather(issues, save_file(folder / "hindcast.svg", hindcast_svg(s)));
    return issues;
  });
}

}  // namespace aftercut::report
