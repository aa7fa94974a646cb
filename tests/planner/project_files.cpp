// Text files of public project-scheduling instances and their optima.

#include <algorithm>
#include <fstream>
#include <sstream>

#include "aftercut/core/require.hpp"
#include "project.hpp"

namespace aftercut::test {
namespace {

std::vector<int> numbers_in(const std::string& line) {
  std::vector<int> out;
  std::istringstream words{line};
  for (int x = 0; words >> x;) out.push_back(x);
  return out;
}

bool fits(const Project& p, const Mode& m) {
  for (std::size_t r = 0; r < p.renewable.size(); ++r)
    if (m.renewable[r] > p.renewable[r]) return false;
  return true;
}

/// Lines of a file up to and behind its headings.
class Sections {
 public:
  explicit Sections(const std::filesystem::path& file) {
    std::ifstream in{file};
    for (std::string line; std::getline(in, line);) lines_.push_back(line);
    require(!lines_.empty(), "an instance file has lines");
  }
  /// The line after the first that holds the text.
  std::size_t behind(const std::string& text) const {
    const auto at =
        std::ranges::find_if(lines_, [&](const auto& l) { return l.find(text) != std::string::npos; });
    require(at != lines_.end(), "an instance file has its headings");
    return static_cast<std::size_t>(at - lines_.begin()) + 1;
  }
  const std::string& line(std::size_t i) const { return lines_[i]; }

 private:
  std::vector<std::string> lines_;
};

int count_in(const Sections& s, const std::string& heading) {
  const std::string& line = s.line(s.behind(heading) - 1);
  return numbers_in(line.substr(line.find(':') + 1)).front();
}

void read_jobs(Project& p, const Sections& s) {
  const std::size_t first = s.behind("jobnr.    #modes");
  for (std::size_t j = 0; j < p.jobs.size(); ++j) {
    const std::vector<int> row = numbers_in(s.line(first + j));
    for (std::size_t k = 3; k < row.size(); ++k) {
      const int next = row[k] - 1;
      p.jobs[j].after.push_back(next);
      p.jobs[static_cast<std::size_t>(next)].before.push_back(static_cast<int>(j));
    }
  }
  std::size_t at = s.behind("jobnr. mode duration") + 1;
  const std::size_t columns = p.renewable.size() + p.nonrenewable.size();
  for (std::size_t j = 0; j < p.jobs.size();) {
    const std::vector<int> row = numbers_in(s.line(at));
    if (row.size() == columns + 3 && row.front() != static_cast<int>(j) + 1) {
      ++j;
      continue;
    }
    if (row.empty()) break;
    const std::ptrdiff_t skip = row.size() == columns + 3 ? 3 : 2;
    Mode m{.duration = row[static_cast<std::size_t>(skip) - 1], .renewable = {}, .nonrenewable = {}};
    m.renewable.assign(row.begin() + skip,
                       row.begin() + skip + static_cast<std::ptrdiff_t>(p.renewable.size()));
    m.nonrenewable.assign(row.begin() + skip + static_cast<std::ptrdiff_t>(p.renewable.size()), row.end());
    if (fits(p, m)) p.jobs[j].modes.push_back(m);
    ++at;
  }
}

}  // namespace

Project read_project(const std::filesystem::path& file) {
  const Sections s{file};
  Project p;
  p.jobs.resize(static_cast<std::size_t>(count_in(s, "jobs (incl.")));
  p.horizon = count_in(s, "horizon");
  const auto renewable = static_cast<std::size_t>(count_in(s, "- renewable"));
  const std::vector<int> there = numbers_in(s.line(s.behind("RESOURCEAVAILABILITIES") + 1));
  p.renewable.assign(there.begin(), there.begin() + static_cast<std::ptrdiff_t>(renewable));
  p.nonrenewable.assign(there.begin() + static_cast<std::ptrdiff_t>(renewable), there.end());
  read_jobs(p, s);
  return p;
}

std::map<std::pair<int, int>, int> read_optima(const std::filesystem::path& file) {
  constexpr int infeasible = 16384;
  std::map<std::pair<int, int>, int> out;
  std::ifstream in{file};
  for (std::string line; std::getline(in, line);) {
    std::ranges::replace(line, ',', ' ');
    const std::vector<int> row = numbers_in(line);
    if (row.size() >= 3 && row[2] != infeasible) out[{row[0], row[1]}] = row[2];
  }
  return out;
}

std::pair<int, int> set_and_instance(const std::string& name) {
  const std::size_t bar = name.find('_');
  return {std::stoi(name.substr(3, bar - 3)), std::stoi(name.substr(bar + 1))};
}

}  // namespace aftercut::test
