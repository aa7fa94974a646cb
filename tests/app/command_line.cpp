#include "command_line.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace aftercut::test {
namespace {

namespace fs = std::filesystem;

fs::path own_folder() {
  static std::atomic<int> count{0};
  fs::path folder = fs::temp_directory_path() /
                    ("aftercut-test-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
  fs::create_directories(folder);
  return folder;
}

}  // namespace

std::string text_of(const fs::path& file) {
  std::ifstream in{file, std::ios::binary};
  if (!in) throw std::runtime_error("cannot read " + file.string());
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

void put_text(const fs::path& file, const std::string& text) {
  std::ofstream out{file, std::ios::binary};
  out << text;
}

void edit(const fs::path& file, const std::string& from, const std::string& to) {
  std::string text = text_of(file);
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in " + file.string() + ": " + from);
  put_text(file, text.replace(at, from.size(), to));
}

Ran run_program(const std::string& arguments) {
  const fs::path folder = own_folder();
  const std::string command = std::string{AFTERCUT_PROGRAM} + " " + arguments + " >" +
                              (folder / "out").string() + " 2>" + (folder / "err").string();
  const int status = std::system(command.c_str());
  Ran ran{WIFEXITED(status) ? WEXITSTATUS(status) : -1, text_of(folder / "out"), text_of(folder / "err")};
  fs::remove_all(folder);
  return ran;
}

DemoCopy::DemoCopy() : root_{own_folder()} {
  const fs::path source{AFTERCUT_SOURCE_DIR};
  fs::create_directories(root_ / "fields");
  fs::copy(source / "fields" / "demo", farm(), fs::copy_options::recursive);
  fs::copy(source / "weather", root_ / "weather", fs::copy_options::recursive);
}

DemoCopy::~DemoCopy() {
  std::error_code ignored;
  fs::remove_all(root_, ignored);
}

}  // namespace aftercut::test
