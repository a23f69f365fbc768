#pragma once
// A client that speaks HTTP by hand, so that it can speak it wrongly.

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>

namespace crownwright::test {

class Client {
 public:
  explicit Client(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) != 0)
      throw std::runtime_error("cannot connect");
  }
  ~Client() { close(); }
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  void close() {
    if (socket_ >= 0) ::close(socket_);
    socket_ = -1;
  }
  /// False: the server does not take it any more.
  bool send(std::string_view text) {
    while (!text.empty()) {
      const ssize_t sent = ::send(socket_, text.data(), text.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  void end_sending() { ::shutdown(socket_, SHUT_WR); }

  /// What comes until `enough`, the end, or that many seconds without a byte.
  template <class Enough>
  std::string receive(Enough enough, int seconds = 60) {
    while (!enough(came_)) {
      pollfd one{socket_, POLLIN, 0};
      if (::poll(&one, 1, 1000 * seconds) <= 0) break;
      char buffer[65536];
      const ssize_t got = ::recv(socket_, buffer, sizeof buffer, 0);
      if (got <= 0) {
        ended_ = true;
        break;
      }
      came_.append(buffer, static_cast<std::size_t>(got));
    }
    return came_;
  }
  bool has_ended() const { return ended_; }
  std::string take(std::size_t bytes) {
    std::string text = came_.substr(0, bytes);
    came_.erase(0, bytes);
    return text;
  }

 private:
  int socket_;
  std::string came_;
  bool ended_ = false;
};

struct Reply {
  int status = 0;  ///< 0: none came
  std::map<std::string, std::string> headers;
  std::string body;
};

inline std::size_t end_of_head(const std::string& text) {
  const auto at = text.find("\r\n\r\n");
  return at == std::string::npos ? at : at + 4;
}

inline Reply parsed_head(const std::string& head) {
  Reply reply;
  if (head.size() > 12 && head.starts_with("HTTP/1.1 ")) reply.status = std::stoi(head.substr(9, 3));
  for (std::size_t at = head.find("\r\n") + 2; at < head.size();) {
    const std::size_t end = head.find("\r\n", at);
    if (end == at || end == std::string::npos) break;
    const std::string line = head.substr(at, end - at);
    const auto colon = line.find(": ");
    if (colon != std::string::npos) reply.headers[line.substr(0, colon)] = line.substr(colon + 2);
    at = end + 2;
  }
  return reply;
}

/// One answer from the connection.
inline Reply reply_from(Client& client, bool has_body = true, int seconds = 60) {
  const auto has_head = [](const std::string& text) { return end_of_head(text) != std::string::npos; };
  const std::string start = client.receive(has_head, seconds);
  const std::size_t head = end_of_head(start);
  if (head == std::string::npos) return {};
  Reply reply = parsed_head(start.substr(0, head));
  const auto length = reply.headers.find("Content-Length");
  const std::size_t body = has_body && length != reply.headers.end() ? std::stoul(length->second) : 0;
  client.receive([&](const std::string& text) { return text.size() >= head + body; });
  reply.body = client.take(head + body).substr(head);
  return reply;
}

inline std::string host_line(int port) { return "Host: 127.0.0.1:" + std::to_string(port) + "\r\n"; }

inline std::string get_text(int port, const std::string& path) {
  return "GET " + path + " HTTP/1.1\r\n" + host_line(port) + "\r\n";
}
inline std::string post_text(int port, const std::string& path, const std::string& body,
                             const std::string& more = {}) {
  return "POST " + path + " HTTP/1.1\r\n" + host_line(port) + "Content-Type: application/json\r\n" + more +
         "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body;
}

inline Reply ask(int port, const std::string& text, bool has_body = true) {
  Client client(port);
  client.send(text);
  return reply_from(client, has_body);
}

}  // namespace crownwright::test
