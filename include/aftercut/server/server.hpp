#pragma once
// Room server, lead header. Purpose: the page, live: a grower opens one address, changes things, plans again
// and takes files away. Takes a way to read the farm, an output folder, an address and a key; serves HTTP
// until it is stopped. Leaves out what a plan is: that is worked out below (docs/server.md).

#include <memory>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/server/work.hpp"

namespace aftercut::server {

struct Listen {
  std::string address = "127.0.0.1";
  int port = 0;     ///< 0: any that is free
  std::string key;  ///< at least 32 characters; whoever has it can ask
};

class Server {
 public:
  Server(Setup setup, Listen listen);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Takes the port. Issues: it is taken, or not ours to take.
  Result<int> bind();
  /// "http://127.0.0.1:8471/?key=..."; after bind().
  [[nodiscard]] std::string address_with_key() const;
  /// Serves until stop(). After bind().
  void run();
  /// From any thread: lets requests end, gives up what is worked out.
  void stop();

 private:
  class Inside;
  std::unique_ptr<Inside> in_;
};

/// Runs until the program is told to end (SIGTERM, SIGINT), then stops cleanly. To be called before any other
/// thread is started.
void run_until_told_to_end(Server& server);

}  // namespace aftercut::server
