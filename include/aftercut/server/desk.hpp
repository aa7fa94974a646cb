#pragma once
// Where the page's questions are worked out: one at a time, in a thread of its own, each told as it goes on.
// A new question takes the place of the one before. Plans made are kept until newer ones push them out.

#include <condition_variable>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "aftercut/server/events.hpp"
#include "aftercut/server/work.hpp"

namespace aftercut::server {

/// A question on its way. Stages, in order: waiting, reading, answering, planning, planned; or it ends
/// refused (issues of the changed farm), given_up or failed.
struct Job {
  enum class Kind {
    base,     ///< the plan that stands
    again,    ///< changes of it
    weigh,    ///< the same farm with other weights
    morning,  ///< the plan that stands, gone on with from a morning and what the journal then tells
    ahead,    ///< the days ahead of a morning, under the plan that stands
    stand     ///< a plan made again takes the place of the one that stands
  };
  std::string id;
  Kind kind = Kind::again;
  farm::Scenario scenario;
  Date day = {};         ///< of a morning, to plan from or to look ahead from
  std::string again;     ///< id of the plan that is to stand
  std::string saved_as;  ///< name of its scenario file; empty: none
  std::string stage = "waiting";
  double share = 0.0;  ///< of the stage
  std::string answer;  ///< JSON of the first answer; empty: not there yet
  Issues issues;
  std::string fault;  ///< ours, in a sentence
  std::string plan;   ///< id of the plan made; empty: not there yet
};

class Desk {
 public:
  explicit Desk(Setup setup);
  /// Gives up what is on its way.
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// The plan that stands first, from its folder or made; then questions.
  void open();
  /// The id of the question. One on its way is given up, but for the plan that stands: it is waited for.
  std::string ask(const farm::Scenario& scenario, const std::string& saved_as);
  /// The id of the question: plans with other weights, into their folder.
  std::string ask_to_weigh();
  /// The id of the question: the plan that stands made again for a morning, into OUT/again/DAY.
  std::string ask_from(Date morning);
  /// The id of the question: the days ahead of a morning; the look is kept in the farm folder.
  std::string ask_ahead(Date morning);
  /// The id of the question: a plan made again for a morning is to stand from now on.
  std::string ask_to_stand(const std::string& again);
  /// The last answer about the days ahead under the plan that stands; empty: none yet.
  [[nodiscard]] std::string ahead() const;
  /// False: no such question, or it is over.
  bool give_up(const std::string& id);
  [[nodiscard]] std::optional<Job> job(const std::string& id) const;
  [[nodiscard]] std::optional<Job> latest() const;
  /// "base", the id of a question, or "weighed-NAME" for one of the plans with other weights. Null: not there
  /// (yet, or any more).
  [[nodiscard]] std::shared_ptr<const Kept> plan(const std::string& id) const;
  [[nodiscard]] std::vector<std::shared_ptr<const Kept>> plans() const;
  [[nodiscard]] const Setup& setup() const { return setup_; }
  Events events;

 private:
  static constexpr std::size_t jobs_kept = 50;
  void work();
  void do_job(const std::string& id);
  void make_base(const Job& job);
  void answer(const Job& job);
  void weigh_farm(const Job& job);
  void plan_from(const Job& job);
  void look_ahead(const Job& job);
  void let_it_stand(const Job& job);
  std::string put(Job job);  // in line, in place of those that wait
  void refuse(const std::string& id, const Issues& issues);
  void planned(const std::string& id);
  /// Changes the job and tells it; throws GivenUp where it was given up.
  void step(const std::string& id, const std::function<void(Job&)>& change);
  Tell teller(const std::string& id);
  void keep(Kept plan);
  void forget_old_jobs();  // with the lock held

  const Setup setup_;
  mutable std::mutex mutex_;
  std::condition_variable asked_;
  std::map<std::string, Job> jobs_;
  std::deque<std::string> order_;    // of jobs, oldest first
  std::deque<std::string> waiting_;  // not begun
  std::string running_;
  bool give_up_ = false;  // the running one
  bool closing_ = false;
  int asked_so_far_ = 0;
  std::deque<std::shared_ptr<const Kept>> plans_;
  std::string ahead_;  // the last answer about the days ahead
  std::thread thread_;
};

/// A job as the page reads it.
std::string job_json(const Job& job);

}  // namespace aftercut::server
