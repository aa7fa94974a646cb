#pragma once
// `aftercut serve` as a child process that is killed while it writes what a client asks for.

#include <httplib.h>

#include <functional>
#include <nlohmann/json.hpp>
#include <string>

#include "child.hpp"
#include "command_line.hpp"

namespace aftercut::test {

inline constexpr const char* json_type = "application/json";

/// A server of a farm on a free port, its plan made or read.
class Serving {
 public:
  /// `options`: those of `plan` and `serve`. A failed test where it does not come up.
  Serving(const std::filesystem::path& farm, const std::filesystem::path& out,
          const std::vector<std::string>& options, const std::filesystem::path& said);
  [[nodiscard]] httplib::Client client() const;
  /// The latest question's stage: "planned", "planning", ... or "gone".
  [[nodiscard]] std::string stage() const;
  [[nodiscard]] bool ended() { return child_.ended(); }
  void kill_hard();

 private:
  Child child_;
  int port_ = 0;
};

/// A copy of the demo with a plan of few years and a short search, and servers of it.
class ServedDemo {
 public:
  ServedDemo();
  [[nodiscard]] std::filesystem::path out() const { return demo.root() / "out"; }
  [[nodiscard]] Serving serve() const;
  const DemoCopy demo;
};

/// What a client asks for again and again until the server is gone; `number` counts from 0. False: no answer
/// came any more.
using Ask = std::function<bool(httplib::Client& client, int number)>;

/// Lets a client ask and kills the server once `wait` has come back, which is called when the first question
/// is on its way. Gives how many were answered.
int ask_until_killed(Serving& serving, const Ask& ask, const std::function<void()>& wait);

}  // namespace aftercut::test
