#pragma once
// A server of the demo farm at a port of its own, and how tests talk to it.

#include <httplib.h>

#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "aftercut/server/server.hpp"
#include "served_farm.hpp"

namespace aftercut::test {

using Json = nlohmann::json;

inline const std::string server_key = "0123456789abcdef0123456789abcdef";
inline const char* const json_type = "application/json";
inline const char* const surer =
    R"({"name": "surer", "changes": [{"change": "want_chance", "chance": 0.8}]})";

/// A server in a thread of its own, its plan made.
class Served {
 public:
  explicit Served(const std::string& name);
  ~Served();
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;
  [[nodiscard]] httplib::Client client() const;
  [[nodiscard]] Json job(const std::string& id) const;
  /// Digests of every file of the plan folder.
  [[nodiscard]] std::string plan_files() const;
  Scratch scratch;
  int port = 0;

 private:
  server::Server server_;
  std::thread thread_;
};

/// "404 no-plan": status and code of an error in the server's one shape; a failed test where it has another.
std::string error_code(const httplib::Result& r);

}  // namespace aftercut::test
