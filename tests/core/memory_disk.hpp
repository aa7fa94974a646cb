#pragma once
// A disk in memory that knows what a power cut may leave of it, and that fails or cuts the power at any call.

#include <map>
#include <memory>
#include <set>
#include <stdexcept>

#include "aftercut/core/disk.hpp"

namespace aftercut::test {

struct PowerCut : std::runtime_error {
  PowerCut() : std::runtime_error{"power cut"} {}
};

/// What befalls the n-th call that changes or syncs something, counted from 0.
struct Trouble {
  enum class Kind { none, power_cut, refused, short_write };
  Kind kind = Kind::none;
  int at = -1;
  int why = 0;             ///< errno of `refused`
  bool from_then = false;  ///< every call after it too
};

class MemoryDisk final : public Disk {
 public:
  int open(const std::filesystem::path& path, Open how) override;
  std::int64_t write(int fd, std::string_view bytes) override;
  int sync(int fd) override;
  int cut(int fd, std::uint64_t size) override;
  int close(int fd) override;
  int rename(const std::filesystem::path& from, const std::filesystem::path& to) override;
  int remove(const std::filesystem::path& path) override;
  Result<std::optional<std::string>> read(const std::filesystem::path& path) override;

  /// Trouble from now on; the count begins again.
  void expect(Trouble trouble);
  [[nodiscard]] int calls() const { return calls_; }

  /// Every state in which the files can be found after a power cut now: of what was not synced, data lost,
  /// kept or torn at any byte (the rest missing or zeros), names lost or kept.
  [[nodiscard]] std::vector<std::map<std::string, std::string>> after_power_cut() const;
  /// A disk that holds just these files, all of it synced.
  static std::unique_ptr<MemoryDisk> holding(const std::map<std::string, std::string>& files);
  [[nodiscard]] std::map<std::string, std::string> files() const;  ///< as programs see them

 private:
  struct Change {
    bool cut = false;
    std::uint64_t size = 0;  ///< with `cut`
    std::string bytes;       ///< written at the end
  };
  struct File {
    std::string synced, now;
    std::vector<Change> waiting;
  };
  struct NameChange {
    std::string name, gone;  ///< `name` now is `file`; `gone` is no more
    std::shared_ptr<File> file;
  };
  using Names = std::map<std::string, std::shared_ptr<File>>;

  [[nodiscard]] bool fails();
  static std::vector<std::string> leftovers(const File& file);

  Names names_, synced_names_;
  std::vector<NameChange> waiting_;
  std::map<int, std::shared_ptr<File>> open_;
  std::set<int> folders_;
  Trouble trouble_;
  int calls_ = 0, next_fd_ = 3;
};

}  // namespace aftercut::test
