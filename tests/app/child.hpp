#pragma once
// The real program as a child process that is killed, kept from writing, or waited for.

#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace aftercut::test {

class Child {
 public:
  /// Starts the program; standard output goes to `out`, the rest nowhere. `before`: done in the child first.
  Child(const std::vector<std::string>& arguments, std::filesystem::path out,
        const std::function<void()>& before = {});
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child();
  [[nodiscard]] bool ended();
  void kill_hard();
  /// Its exit code; 128 and the signal's number where one ended it.
  int wait();
  [[nodiscard]] std::string said() const;  ///< on standard output, so far

 private:
  pid_t pid_ = -1;
  int status_ = -1;
  bool over_ = false;
  std::filesystem::path out_;
};

void sleep_us(int us);

}  // namespace aftercut::test
