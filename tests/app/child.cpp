#include "child.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <stdexcept>
#include <thread>

#include "command_line.hpp"

namespace aftercut::test {

Child::Child(const std::vector<std::string>& arguments, std::filesystem::path out,
             const std::function<void()>& before)
    : out_{std::move(out)} {
  std::vector<std::string> words{AFTERCUT_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  argv.reserve(words.size() + 1);
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  pid_ = ::fork();
  if (pid_ < 0) throw std::runtime_error("cannot fork");
  if (pid_ != 0) return;
  const int file = ::open(out_.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644),
            nowhere = ::open("/dev/null", O_RDWR);
  ::dup2(nowhere, STDIN_FILENO);
  ::dup2(file, STDOUT_FILENO);
  ::dup2(nowhere, STDERR_FILENO);
  if (before) before();
  ::execv(argv[0], argv.data());
  ::_exit(127);
}

Child::~Child() {
  if (over_) return;
  ::kill(pid_, SIGKILL);
  ::waitpid(pid_, &status_, 0);
}

bool Child::ended() {
  if (!over_) over_ = ::waitpid(pid_, &status_, WNOHANG) == pid_;
  return over_;
}

void Child::kill_hard() {
  if (!over_) ::kill(pid_, SIGKILL);
}

int Child::wait() {
  if (!over_) ::waitpid(pid_, &status_, 0);
  over_ = true;
  return WIFEXITED(status_) ? WEXITSTATUS(status_) : 128 + WTERMSIG(status_);
}

std::string Child::said() const { return text_of(out_); }

void sleep_us(int us) { std::this_thread::sleep_for(std::chrono::microseconds{us}); }

}  // namespace aftercut::test
