#pragma once
// Runs the real program, as a user would, on copies of the demo farm.

#include <filesystem>
#include <string>

namespace aftercut::test {

struct Ran {
  int code = 0;
  std::string out;  ///< standard output
  std::string err;  ///< standard error
};

/// `aftercut <arguments>`; arguments are passed through the shell.
Ran run_program(const std::string& arguments);

/// A folder of its own for one test, removed with the value. Holds fields/demo and weather, copied from the
/// project.
class DemoCopy {
 public:
  DemoCopy();
  ~DemoCopy();
  DemoCopy(const DemoCopy&) = delete;
  DemoCopy& operator=(const DemoCopy&) = delete;
  [[nodiscard]] const std::filesystem::path& root() const { return root_; }
  [[nodiscard]] std::filesystem::path farm() const { return root_ / "fields" / "demo"; }

 private:
  std::filesystem::path root_;
};

std::string text_of(const std::filesystem::path& file);
void put_text(const std::filesystem::path& file, const std::string& text);
/// Replaces the first `from`, which must be there.
void edit(const std::filesystem::path& file, const std::string& from, const std::string& to);

}  // namespace aftercut::test
