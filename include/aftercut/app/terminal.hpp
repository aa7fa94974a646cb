#pragma once
// What the commands say on the terminal: issues, progress, JSON for scripts.

#include <functional>
#include <memory>
#include <string>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::app {

/// Every issue on standard error (or as JSON on standard output), and the exit code for bad input.
int report_issues(const Issues& issues, bool json);

/// A progress line on a terminal's standard error; silent in a pipe.
std::function<void(double)> progress_line(const std::string& what);

/// Says `what` on a terminal's standard error if it lives for more than a second, and takes it back at its
/// end; silent in a pipe.
class LateWord {
 public:
  explicit LateWord(const std::string& what);
  ~LateWord();
  LateWord(const LateWord&) = delete;
  LateWord& operator=(const LateWord&) = delete;

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

/// {"issues": [...]} and {"violations": [...]} for scripts.
std::string issues_json(const Issues& issues);
std::string audit_json(const audit::Audit& audit);
/// {"fields": [...]} out of a plan.json text: the one field, or all where `field` is empty.
std::string fields_json(const std::string& plan_json, const std::string& field);
std::string audit_text(const audit::Audit& audit);

}  // namespace aftercut::app
