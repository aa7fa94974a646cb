#include "aftercut/app/terminal.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

#include "aftercut/app/commands.hpp"

namespace aftercut::app {

using Json = nlohmann::ordered_json;

std::string issues_json(const Issues& issues) {
  Json list = Json::array();
  for (const Issue& i : issues)
    list.push_back(
        {{"file", i.file}, {"place", i.place}, {"found", i.found}, {"expected", i.expected}, {"fix", i.fix}});
  return Json{{"issues", list}}.dump(1, ' ', false, Json::error_handler_t::replace);
}

std::string audit_json(const audit::Audit& audit) {
  Json list = Json::array();
  for (const auto& v : audit.violations)
    list.push_back({{"rule", v.rule}, {"where", v.where}, {"found", v.found}, {"expected", v.expected}});
  return Json{{"ok", audit.ok()}, {"checks", audit.checks}, {"count", audit.count}, {"violations", list}}
      .dump(1);
}

std::string fields_json(const std::string& plan_json, const std::string& field) {
  const Json plan = Json::parse(plan_json);
  Json fields = Json::array();
  for (const Json& f : plan.at("fields"))
    if (field.empty() || f.at("id") == field) fields.push_back(f);
  return Json{{"fields", fields}}.dump(1);
}

std::string audit_text(const audit::Audit& audit) {
  if (audit.ok()) return fmt::format("Audit: {} checks, nothing found.\n", audit.checks);
  std::string text = fmt::format("Audit: {} checks, {} violations.\n", audit.checks, audit.count);
  for (const auto& v : audit.violations)
    text += fmt::format("  {}: {}: found {}; expected {}\n", v.rule, v.where, v.found, v.expected);
  if (audit.count > audit.violations.size())
    text += fmt::format("  and {} more\n", audit.count - audit.violations.size());
  return text;
}

int report_issues(const Issues& issues, bool json) {
  if (json) {
    fmt::print("{}\n", issues_json(issues));
  } else {
    for (const Issue& i : issues)
      fmt::print(stderr, "{}: {}\n  found:    {}\n  expected: {}\n  fix:      {}\n", i.file, i.place, i.found,
                 i.expected, i.fix);
    fmt::print(stderr, "{} {} in the input; nothing was written.\n", issues.size(),
               issues.size() == 1 ? "issue" : "issues");
  }
  return bad_input;
}

struct LateWord::Inside {
  std::mutex mutex;
  std::condition_variable ends;
  bool over = false;
  std::thread waiting;
};

LateWord::LateWord(const std::string& what) {
  if (::isatty(STDERR_FILENO) == 0) return;
  in_ = std::make_unique<Inside>();
  in_->waiting = std::thread{[in = in_.get(), what] {
    std::unique_lock lock{in->mutex};
    if (in->ends.wait_for(lock, std::chrono::seconds{1}, [in] { return in->over; })) return;
    fmt::print(stderr, "{}", what);
    std::fflush(stderr);
    in->ends.wait(lock, [in] { return in->over; });
    fmt::print(stderr, "\r\033[K");
  }};
}

LateWord::~LateWord() {
  if (!in_) return;
  {
    const std::lock_guard lock{in_->mutex};
    in_->over = true;
  }
  in_->ends.notify_all();
  in_->waiting.join();
}

std::function<void(double)> progress_line(const std::string& what) {
  if (::isatty(STDERR_FILENO) == 0) return {};
  const auto last = std::make_shared<int>(-1);
  return [what, last](double share) {
    const int percent = static_cast<int>(share * 100.0);
    if (percent == *last) return;
    *last = percent;
    fmt::print(stderr, "\r{} {:3d} %{}", what, percent, percent >= 100 ? "\r\033[K" : "");
    std::fflush(stderr);
  };
}

}  // namespace aftercut::app
