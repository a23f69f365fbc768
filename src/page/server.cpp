#include "page/server.h"

#include <httplib.h>

#include <atomic>
#include <cerrno>
#include <chrono>
#include <semaphore>
#include <system_error>
#include <thread>

#include "page/assets.h"
#include "page/connection.h"
#include "page/crew.h"
#include "page/manners.h"
#include "page/request.h"

namespace crownwright::page {
namespace {

using std::chrono::seconds;

constexpr int client_gone = 499;  ///< never seen by anyone

constexpr char policy[] =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src "
    "'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// The connection that this thread works on, and whether it is to end after this request.
thread_local Connection* current = nullptr;
thread_local bool ends_after_this = false;
thread_local bool is_sent_away = false;

/// A connection as httplib reads and writes it.
class BoundedStream : public httplib::Stream {
 public:
  explicit BoundedStream(Connection& connection) : connection_(connection) {}
  bool is_readable() const override { return connection_.is_readable(); }
  bool is_writable() const override { return connection_.is_writable(); }
  ssize_t read(char* to, std::size_t size) override { return connection_.read(to, size); }
  ssize_t write(const char* from, std::size_t size) override { return connection_.write(from, size); }
  void get_remote_ip_and_port(std::string& ip, int& port) const override { ip = "127.0.0.1", port = 0; }
  void get_local_ip_and_port(std::string& ip, int& port) const override { ip = "127.0.0.1", port = 0; }
  socket_t socket() const override { return connection_.socket(); }

 private:
  Connection& connection_;
};

/// httplib's threads: ours. What there is no room for is sent away by the thread that accepts.
class CrewQueue : public httplib::TaskQueue {
 public:
  explicit CrewQueue(Crew& crew) : crew_(crew) {}
  void enqueue(std::function<void()> work) override {
    if (crew_.take(work)) return;
    is_sent_away = true;
    work();
    is_sent_away = false;
  }
  void shutdown() override { crew_.finish(); }

 private:
  Crew& crew_;
};

/// A seat among those that compute: as many as there are cores. Nothing when the one who asked has left.
class Seat {
 public:
  Seat(std::counting_semaphore<>& seats, const Connection* asker) : seats_(seats) {
    using namespace std::chrono_literals;
    while (!(taken_ = seats_.try_acquire_for(50ms)))
      if (asker != nullptr && asker->is_gone()) return;
    // A page that has asked anew hangs up on the old question.
    if (asker == nullptr || !asker->is_gone()) return;
    seats_.release();
    taken_ = false;
  }
  ~Seat() {
    if (taken_) seats_.release();
  }
  Seat(const Seat&) = delete;
  Seat& operator=(const Seat&) = delete;
  bool is_taken() const { return taken_; }

 private:
  std::counting_semaphore<>& seats_;
  bool taken_ = false;
};

std::vector<std::string> all_values(const httplib::Request& request, const std::string& name) {
  std::vector<std::string> values;
  const auto [from, to] = request.headers.equal_range(name);
  for (auto at = from; at != to; ++at) values.push_back(at->second);
  return values;
}

Head head_of(const httplib::Request& request) {
  Head head{request.method, request.path, {}, {}, {}, {}, {}, {}};
  head.host = all_values(request, "Host");
  head.origin = all_values(request, "Origin");
  head.content_type = all_values(request, "Content-Type");
  head.content_length = all_values(request, "Content-Length");
  head.content_encoding = all_values(request, "Content-Encoding");
  head.transfer_encoding = all_values(request, "Transfer-Encoding");
  return head;
}

void give(const Answer& answer, httplib::Response& response) {
  response.status = answer.status;
  response.set_content(answer.body, answer.type);
  if (!answer.file_name.empty())
    response.set_header("Content-Disposition", "attachment; filename=\"" + answer.file_name + "\"");
}

// httplib packs what a client says it can unpack, which costs more than the preview itself, and cuts ranges
// out of any answer: neither is wanted.
void strip(httplib::Request& request) {
  request.headers.erase("Accept-Encoding");
  request.headers.erase("Range");
  request.ranges.clear();
}

httplib::Headers safe_headers() {
  return {{"Content-Security-Policy", policy},
          {"X-Content-Type-Options", "nosniff"},
          {"Referrer-Policy", "no-referrer"},
          {"Cache-Control", "no-store"},
          {"Cross-Origin-Opener-Policy", "same-origin"},
          {"Cross-Origin-Resource-Policy", "same-origin"}};
}

Fault not_listening(int port, int error) {
  const std::string where = "port " + std::to_string(port);
  if (error == EADDRINUSE)
    return file_fault(where, "another program listens there already",
                      "another --port, or none to take any that is free");
  return file_fault(where, "it cannot be listened on: " + std::generic_category().message(error),
                    "another --port, or none to take any that is free");
}

std::string status_words(int status) {
  return status == 414 ? "the address is too long" : "this is no request that is understood here";
}

}  // namespace

class Server::Http : public httplib::Server {
 public:
  Http(Workbench& workbench, const ServerLimits& limits)
      : workbench_(workbench),
        limits_(limits),
        crew_(limits.most_connections, limits.most_waiting),
        seats_(std::max(1u, std::thread::hardware_concurrency())) {
    new_task_queue = [this] { return new CrewQueue(crew_); };
    set_default_headers(safe_headers());
    set_payload_max_length(most_request_bytes);
    set_keep_alive_timeout(limits.idle_seconds);
    set_keep_alive_max_count(static_cast<std::size_t>(limits.requests_per_connection));
    // Not SO_REUSEPORT, with which two programs could listen on one port.
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    set_pre_routing_handler([this](const auto& request, auto& response) {
      return keeps_manners(request, response) ? HandlerResponse::Unhandled : HandlerResponse::Handled;
    });
    // However long the work took, the answer has all its time.
    set_post_routing_handler(
        [this](const auto&, auto&) { current->may_write(seconds(limits_.answer_seconds)); });
    set_error_handler([](const httplib::Request&, httplib::Response& response) {
      if (!response.body.empty()) return;
      ends_after_this = true;
      give(refused(response.status, order_fault("request", status_words(response.status), "")), response);
    });
    set_exception_handler([](const auto&, auto& response, std::exception_ptr) {
      give(refused(500, {ExitCode::internal, "", "a fault of the program itself", ""}), response);
    });
    add_routes();
  }

  Result<int> begin(int port) {
    errno = 0;
    const int got = port == 0 ? bind_to_any_port("127.0.0.1") : bind_to_port("127.0.0.1", port) ? port : -1;
    if (got <= 0) return not_listening(port, errno);
    constexpr int backlog = 512;  // httplib's own of 5 lets the system turn callers away
    ::listen(svr_sock_, backlog);
    port_ = got;
    return got;
  }

  bool answer_all() { return stops_ || listen_after_bind() || stops_; }

  void end() {
    stops_ = true;
    // Before listen_after_bind() there is nothing that stop() would end.
    while (!is_running() && !is_over_) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    stop();
  }
  void over() { is_over_ = true; }

 private:
  bool keeps_manners(const httplib::Request& request, httplib::Response& response) {
    const auto refusal = refusal_of(head_of(request), port_);
    if (!refusal) return true;
    give(refusal->answer, response);
    if (!refusal->allow.empty()) response.set_header("Allow", refusal->allow);
    ends_after_this = true;  // its body is not read, so nothing after it can be
    return false;
  }

  void add_routes() {
    for (const Asset& asset : assets()) {
      Get(std::string(asset.path), [asset](const httplib::Request&, httplib::Response& response) {
        response.set_header("Content-Encoding", "gzip");
        response.set_content(asset.gzip.data(), asset.gzip.size(), std::string(asset.type));
      });
    }
    Get("/api/workshop", [this](const httplib::Request&, httplib::Response& response) {
      give(workbench_.workshop(), response);
    });
    post_seated("/api/preview", [this](const std::string& body) { return workbench_.preview(body); });
    post_seated("/api/open", [this](const std::string& body) { return workbench_.open(body); });
    post_seated("/api/save", [this](const std::string& body) { return workbench_.save(body); });
    // Forms are made one after the other anyway: whoever waits for one must not keep previews waiting.
    post("/api/make", [this](const std::string& body) { return workbench_.make(body); });
    post("/api/file", [this](const std::string& body) { return workbench_.file(body); });
  }

  using Work = std::function<Answer(const std::string&)>;

  void post(const std::string& path, Work work) {
    Post(path, [work = std::move(work)](const httplib::Request& request, httplib::Response& response) {
      give(work(request.body), response);
    });
  }

  void post_seated(const std::string& path, Work work) {
    Post(path, [this, work = std::move(work)](const httplib::Request& request, httplib::Response& response) {
      const Seat seat(seats_, current);
      if (seat.is_taken()) return give(work(request.body), response);
      ends_after_this = true;
      response.status = client_gone;
    });
  }

  // Head and body have bounds of their own, and one time for both.
  bool answer_one(Connection& connection) {
    BoundedStream stream(connection);
    connection.may_read(limits_.head_bytes, seconds(limits_.request_seconds));
    connection.may_write(seconds(limits_.request_seconds));
    ends_after_this = false;
    bool closes = false;
    const bool went_well = process_request(stream, false, closes, [&](httplib::Request& request) {
      strip(request);
      connection.may_read_also(most_request_bytes);
    });
    return went_well && !closes && !ends_after_this;
  }

  bool process_and_close_socket(socket_t socket) override {
    Connection connection(socket);
    if (is_sent_away) return true;
    current = &connection;
    const auto leaves = [this] { return stops_.load() || crew_.is_crowded(); };
    bool first = true, spoiled = false;
    for (int k = 0; k < limits_.requests_per_connection; ++k) {
      // A new connection is heard out even when others wait.
      const auto never = [this] { return stops_.load(); };
      const bool came = first ? connection.waits_for_request(seconds(limits_.idle_seconds), never)
                              : connection.waits_for_request(seconds(limits_.idle_seconds), leaves);
      if (!came) break;
      spoiled = !answer_one(connection);
      if (spoiled) break;
      first = false;
    }
    // Only who may still be sending has to be read away.
    if (spoiled) connection.linger(seconds(limits_.linger_seconds));
    current = nullptr;
    return true;
  }

  Workbench& workbench_;
  ServerLimits limits_;
  Crew crew_;
  std::counting_semaphore<> seats_;
  std::atomic<int> port_ = 0;
  std::atomic<bool> stops_ = false, is_over_ = false;
};

Server::Server(Workbench& workbench, const ServerLimits& limits)
    : http_(std::make_unique<Http>(workbench, limits)) {}

Server::~Server() = default;

Result<int> Server::listen(int port) { return http_->begin(port); }

bool Server::run() {
  const bool went_well = http_->answer_all();
  http_->over();
  return went_well;
}

void Server::stop() { http_->end(); }

}  // namespace crownwright::page
