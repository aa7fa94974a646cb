// Runs a fuzz target once on each file of the folders named: the kept inputs as a plain test.

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <vector>

#include "aftercut/core/save_file.hpp"
#include "fuzz.hpp"

int main(int count, char** words) {
  std::vector<std::filesystem::path> files;
  for (int i = 1; i < count; ++i)
    for (const auto& entry : std::filesystem::directory_iterator{words[i]}) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    const auto bytes = aftercut::read_file(file);
    aftercut::fuzz::must(bytes.ok(), "a kept input can be read: " + file.string());
    std::printf("%s\n", file.c_str());
    std::fflush(stdout);
    // A copy of exactly the input's length: a sanitizer sees a read beyond it.
    const std::vector<std::uint8_t> exact(bytes.value().begin(), bytes.value().end());
    LLVMFuzzerTestOneInput(exact.data(), exact.size());
  }
  aftercut::fuzz::must(!files.empty(), "there are kept inputs");
  std::printf("%zu inputs\n", files.size());
}
