#pragma once
// Public project-scheduling instances: jobs with modes, renewable and nonrenewable resources, finish-to-start
// precedence, least makespan. Reads the text files of the open sets; builds schedules job by job from a list.
// Only tests use it: the sets say nothing of straw, but their optima are known.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace aftercut::test {

struct Mode {
  int duration = 0;
  std::vector<int> renewable, nonrenewable;
};
struct Job {
  std::vector<Mode> modes;  ///< those that no resource's whole capacity forbids
  std::vector<int> before, after;
};
struct Project {
  std::vector<Job> jobs;  ///< first and last have no duration
  std::vector<int> renewable, nonrenewable;
  int horizon = 0;
};
Project read_project(const std::filesystem::path& file);
/// [parameter set, instance] makespan; infeasible ones left out.
std::map<std::pair<int, int>, int> read_optima(const std::filesystem::path& file);
/// "j301_2.sm" -> {1, 2}
std::pair<int, int> set_and_instance(const std::string& file_name);

/// A job list that keeps every job behind those before it, and a mode for each job.
struct JobList {
  std::vector<int> order, mode;
};
JobList first_list(const Project& p);

struct Built {
  std::vector<int> start;
  int makespan = 0;
  int excess = 0;  ///< of nonrenewable resources
};
/// Each job of the list as early as precedence and resources let it.
Built build(const Project& p, const JobList& list);
/// What a schedule breaks, in words; empty: nothing.
std::string broken(const Project& p, const JobList& list, const Built& built);

struct Tried {
  int makespan = 0;
  long schedules = 0;
  JobList list;
};
/// The shortest feasible schedule met by annealing in so many built schedules; makespan 0: none feasible.
Tried search_project(const Project& p, long schedules, std::uint64_t seed);

}  // namespace aftercut::test
