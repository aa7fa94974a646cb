#include "aftercut/server/server.hpp"

#include <sys/socket.h>

#include <algorithm>
#include <csignal>
#include <thread>

#include "aftercut/core/require.hpp"
#include "http.hpp"

namespace aftercut::server {
namespace {

constexpr std::size_t least_key = 32;
constexpr std::size_t answering_threads = 24;
constexpr int patience_s = 5;
constexpr int waiting_connections = 512;

/// A second server on the same port is refused, not let in beside the first.
void alone_on_its_port(int socket) {
  const int yes = 1;
  ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

const char* code_of(int status) {
  switch (status) {
    case 400:
      return "not-http";
    case 404:
      return "not-here";
    case 413:
      return "too-large";
    case 414:
      return "too-long";
    default:
      return status >= 500 ? "our-fault" : "refused";
  }
}

/// Answers are whole, as HTTP lets them be: of a range that is asked for the library would cut errors too.
void only_whole(const httplib::Request& request) {
  const_cast<httplib::Request&>(request).ranges.clear();  // the library's own object, which is not const
}

void fill_error(const httplib::Request& request, httplib::Response& response) {
  set_headers(response);
  only_whole(request);  // of those too that the library refuses before it asks the guard
  if (response.body.empty())
    reply_error(response, response.status, code_of(response.status),
                response.status == 404 ? "There is nothing at this address." : "The request was not served.");
}

}  // namespace

void set_up(httplib::Server& http, Desk& desk, const Guard& guard) {
  http.set_keep_alive_max_count(1);  // what is left of a refused request is never read as the next one
  http.set_read_timeout(patience_s);
  http.set_write_timeout(patience_s);
  http.set_payload_max_length(most_body);
  http.set_pre_routing_handler([&guard](const httplib::Request& q, httplib::Response& r) {
    set_headers(r);
    only_whole(q);
    const auto away = turned_away(guard, knock_of(q));
    if (!away) return httplib::Server::HandlerResponse::Unhandled;
    reply_error(r, away->status, away->code, away->words);
    return httplib::Server::HandlerResponse::Handled;
  });
  http.set_error_handler(fill_error);
  http.set_exception_handler([](const httplib::Request&, httplib::Response& r, std::exception_ptr) {
    set_headers(r);
    reply_error(r, 500, "our-fault",
                "This is a fault of aftercut. The plan and the folder are as they were.");
  });
  add_page_routes(http, desk, guard);
  add_state_routes(http, desk);
  add_question_routes(http, desk);
  add_journal_routes(http, desk);
}

/// The library lets five connections wait; beyond that the system resets some whose request comes in two
/// parts.
class WaitingHttp : public httplib::Server {
 public:
  void let_wait(int connections) { ::listen(svr_sock_, connections); }
};

class Server::Inside {
 public:
  Inside(Setup setup, Listen listen) : listen_{std::move(listen)}, desk_{std::move(setup)} {
    require(listen_.key.size() >= least_key, "a key is long enough not to be guessed");
    http_.new_task_queue = [] { return new httplib::ThreadPool(answering_threads); };
    http_.set_socket_options(alone_on_its_port);
    set_up(http_, desk_, guard_);
  }

  Result<int> bind() {
    int port = listen_.port;
    if (port == 0)
      port = http_.bind_to_any_port(listen_.address);
    else if (!http_.bind_to_port(listen_.address, port))
      port = -1;
    if (port < 0)
      return Issues{{"command line", "--port", listen_.address + ":" + std::to_string(listen_.port),
                     "an address and port that are free",
                     "give another --port, or end the program that has this one"}};
    http_.let_wait(waiting_connections);
    listen_.port = port;
    const std::string at = ":" + std::to_string(port);
    guard_ = {{listen_.address + at}, listen_.key, "aftercut_" + std::to_string(port)};
    if (listen_.address == "127.0.0.1") guard_.hosts.push_back("localhost" + at);
    return port;
  }

  [[nodiscard]] std::string address() const {
    return "http://" + guard_.hosts.front() + "/?key=" + listen_.key;
  }

  void run() {
    desk_.open();
    http_.listen_after_bind();
  }

  void stop() {
    desk_.events.close();
    http_.stop();
  }

 private:
  Listen listen_;
  Guard guard_;
  Desk desk_;
  WaitingHttp http_;
};

Server::Server(Setup setup, Listen listen)
    : in_{std::make_unique<Inside>(std::move(setup), std::move(listen))} {}
Server::~Server() = default;
Result<int> Server::bind() { return in_->bind(); }
std::string Server::address_with_key() const { return in_->address(); }
void Server::run() { in_->run(); }
void Server::stop() { in_->stop(); }

void run_until_told_to_end(Server& server) {
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGTERM);
  sigaddset(&ends, SIGINT);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);
  std::jthread waiting{[&] {
    int signal = 0;
    sigwait(&ends, &signal);
    server.stop();
  }};
  server.run();
  pthread_kill(waiting.native_handle(), SIGTERM);  // where the server ended by itself
}

}  // namespace aftercut::server
