#include "aftercut/server/desk.hpp"

#include <algorithm>

#include "aftercut/core/given_up.hpp"
#include "job_json.hpp"

namespace aftercut::server {
namespace {

constexpr const char* weighed = "weighed-";

bool over(const Job& job) {
  return job.stage == "planned" || job.stage == "refused" || job.stage == "given_up" || job.stage == "failed";
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

std::string Desk::ask_ahead(Date morning) {
  return put({.id = "ahead-", .kind = Job::Kind::ahead, .day = morning});
}

std::string Desk::ask_to_stand(const std::string& again) {
  return put({.id = "stand-", .kind = Job::Kind::stand, .again = again});
}

std::string Desk::ahead() const {
  const std::scoped_lock lock{mutex_};
  return ahead_;
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
    return std::make_shared<const Kept>(ready_to_show(std::move(*found)));
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
  auto kept = std::make_shared<const Kept>(ready_to_show(std::move(plan)));
  const std::scoped_lock lock{mutex_};
  plans_.push_back(std::move(kept));
  if (plans_.size() > setup_.plans_kept) plans_.erase(plans_.begin() + 1);  // the first stands
}

void Desk::step(const std::string& id, const std::function<void(Job&)>& change) {
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
    switch (asked.kind) {
      case Job::Kind::base:
        return make_base(asked);
      case Job::Kind::again:
        return answer(asked);
      case Job::Kind::weigh:
        return weigh_farm(asked);
      case Job::Kind::morning:
        return plan_from(asked);
      case Job::Kind::ahead:
        return look_ahead(asked);
      case Job::Kind::stand:
        return let_it_stand(asked);
    }
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
    const bool of_its_own =
        job.kind == Job::Kind::base || job.kind == Job::Kind::again || job.kind == Job::Kind::morning;
    if (of_its_own) job.plan = job.id;
  });
}

}  // namespace aftercut::server
