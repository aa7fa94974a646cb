#include "aftercut/app/input.hpp"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <string_view>
#include <thread>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/journal/log.hpp"
#include "aftercut/journal/settle.hpp"
#include "aftercut/weather/short_record.hpp"

namespace aftercut::app {
namespace {

std::optional<int> whole_number(std::string_view text) {
  int n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return n;
}

Result<farm::Scenario> read_scenario_of(const Options& o) {
  const auto file = farm::scenario_file(o.farm, o.scenario);
  if (!file.ok()) return file.issues();
  const auto text = read_file(file.value());
  if (text.ok()) return farm::read_scenario(text.value(), "scenarios/" + o.scenario + ".json");
  const std::vector<std::string> names = farm::scenario_names(o.farm);
  std::string there;
  for (const std::string& name : names) there += (there.empty() ? "one of " : ", ") + name;
  return Issues{{file.value().string(), "whole file", text.issues().front().found,
                 there.empty() ? "a scenario; the folder has none" : there, "name a scenario of the folder"}};
}

Result<farm::ReadOptions> read_options(const Options& o) {
  farm::ReadOptions r;
  Issues issues;
  if (!o.years.empty()) {
    const auto dots = o.years.find("..");
    const std::string_view text{o.years};
    r.years_from = whole_number(text.substr(0, dots));
    r.years_to = dots == std::string::npos ? r.years_from : whole_number(text.substr(dots + 2));
    if (!r.years_from || !r.years_to || *r.years_from > *r.years_to)
      issues.push_back({"command line", "--years", o.years,
                        "two years, the first not after the last, like 1998..2020", "mend the option"});
  }
  if (!o.as_of.empty()) {
    r.as_of = parse_iso_date(o.as_of);
    if (!r.as_of)
      issues.push_back({"command line", "--as-of", o.as_of, "a day like 2026-10-12", "write year-month-day"});
  }
  for (const std::string& text : o.set) {
    const auto settings = farm::read_settings(text);
    const Issues found = settings.issues();
    issues.insert(issues.end(), found.begin(), found.end());
    if (settings.ok()) r.set.insert(r.set.end(), settings.value().begin(), settings.value().end());
  }
  if (!o.scenario.empty()) {
    auto scenario = read_scenario_of(o);
    const Issues found = scenario.issues();
    issues.insert(issues.end(), found.begin(), found.end());
    if (scenario.ok()) r.scenario = std::move(scenario).value();
    r.scenario_file = "scenarios/" + o.scenario + ".json";
  }
  if (!issues.empty()) return issues;
  return r;
}

/// The first day for which everything in the journal counts; none: it is empty.
std::optional<Date> day_of_journal(const journal::Log& log) {
  std::optional<Date> day;
  for (const journal::Entry& e : log.entries) {
    const auto recorded = parse_iso_date(e.recorded_at.substr(0, iso(e.done_on).size()));
    day = std::max({day.value_or(e.done_on + 1), e.done_on + 1, recorded.value_or(e.done_on)});
  }
  return day;
}

journal::Log first_entries(journal::Log log, std::size_t count) {
  if (log.entries.size() > count) log.entries.resize(count);
  return log;
}

/// The problem with what its season's journal tells by the as-of day.
Result<farm::Problem> with_journal(farm::Problem problem, const journal::Log& log) {
  const auto standing = journal::standing_on(log.entries, problem.as_of);
  if (standing.empty()) return problem;
  auto put = journal::put_in(std::move(problem), standing, journal::file_name);
  if (!put.ok()) return put.issues();
  farm::Problem out = std::move(put).value();
  if (!log.torn.empty())
    out.farm.notes.push_back(
        "journal.jsonl ends in a line that was not written to its end: it is left out, and put aside when "
        "the "
        "next entry is recorded");
  const farm::Farm::Input input{journal::file_name, sha256_hex(journal::standing_text(standing)), true};
  auto& inputs = out.farm.inputs;
  inputs.insert(std::ranges::upper_bound(inputs, input.path, {}, &farm::Farm::Input::path), input);
  return out;
}

/// Years asked for by number that the record does not hold, although it holds others.
std::optional<Issue> no_such_years(const farm::Problem& p, const farm::ReadOptions& o,
                                   const std::string& asked) {
  if (!o.years_from || !p.years.years.empty()) return std::nullopt;
  const farm::Calendar& season = p.farm.season;
  const auto all = weather::lay_on_season(p.record, p.farm.site, season.first, season.days, {}, {});
  if (all.years.empty()) return std::nullopt;
  return Issue{"command line", "--years", asked,
               "years between " + std::to_string(all.years.front().year) + " and " +
                   std::to_string(all.years.back().year),
               "ask for years that the weather record holds"};
}

}  // namespace

Result<Input> read_input(const Options& o, bool fit_implements, const std::optional<farm::Scenario>& changes,
                         const std::string& changes_file) {
  const auto asked = read_options(o);
  if (!asked.ok()) return asked.issues();
  farm::ReadOptions options = asked.value();
  options.fit_implements = fit_implements;
  if (changes) {
    options.scenario = changes;
    options.scenario_file = changes_file;
  }
  Result<journal::Log> log = o.journal ? journal::read_log(o.farm) : journal::Log{};
  if (log.ok() && o.journal_entries) log = first_entries(std::move(log).value(), *o.journal_entries);
  if (log.ok() && !options.as_of) options.as_of = day_of_journal(log.value());
  auto read = farm::read(o.farm, options);
  if (!read.ok() || !log.ok()) {
    Issues issues = read.issues();
    const Issues more = log.issues();
    issues.insert(issues.end(), more.begin(), more.end());
    return issues;
  }
  read = with_journal(std::move(read).value(), log.value());
  if (!read.ok()) return read.issues();
  Input in{.problem = std::move(read).value(), .stretched = false};
  if (const auto issue = no_such_years(in.problem, options, o.years)) return Issues{*issue};
  if (in.problem.years.years.empty()) {
    const auto& season = in.problem.farm.season;
    in.problem.years =
        weather::stretched_over_season(in.problem.record, in.problem.farm.site, season.first, season.days);
    in.stretched = true;
    if (in.problem.seen)
      weather::put_forecast_in_front(in.problem.years, *in.problem.seen, in.problem.farm.site);
  }
  return in;
}

std::vector<plan::Trouble> troubles_of(const Input& in) {
  if (!in.stretched) return {};
  return {{"weather record shorter than a season",
           "no whole season lies in the record (or in the years asked for): each day took the recorded day "
           "nearest in the calendar, so the chances say nothing",
           {}}};
}

farm::Problem with_years_of(farm::Problem problem, const std::vector<int>& years) {
  if (years.empty()) return problem;
  const auto [first, last] = std::minmax_element(years.begin(), years.end());
  std::erase_if(problem.years.years,
                [&](const weather::Year& y) { return y.year < *first || y.year > *last; });
  return problem;
}

std::filesystem::path plan_file_in(const std::filesystem::path& file) {
  return std::filesystem::is_directory(file) ? file / "plan.json" : file;
}

std::filesystem::path plan_file(const Options& o) { return plan_file_in(o.plan); }

Result<weather::GeneratorParameters> read_parameters(const Options& o) {
  const auto text = read_file(o.parameters);
  if (!text.ok()) return text.issues();
  return weather::read_generator_parameters(text.value(), o.parameters);
}

int threads_of(const Options& o) {
  return o.threads > 0 ? o.threads : std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

}  // namespace aftercut::app
