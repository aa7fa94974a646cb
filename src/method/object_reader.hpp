#pragma once
// Reads members of one JSON object and writes down every fault. Private to the room: JSON stays out of public
// headers.

#include <initializer_list>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::method {

/// The issues of one file, gathered while it is read. Shared by all readers of the file.
class IssueLog {
 public:
  explicit IssueLog(std::string file) : file_{std::move(file)} {}
  void add(const std::string& place, const std::string& found, const std::string& expected,
           const std::string& fix);
  [[nodiscard]] bool empty() const { return issues_.empty(); }
  [[nodiscard]] Issues issues() const { return issues_; }

 private:
  std::string file_;
  Issues issues_;
};
using Log = std::shared_ptr<IssueLog>;

struct Range {
  double low = 0.0;
  double high = 0.0;
};

/// One JSON object at a place. A missing or faulty member gives the fallback; faults go to the log.
class ObjectReader {
 public:
  ObjectReader(nlohmann::json value, std::string place, Log log);

  [[nodiscard]] const std::string& place() const { return place_; }
  [[nodiscard]] bool has(const std::string& key) const { return value_.contains(key); }
  /// An issue for each member that is not one of `keys`.
  void only(std::initializer_list<const char*> keys) const;
  [[nodiscard]] std::string required_text(const std::string& key) const;
  [[nodiscard]] std::string text(const std::string& key, const std::string& fallback = "") const;
  [[nodiscard]] bool flag(const std::string& key, bool fallback) const;
  [[nodiscard]] std::optional<double> number(const std::string& key, Range range) const;
  [[nodiscard]] std::optional<int> whole(const std::string& key, Range range) const;
  [[nodiscard]] std::optional<MonthDay> month_day(const std::string& key) const;
  /// The index of the text among `choices`; `fallback` when the member is missing.
  [[nodiscard]] std::size_t choice(const std::string& key, const std::vector<std::string>& choices,
                                   std::size_t fallback) const;
  [[nodiscard]] std::vector<std::size_t> choices(const std::string& key,
                                                 const std::vector<std::string>& choices) const;
  [[nodiscard]] std::optional<ObjectReader> object(const std::string& key) const;
  [[nodiscard]] std::vector<ObjectReader> objects(const std::string& key) const;
  void fault(const std::string& key, const std::string& expected, const std::string& fix) const;

 private:
  [[nodiscard]] const nlohmann::json* find(const std::string& key) const;

  nlohmann::json value_;
  std::string place_;
  Log log_;
};

}  // namespace aftercut::method
