// What the desk does for each kind of question, in its thread.

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/left_behind.hpp"
#include "aftercut/report/change_words.hpp"
#include "aftercut/report/replanned.hpp"
#include "aftercut/server/desk.hpp"
#include "aftercut/server/mornings.hpp"

namespace aftercut::server {
namespace {

constexpr const char* title_that_stands = "The plan as it stands";

Issues no_plan() {
  return {{"plan", "base", "no plan that stands", "a sound farm folder", "mend the folder"}};
}

}  // namespace

void Desk::make_base(const Job& asked) {
  step(asked.id, [](Job& job) { job.stage = "reading"; });
  const auto farm = setup_.read({});
  if (!farm.ok()) return refuse(asked.id, farm.issues());
  std::optional<Kept> kept = plan_that_stands(setup_, farm.value());
  if (!kept) {
    const Issues issues = keep_what_stood(setup_, farm.value().problem.as_of);
    if (!issues.empty()) return refuse(asked.id, issues);
    step(asked.id, [](Job& job) { job.stage = "planning"; });
    auto made = whole_plan(setup_, farm.value(), {.start = {}, .out = setup_.out}, teller(asked.id));
    if (!made.ok()) return refuse(asked.id, made.issues());
    kept = std::move(made).value();
  }
  kept->id = "base";
  kept->title = title_that_stands;
  keep(std::move(*kept));
  planned(asked.id);
}

void Desk::answer(const Job& asked) {
  const auto stands = plan("base");
  if (!stands) return refuse(asked.id, no_plan());
  step(asked.id, [](Job& job) { job.stage = "reading"; });
  const std::string file = asked.saved_as.empty() ? "changes" : "scenarios/" + asked.saved_as + ".json";
  const auto farm = changed_farm(setup_, *stands, asked.scenario, file);
  if (!farm.ok()) return refuse(asked.id, farm.issues());
  const farm::Problem& changed = farm.value().problem;
  if (!farm::same_fields(stands->problem->farm, changed.farm))
    return refuse(asked.id, {{file, "changes", "other fields", "a change that leaves the farm its fields",
                              "make a folder of its own for a farm with other fields"}});
  step(asked.id, [](Job& job) { job.stage = "answering"; });
  const plan::Replanned first = first_answer(setup_, *stands, changed, teller(asked.id));
  step(asked.id, [&](Job& job) {
    job.answer = report::replanned_json({&stands->problem->farm, &changed.farm, &first});
    job.stage = "planning";
    job.share = 0.0;
  });
  const bool named = !asked.saved_as.empty();
  const auto out = named ? setup_.out / "scenarios" / asked.saved_as : part_beside(setup_.out / asked.id);
  auto whole = whole_plan(setup_, farm.value(), {.start = first.decision, .out = out, .stays = named},
                          teller(asked.id));
  if (!whole.ok()) return refuse(asked.id, whole.issues());
  Kept kept = std::move(whole).value();
  kept.id = asked.id;
  kept.title = asked.scenario.name.empty() ? report::scenario_words(stands->problem->farm, asked.scenario)
                                           : asked.scenario.name;
  const plan::Replanned last = last_answer(setup_, *stands, kept);
  const std::string told = report::replanned_json({&stands->problem->farm, &kept.problem->farm, &last});
  keep(std::move(kept));
  step(asked.id, [&](Job& job) { job.answer = told; });
  planned(asked.id);
}

void Desk::weigh_farm(const Job& asked) {
  const auto stands = plan("base");
  if (!stands) return refuse(asked.id, no_plan());
  step(asked.id, [](Job& job) { job.stage = "planning"; });
  const Issues issues = weigh(setup_, *stands->problem, teller(asked.id));
  if (!issues.empty()) return refuse(asked.id, issues);
  planned(asked.id);
}

void Desk::plan_from(const Job& asked) {
  if (!plan("base")) return refuse(asked.id, no_plan());
  step(asked.id, [](Job& job) { job.stage = "reading"; });
  const auto farm = setup_.read_on(asked.day);
  if (!farm.ok()) return refuse(asked.id, farm.issues());
  const auto stands = audit::read_decision(setup_.out / "plan.json", farm.value().problem);
  if (!stands.ok()) return refuse(asked.id, stands.issues());
  const auto out = setup_.out / again_folder / iso(asked.day);
  std::optional<Kept> kept = plan_in(setup_, farm.value(), out);
  if (!kept) {
    step(asked.id, [](Job& job) { job.stage = "planning"; });
    auto made = whole_plan(setup_, farm.value(), {.out = out, .stands = stands.value()}, teller(asked.id));
    if (!made.ok()) return refuse(asked.id, made.issues());
    kept = std::move(made).value();
  }
  kept->id = asked.id;
  kept->title = "planned again for the morning of " + iso(asked.day);
  keep(std::move(*kept));
  planned(asked.id);
}

void Desk::look_ahead(const Job& asked) {
  if (!plan("base")) return refuse(asked.id, no_plan());
  step(asked.id, [](Job& job) { job.stage = "reading"; });
  const auto farm = setup_.read_on(asked.day);
  if (!farm.ok()) return refuse(asked.id, farm.issues());
  step(asked.id, [](Job& job) { job.stage = "answering"; });
  const auto told = days_ahead(setup_, farm.value().problem, teller(asked.id));
  if (!told.ok()) return refuse(asked.id, told.issues());
  step(asked.id, [&](Job& job) { job.answer = ahead_ = told.value(); });
  planned(asked.id);
}

void Desk::let_it_stand(const Job& asked) {
  const auto stands = plan("base"), again = plan(asked.again);
  if (!stands || !again || !asked.again.starts_with("morning-"))
    return refuse(asked.id, {{"plan", asked.again, "no plan made again for a morning", "one that is shown",
                              "plan again from a morning first"}});
  const Issues issues = let_stand(setup_, *stands, *again);
  if (!issues.empty()) return refuse(asked.id, issues);
  Kept now = *again;
  now.id = "base";
  now.title = title_that_stands;
  auto shown = std::make_shared<const Kept>(ready_to_show(std::move(now)));
  {
    const std::scoped_lock lock{mutex_};
    std::erase_if(plans_, [&](const auto& p) { return p->id == asked.again; });
    plans_.front() = std::move(shown);
    ahead_.clear();
  }
  planned(asked.id);
}

}  // namespace aftercut::server
