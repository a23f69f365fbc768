#pragma once
// A connected socket whose reading and writing have an end: in bytes and in time.

#include <sys/types.h>

#include <array>
#include <chrono>
#include <cstddef>
#include <functional>
#include <string>

namespace crownwright::page {

class Connection {
 public:
  using Clock = std::chrono::steady_clock;

  /// Takes the socket and closes it in the end.
  explicit Connection(int socket) : socket_(socket) {}
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// Waits for the first byte of a request. False: none came in that time, the other side left, or `leave`
  /// says so; asked ten times a second.
  bool waits_for_request(std::chrono::seconds most, const std::function<bool()>& leave);
  /// From here on no more than that many bytes are read, and none after that time.
  void may_read(std::size_t bytes, std::chrono::seconds time);
  void may_write(std::chrono::seconds time);
  /// Raises the bytes that are left to read; the time stays.
  void may_read_also(std::size_t bytes) { bytes_left_ += bytes; }

  /// -1 on error, at the end of what may be read, and when time is over; 0: the other side has ended.
  ssize_t read(char* to, std::size_t size);
  ssize_t write(const char* from, std::size_t size);
  bool is_readable() const;
  bool is_writable() const;
  /// The other side has closed: no one takes an answer any more.
  bool is_gone() const;
  /// Sends our end and reads away what still comes, so that the answer is not lost with it.
  void linger(std::chrono::seconds most);
  int socket() const { return socket_; }

 private:
  /// As read, but straight from the socket.
  ssize_t receive(char* to, std::size_t size);
  int socket_;
  std::array<char, 16'384> came_{};  ///< what came and was not read yet
  std::size_t came_from_ = 0, came_to_ = 0;
  std::size_t bytes_left_ = 0;
  Clock::time_point read_until_{}, write_until_{};
};

}  // namespace crownwright::page
