#include "page/connection.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace crownwright::page {
namespace {

using std::chrono::milliseconds;

// Whether the socket is ready for `events` before that time.
bool ready_before(int socket, short events, Connection::Clock::time_point until) {
  for (;;) {
    const auto left = std::chrono::duration_cast<milliseconds>(until - Connection::Clock::now()).count();
    if (left < 0) return false;
    pollfd one{socket, events, 0};
    const int found = ::poll(&one, 1, static_cast<int>(std::min<long long>(left + 1, 60'000)));
    if (found > 0) return true;
    if (found < 0 && errno != EINTR) return false;
  }
}

bool try_again(int error) { return error == EINTR || error == EAGAIN || error == EWOULDBLOCK; }

}  // namespace

Connection::~Connection() {
  if (socket_ >= 0) ::close(socket_);
}

bool Connection::waits_for_request(std::chrono::seconds most, const std::function<bool()>& leave) {
  constexpr milliseconds slice(100);
  if (came_from_ < came_to_) return true;
  const auto until = Clock::now() + most;
  while (!leave()) {
    const auto now = Clock::now();
    if (ready_before(socket_, POLLIN, std::min(until, now + slice))) return !is_gone();
    if (now >= until) return false;
  }
  return false;
}

void Connection::may_read(std::size_t bytes, std::chrono::seconds time) {
  bytes_left_ = bytes;
  read_until_ = Clock::now() + time;
}

void Connection::may_write(std::chrono::seconds time) { write_until_ = Clock::now() + time; }

ssize_t Connection::receive(char* to, std::size_t size) {
  for (;;) {
    if (!ready_before(socket_, POLLIN, read_until_)) return -1;
    const ssize_t got = ::recv(socket_, to, size, MSG_DONTWAIT);
    if (got >= 0 || !try_again(errno)) return got;
  }
}

// Heads are read byte by byte, so the socket is asked for more at once.
ssize_t Connection::read(char* to, std::size_t size) {
  size = std::min(size, bytes_left_);
  if (size == 0) return -1;
  if (came_from_ == came_to_) {
    const ssize_t got = receive(came_.data(), came_.size());
    if (got <= 0) return got;
    came_from_ = 0;
    came_to_ = static_cast<std::size_t>(got);
  }
  size = std::min(size, came_to_ - came_from_);
  std::copy_n(came_.data() + came_from_, size, to);
  came_from_ += size;
  bytes_left_ -= size;
  return static_cast<ssize_t>(size);
}

ssize_t Connection::write(const char* from, std::size_t size) {
  for (;;) {
    if (!ready_before(socket_, POLLOUT, write_until_)) return -1;
    const ssize_t sent = ::send(socket_, from, size, MSG_DONTWAIT | MSG_NOSIGNAL);
    if (sent >= 0 || !try_again(errno)) return sent;
  }
}

bool Connection::is_readable() const {
  return bytes_left_ > 0 && (came_from_ < came_to_ || ready_before(socket_, POLLIN, read_until_));
}
bool Connection::is_writable() const { return ready_before(socket_, POLLOUT, write_until_); }

bool Connection::is_gone() const {
  char byte;
  const ssize_t got = ::recv(socket_, &byte, 1, MSG_PEEK | MSG_DONTWAIT);
  return got == 0 || (got < 0 && !try_again(errno));
}

void Connection::linger(std::chrono::seconds most) {
  constexpr std::size_t most_bytes = 16'000'000;
  if (::shutdown(socket_, SHUT_WR) != 0) return;
  may_read(most_bytes, most);
  while (bytes_left_ > 0) {
    const ssize_t got = receive(came_.data(), came_.size());
    if (got <= 0) return;
    bytes_left_ -= std::min(bytes_left_, static_cast<std::size_t>(got));
  }
}

}  // namespace crownwright::page
