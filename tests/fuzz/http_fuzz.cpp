// Requests to the server room: the library's reader, the guard, every route, without sockets. The first byte
// says in pieces of how many bytes the rest comes.

#include <nlohmann/json.hpp>
#include <thread>

#include "aftercut/server/server.hpp"
#include "fuzz.hpp"
#include "http.hpp"

namespace {

using namespace aftercut;

const std::string key = "0123456789abcdef0123456789abcdef";
constexpr std::size_t longest_answer = 16U << 20U;  // bytes

/// Bytes that come in pieces and then end; what is answered.
class Line : public httplib::Stream {
 public:
  Line(std::string bytes, std::size_t piece) : bytes_{std::move(bytes)}, piece_{piece} {}
  [[nodiscard]] bool is_readable() const override { return at_ < bytes_.size(); }
  [[nodiscard]] bool is_writable() const override { return true; }
  ssize_t read(char* to, std::size_t size) override {
    const std::size_t n = bytes_.copy(to, std::min(size, piece_), at_);
    at_ += n;
    return static_cast<ssize_t>(n);
  }
  ssize_t write(const char* from, std::size_t size) override {
    fuzz::must(answer.size() + size < longest_answer, "an answer has a bound");
    answer.append(from, size);
    return static_cast<ssize_t>(size);
  }
  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    std::tie(ip, port) = std::pair{"127.0.0.1", 9};
  }
  void get_local_ip_and_port(std::string& ip, int& port) const override { get_remote_ip_and_port(ip, port); }
  [[nodiscard]] socket_t socket() const override { return -1; }
  std::string answer;

 private:
  std::string bytes_;
  std::size_t piece_ = 1, at_ = 0;
};

class Http : public httplib::Server {
 public:
  std::string answer(const std::string& bytes, std::size_t piece) {
    Line line{bytes, piece};
    bool closed = false;
    process_request(line, true, closed, [](httplib::Request&) {});
    return line.answer;
  }
};

/// A server on the small fixed farm with a plan that stands. Questions that can be read are refused by the
/// farm's reader, so that no input plans.
class Served {
 public:
  Served() : folder_{"http"}, desk_{setup()} {
    server::set_up(http_, desk_, guard_);
    desk_.open();
    wait_for("base");
    fuzz::must(desk_.plan("base") != nullptr, "there is a plan that stands");
    desk_.events.close();  // a listener would wait for the next
  }
  std::string answer(const std::string& bytes, std::size_t piece) {
    std::string got = http_.answer(bytes, piece);
    const auto job = desk_.latest();
    if (job && job->id != "base") {
      desk_.give_up(job->id);
      wait_for(job->id);
    }
    std::filesystem::remove_all(folder_.path() / "scenarios");
    std::filesystem::remove(folder_.path() / journal::file_name);
    return got;
  }

 private:
  void wait_for(const std::string& id) const {
    for (;;) {
      const std::string stage = desk_.job(id)->stage;
      if (stage == "planned" || stage == "refused" || stage == "given_up" || stage == "failed") return;
      std::this_thread::sleep_for(std::chrono::microseconds{200});
    }
  }
  static Issues no_answer(const std::string& asked) {
    return {{asked, "whole file", "a question", "none", "this server answers none"}};
  }
  [[nodiscard]] server::Setup setup() const {
    server::Setup s;
    s.folder = folder_.path();
    s.out = folder_.path() / "out";
    s.version = "fuzz";
    s.quick_changes = s.changes = 2;
    s.bound_rounds = s.one_more_plans = 0;
    s.read = [folder = folder_.path()](const server::ToRead& what) -> Result<server::ReadFarm> {
      if (what.scenario) return no_answer(what.file);
      auto read = farm::read(folder, {});
      if (!read.ok()) return read.issues();
      return server::ReadFarm{std::move(read).value(), {}};
    };
    s.read_on = [](Date) -> Result<server::ReadFarm> { return no_answer("a morning"); };
    s.read_bare = [folder = folder_.path()] {
      farm::ReadOptions options;
      options.fit_implements = false;
      return farm::read(folder, options);
    };
    s.now = [] { return journal::Now{"2026-10-20T18:03:22Z", make_date(2026, 10, 20)}; };
    return s;
  }

  fuzz::FarmFolder folder_;
  server::Desk desk_;
  server::Guard guard_{{"127.0.0.1:8765"}, key, "aftercut_8765"};
  Http http_;
};

/// Every "%41" as the byte that it stands for: where the key could hide.
std::string plain(const std::string& bytes) {
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::string two = bytes.substr(std::min(i + 1, bytes.size()), 2);
    if (bytes[i] == '%' && two.size() == 2 && std::isxdigit(two[0]) != 0 && std::isxdigit(two[1]) != 0) {
      out += static_cast<char>(std::stoi(two, nullptr, 16));
      i += 2;
    } else {
      out += bytes[i];
    }
  }
  return out;
}

void check_answer(const std::string& request, std::string answer) {
  if (answer.starts_with("HTTP/1.1 100 "))
    answer = answer.substr(std::min(answer.find("\r\n\r\n") + 4, answer.size()));
  if (answer.empty()) return;  // the bytes ended before there was a request
  fuzz::must(answer.starts_with("HTTP/1.1 ") && answer.size() > 12,
             "an answer has a status: " + answer.substr(0, 60));
  const int status = std::stoi(answer.substr(9, 3));
  const std::size_t end = answer.find("\r\n\r\n");
  fuzz::must(end != std::string::npos, "an answer's head ends");
  const std::string head = answer.substr(0, end), body = answer.substr(end + 4);
  fuzz::must(status != 500, "no request meets a fault of ours: " + body.substr(0, 300));
  if (request.find(key) == std::string::npos && plain(request).find(key) == std::string::npos) {
    fuzz::must(status >= 400, "nothing is served without the key");
    fuzz::must(answer.find(key) == std::string::npos, "the key is told to nobody who has it not");
  }
  fuzz::must(head.find("nosniff") != std::string::npos, "every answer has the headers: " + head);
  if (status < 400 || request.find("HEAD") != std::string::npos ||
      head.find("Content-Encoding") != std::string::npos)
    return;
  const auto json = nlohmann::json::parse(body, nullptr, false);
  fuzz::must(json.is_object() && json.contains("error") && json["error"]["code"].is_string(),
             "errors have one shape: " + head + "\n" + body.substr(0, 300));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2 || data[0] == 0) return -1;
  static Served served;
  const std::string request = fuzz::text_of(data + 1, size - 1);
  check_answer(request, served.answer(request, data[0]));
  return 0;
}
