#pragma once
// The page on the network: HTTP on 127.0.0.1, to this machine alone. It survives whatever comes: heads and
// bodies are bounded before they are read, a request that comes too slowly is dropped, and what is slow holds
// up nothing else.

#include <memory>

#include "base/result.h"
#include "page/workbench.h"

namespace crownwright::page {

struct ServerLimits {
  std::size_t head_bytes = 32'000;    ///< request line and headers
  int request_seconds = 10;           ///< for a whole request to come in
  int answer_seconds = 60;            ///< for a whole answer to be taken
  int idle_seconds = 30;              ///< a connection without a request; less when others wait for its place
  int linger_seconds = 1;             ///< to let a refused client read why
  std::size_t most_connections = 64;  ///< worked on at a time
  std::size_t most_waiting = 512;     ///< beyond these, sent away
  int requests_per_connection = 1000;
};

class Server {
 public:
  /// The workbench outlives the server.
  explicit Server(Workbench& workbench, const ServerLimits& limits = {});
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Begins to listen on 127.0.0.1; 0: any free port. Returns the port. Fault (exit 4): it is taken, or may
  /// not be had.
  Result<int> listen(int port);
  /// Answers until stop(). False: it ended by itself. Precondition: listen() went well.
  bool run();
  /// From any thread, also before run(). Answers that are being worked on are finished.
  void stop();

 private:
  class Http;
  std::unique_ptr<Http> http_;
};

}  // namespace crownwright::page
