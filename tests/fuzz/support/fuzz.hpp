#pragma once
// What every fuzz target needs: bytes as text, what must hold of a reader's answer, a small farm folder in
// memory of which one file is the input.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/farm/read.hpp"

/// The target: aborts, or lets an exception out, where something does not hold.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace aftercut::fuzz {

std::string text_of(const std::uint8_t* data, std::size_t size);

/// Ends the program with these words on its error stream where `holds` is false.
void must(bool holds, const std::string& words);

/// Every issue names file, place, what was found, what is expected and what mends it, in UTF-8 text.
/// All of them as one text, to be held against those of another reading.
std::string checked(const Issues& issues);

/// One input in eight is read twice: which, is told by its bytes.
bool read_twice(const std::string& bytes);

/// A copy of tests/fuzz/farm of this process's own, in memory where the system has such a place; gone at the
/// end.
class FarmFolder {
 public:
  explicit FarmFolder(const std::string& target);
  FarmFolder(const FarmFolder&) = delete;
  FarmFolder& operator=(const FarmFolder&) = delete;
  ~FarmFolder();
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  void put(const std::string& name, const std::string& bytes) const;
  /// farm.json's text with one piece put in the place of another.
  void put_farm(const std::string& piece, const std::string& instead) const;

 private:
  std::filesystem::path path_;
};

/// Reads the folder, and one time in eight again: issues as they should be, and the same ones; or a farm
/// whose numbers are all finite.
void read_and_check(const FarmFolder& folder, const std::string& bytes,
                    const farm::ReadOptions& options = {});

}  // namespace aftercut::fuzz
