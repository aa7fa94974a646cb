#include "aftercut/server/desk.hpp"

#include <algorithm>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/given_up.hpp"
#include "aftercut/core/left_behind.hpp"
#include "aftercut/report/change_words.hpp"
#include "aftercut/report/page.hpp"
#include "aftercut/report/replanned.hpp"
#include "job_json.hpp"

namespace aftercut::server {
namespace {

constexpr const char* weighed = "weighed-";

bool over(const Job& job) {
  return job.stage == "planned" || job.stage == "refused" || job.stage == "given_up" || job.stage == "failed";
}

Issues no_plan() {
  return {{"plan", "base", "no plan that stands", "a sound farm folder", "mend the folder"}};
}

}  // namespace

Desk::Desk(Setup setup) : setup_{std::move(setup)} {}

Desk::~Desk() {
  {
    const std::scoped_lock lock{mutex_};
    closing_ = give_up_ = true;
  }
  asked_.notify_all();
  events.close();
  if (thread_.joinable()) thread_.join();
}

void Desk::open() {
  clear_left_behind(setup_);
  const std::scoped_lock lock{mutex_};
  jobs_["base"] = Job{.id = "base", .kind = Job::Kind::base};
  order_.push_back("base");
  waiting_.push_back("base");
  thread_ = std::thread{[this] { work(); }};
}

std::string Desk::put(Job job) {
  {
    const std::scoped_lock lock{mutex_};
    job.id += std::to_string(++asked_so_far_);
    for (const std::string& other : waiting_) {
      if (other == "base") continue;
      jobs_[other].stage = "given_up";
      events.tell("job", job_json(jobs_[other]));
    }
    std::erase_if(waiting_, [](const std::string& other) { return other != "base"; });
    if (!running_.empty() && running_ != "base") give_up_ = true;
    jobs_[job.id] = job;
    order_.push_back(job.id);
    waiting_.push_back(job.id);
    forget_old_jobs();
  }
  asked_.notify_all();
  return job.id;
}

std::string Desk::ask(const farm::Scenario& scenario, const std::string& saved_as) {
  return put({.id = "again-", .kind = Job::Kind::again, .scenario = scenario, .saved_as = saved_as});
}

std::string Desk::ask_to_weigh() { return put({.id = "weigh-", .kind = Job::Kind::weigh}); }

std::string Desk::ask_from(Date morning) {
  return put({.id = "morning-", .kind = Job::Kind::morning, .day = morning});
}

void Desk::forget_old_jobs() {
  while (order_.size() > jobs_kept) {
    const auto old = std::ranges::find_if(
        order_, [&](const std::string& id) { return id != "base" && over(jobs_.at(id)); });
    if (old == order_.end()) return;
    jobs_.erase(*old);
    order_.erase(old);
  }
}

bool Desk::give_up(const std::string& id) {
  const std::scoped_lock lock{mutex_};
  const auto asked = jobs_.find(id);
  if (asked == jobs_.end() || id == "base" || over(asked->second)) return false;
  if (running_ == id) return give_up_ = true;
  if (std::ranges::find(waiting_, id) == waiting_.end()) return false;
  std::erase(waiting_, id);
  asked->second.stage = "given_up";
  events.tell("job", job_json(asked->second));
  return true;
}

std::optional<Job> Desk::job(const std::string& id) const {
  const std::scoped_lock lock{mutex_};
  const auto found = jobs_.find(id);
  return found == jobs_.end() ? std::nullopt : std::optional{found->second};
}

std::optional<Job> Desk::latest() const {
  const std::scoped_lock lock{mutex_};
  return order_.empty() ? std::nullopt : std::optional{jobs_.at(order_.back())};
}

std::shared_ptr<const Kept> Desk::plan(const std::string& id) const {
  if (id.starts_with(weighed)) {
    const auto base = plan("base");
    auto found =
        base ? weighed_plan(setup_, base->problem, id.substr(std::string{weighed}.size())) : std::nullopt;
    if (!found) return nullptr;
    found->id = id;
    found->page = report::served_page_html({id, &found->plan_json, &found->problem->farm});
    return std::make_shared<const Kept>(std::move(*found));
  }
  const std::scoped_lock lock{mutex_};
  const auto found = std::ranges::find(plans_, id, [](const auto& p) { return p->id; });
  return found == plans_.end() ? nullptr : *found;
}

std::vector<std::shared_ptr<const Kept>> Desk::plans() const {
  const std::scoped_lock lock{mutex_};
  return {plans_.begin(), plans_.end()};
}

void Desk::keep(Kept plan) {
  plan.page = report::served_page_html({plan.id, &plan.plan_json, &plan.problem->farm});
  const std::scoped_lock lock{mutex_};
  plans_.push_back(std::make_shared<const Kept>(std::move(plan)));
  if (plans_.size() > setup_.plans_kept) plans_.erase(plans_.begin() + 1);  // the first stands
}

template <class Change>
void Desk::step(const std::string& id, Change change) {
  const std::scoped_lock lock{mutex_};
  if (give_up_) throw GivenUp{};
  Job& job = jobs_.at(id);
  const std::string stage = job.stage;
  const int percent = static_cast<int>(100.0 * job.share);
  change(job);
  if (stage != job.stage)
    events.tell("job", job_json(job));
  else if (percent != static_cast<int>(100.0 * job.share))
    events.tell("progress", progress_json(job));
}

Tell Desk::teller(const std::string& id) {
  return [this, id](double share) { step(id, [&](Job& job) { job.share = share; }); };
}

void Desk::work() {
  for (;;) {
    std::string id;
    {
      std::unique_lock lock{mutex_};
      asked_.wait(lock, [&] { return closing_ || !waiting_.empty(); });
      if (closing_) return;
      id = running_ = waiting_.front();
      waiting_.pop_front();
      give_up_ = false;
    }
    do_job(id);
    const std::scoped_lock lock{mutex_};
    running_.clear();
  }
}

void Desk::do_job(const std::string& id) {
  const auto ends = [&](const std::string& stage, const std::string& fault) {
    const std::scoped_lock lock{mutex_};
    jobs_.at(id).stage = stage;
    jobs_.at(id).fault = fault;
    events.tell("job", job_json(jobs_.at(id)));
  };
  try {
    const Job asked = *job(id);
    if (asked.kind == Job::Kind::base)
      make_base(asked);
    else if (asked.kind == Job::Kind::again)
      answer(asked);
    else if (asked.kind == Job::Kind::weigh)
      weigh_farm(asked);
    else
      plan_from(asked);
  } catch (const GivenUp&) {
    ends("given_up", "");
  } catch (const std::exception& e) {
    ends("failed", e.what());
  }
}

void Desk::refuse(const std::string& id, const Issues& issues) {
  step(id, [&](Job& job) {
    job.stage = "refused";
    job.issues = issues;
  });
}

void Desk::planned(const std::string& id) {
  step(id, [](Job& job) {
    job.stage = "planned";
    job.share = 1.0;
    job.plan = job.kind == Job::Kind::weigh ? "" : job.id;
  });
}

void Desk::make_base(const Job& asked) {
  step(asked.id, [](Job& job) { job.stage = "reading"; });
  const auto farm = setup_.read(std::nullopt, "", true);
  if (!farm.ok()) return refuse(asked.id, farm.issues());
  std::optional<Kept> kept = plan_in(setup_, farm.value(), setup_.out);
  if (!kept) {
    step(asked.id, [](Job& job) { job.stage = "planning"; });
    auto made = whole_plan(setup_, farm.value(), {.start = {}, .out = setup_.out}, teller(asked.id));
    if (!made.ok()) return refuse(asked.id, made.issues());
    kept = std::move(made).value();
  }
  kept->id = "base";
  kept->title = "The plan as it stands";
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

}  // namespace aftercut::server
