#include "page/manners.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "page/assets.h"
#include "page/request.h"

namespace crownwright::page {
namespace {

constexpr std::array<const char*, 5> posts = {"/api/preview", "/api/open", "/api/save", "/api/make",
                                              "/api/file"};

bool is_question(const std::string& path) {
  return std::any_of(posts.begin(), posts.end(), [&](const char* post) { return path == post; });
}

bool is_asset(const std::string& path) {
  const auto all = assets();
  return path == "/api/workshop" ||
         std::any_of(all.begin(), all.end(), [&](const Asset& asset) { return asset.path == path; });
}

Refusal refuse(int status, const std::string& where, const std::string& what, const std::string& allowed) {
  return {refused(status, order_fault(where, what, allowed))};
}

std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

// "127.0.0.1:8123" and "localhost:8123".
bool is_ours(const std::string& host, int port) {
  const std::string number = std::to_string(port), name = lower(host);
  return name == std::string("127.0.0.1:").append(number) || name == std::string("localhost:").append(number);
}

bool is_our_origin(const std::string& origin, int port) {
  constexpr std::string_view scheme = "http://";
  return origin.starts_with(scheme) && is_ours(origin.substr(scheme.size()), port);
}

std::optional<Refusal> stranger(const Head& head, int port) {
  if (head.host.size() != 1 || !is_ours(head.host[0], port))
    return refuse(403, "Host", "this page is for this machine alone",
                  "Host: 127.0.0.1:" + std::to_string(port));
  for (const std::string& origin : head.origin)
    if (!is_our_origin(origin, port))
      return refuse(403, "Origin", "another page may not ask", "http://127.0.0.1:" + std::to_string(port));
  return std::nullopt;
}

std::optional<Refusal> wrong_way(const Head& head) {
  const bool question = is_question(head.path), asset = is_asset(head.path);
  if (!question && !asset) return refuse(404, "path", "there is no such page", "/");
  const bool fits = question ? head.method == "POST" : head.method == "GET" || head.method == "HEAD";
  if (fits) return std::nullopt;
  const std::string allow = question ? "POST" : "GET, HEAD";
  Refusal refusal = refuse(405, "method", "this method does nothing here", allow);
  refusal.allow = allow;
  return refusal;
}

// Digits alone; nothing for anything else.
std::optional<std::size_t> length_in(const std::string& text) {
  std::size_t length = 0;
  if (text.empty() || text[0] == '+' || text[0] == '-') return std::nullopt;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), length);
  if (read.ptr != text.data() + text.size()) return std::nullopt;
  // Too many digits for a number are still a length, and too large.
  if (read.ec == std::errc::result_out_of_range) return most_request_bytes + 1;
  return read.ec == std::errc() ? std::optional(length) : std::nullopt;
}

std::optional<Refusal> bad_body(const Head& head) {
  if (!head.transfer_encoding.empty())
    return refuse(411, "Transfer-Encoding", "a body in chunks has no length", "Content-Length");
  if (head.content_length.size() > 1)
    return refuse(400, "Content-Length", "the length is given more than once", "once");
  const bool posts_body = head.method == "POST";
  if (head.content_length.empty()) {
    if (!posts_body) return std::nullopt;
    return refuse(411, "Content-Length", "the length is missing", "a whole number of bytes");
  }
  const auto length = length_in(head.content_length[0]);
  if (!length) return refuse(400, "Content-Length", "this is no length", "a whole number of bytes");
  if (!posts_body && *length > 0) return refuse(400, "Content-Length", "this question has no body", "0");
  if (*length > most_request_bytes)
    return refuse(413, "Content-Length", "the body is too large", "at most 4 000 000 bytes");
  return std::nullopt;
}

bool is_json(const std::string& type) {
  const std::string plain = lower(type.substr(0, type.find(';')));
  return plain.substr(0, plain.find_last_not_of(" \t") + 1) == "application/json";
}

std::optional<Refusal> wrong_type(const Head& head) {
  if (head.method != "POST") return std::nullopt;
  if (head.content_type.size() != 1 || !is_json(head.content_type[0]))
    return refuse(415, "Content-Type", "the body is not said to be JSON", "Content-Type: application/json");
  if (!head.content_encoding.empty())
    return refuse(415, "Content-Encoding", "a packed body is not unpacked here", "the JSON as it is");
  return std::nullopt;
}

}  // namespace

std::optional<Refusal> refusal_of(const Head& head, int port) {
  if (auto refusal = stranger(head, port)) return refusal;
  if (auto refusal = wrong_way(head)) return refusal;
  if (auto refusal = bad_body(head)) return refusal;
  return wrong_type(head);
}

}  // namespace crownwright::page
