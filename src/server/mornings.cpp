#include "aftercut/server/mornings.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/report/watch.hpp"
#include "aftercut/review/ahead.hpp"
#include "aftercut/review/watch.hpp"

namespace aftercut::server {
namespace {

namespace fs = std::filesystem;
using json = nlohmann::ordered_json;

std::string told(const json& ahead, const std::vector<plan::Look>& looks) {
  json kept = json::array();
  for (const plan::Look& look : looks) kept.push_back(json::parse(review::looks_text({look})));
  return json{{"ahead", ahead}, {"looks", kept}}.dump(-1, ' ', false, json::error_handler_t::replace);
}

/// Of no plan yet.
fs::path free_folder(const fs::path& stood, Date day) {
  fs::path folder = stood / iso(day);
  for (int n = 2; fs::exists(folder); ++n) folder = stood / fmt::format("{}-{}", iso(day), n);
  return folder;
}

}  // namespace

Result<std::string> looks_kept(const Setup& setup) {
  const auto looks = review::looks_in(setup.folder);
  if (!looks.ok()) return looks.issues();
  return told(nullptr, looks.value());
}

Result<std::string> days_ahead(const Setup& setup, const farm::Problem& problem, const Tell& tell) {
  const auto stands = audit::read_decision(setup.out / "plan.json", problem);
  const auto before = review::looks_in(setup.folder);
  Issues issues = stands.issues();
  for (const Issue& i : before.issues()) issues.push_back(i);
  if (!issues.empty()) return issues;
  const plan::Ahead ahead =
      review::look_ahead(problem, stands.value(), before.value(),
                         {.seed = setup.seed, .threads = setup.threads, .progress = tell});
  const auto looks = review::keep_look(setup.folder, ahead.look);
  if (!looks.ok()) return looks.issues();
  return told(json::parse(report::watch_json(problem, ahead)), looks.value());
}

Issues keep_what_stood(const Setup& setup, Date day) {
  const audit::PlanMade made = audit::plan_made_in(setup.out / "plan.json");
  if (!made.as_of || (made.as_of == day && made.version == setup.version)) return {};
  return report::copy_plan(setup.out, free_folder(setup.out / stood_folder, *made.as_of)).issues();
}

Issues let_stand(const Setup& setup, const Kept& stands, const Kept& again) {
  const fs::path from = setup.out / again_folder / iso(again.problem->as_of);
  const auto text = read_file(from / "plan.json");
  if (!text.ok()) return text.issues();
  if (text.value() != again.plan_json)
    return {{(from / "plan.json").string(), "whole file", "another plan than the one that was shown",
             "the plan that is to stand", "plan again from that morning"}};
  const auto kept =
      report::copy_plan(setup.out, free_folder(setup.out / stood_folder, stands.problem->as_of));
  if (!kept.ok()) return kept.issues();
  return report::copy_plan(from, setup.out).issues();
}

}  // namespace aftercut::server
