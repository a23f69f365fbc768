#include "page/server.h"

#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <optional>
#include <random>
#include <thread>

#include "page/asked.h"
#include "page/assets.h"
#include "page/request.h"
#include "page/socket.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::page {
namespace {

using test::ask;
using test::Client;
using test::get_text;
using test::host_line;
using test::Json;
using test::post_text;
using test::Reply;
using test::small_block;

/// A server of its own, ended with the test.
class Serving {
 public:
  explicit Serving(const ServerLimits& limits = {})
      : workbench_(test::page_profiles()), server_(workbench_, limits) {
    port_ = server_.listen(0).value();
    thread_ = std::thread([this] { went_well_ = server_.run(); });
  }
  ~Serving() {
    server_.stop();
    thread_.join();
    EXPECT_TRUE(went_well_);
  }
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;
  int port() const { return port_; }

 private:
  Workbench workbench_;
  Server server_;
  int port_ = 0;
  bool went_well_ = false;
  std::thread thread_;
};

ServerLimits hasty() {
  ServerLimits limits;
  limits.request_seconds = 1;
  limits.idle_seconds = 1;
  return limits;
}

std::string block_request(double crown_mm) {
  Json order = small_block();
  order["measure.crown_diameter"] = std::to_string(static_cast<int>(crown_mm)) + " mm";
  return Json{{"order", order}}.dump();
}

void expect_refused(const Reply& reply, int status) {
  EXPECT_EQ(reply.status, status) << reply.body;
  const Json body = Json::parse(reply.body, nullptr, false);
  ASSERT_TRUE(body.is_object()) << reply.body;
  EXPECT_EQ(body["ok"], false);
  EXPECT_FALSE(body["fault"]["what"].get<std::string>().empty());
}

void expect_safe_headers(const Reply& reply) {
  const std::pair<std::string, std::string> wanted[] = {
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cache-Control", "no-store"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src "
       "'self'; "
       "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}};
  for (const auto& [name, value] : wanted) {
    const auto found = reply.headers.find(name);
    ASSERT_NE(found, reply.headers.end()) << name;
    EXPECT_EQ(found->second, value);
  }
}

void expect_alive(int port) { EXPECT_EQ(ask(port, get_text(port, "/")).status, 200); }

TEST(Server, GivesThePageAndItsFiles) {
  const Serving serving;
  for (const char* path : {"/", "/app.js", "/app.css", "/favicon.svg", "/licences.txt"}) {
    const Reply reply = ask(serving.port(), get_text(serving.port(), path));
    EXPECT_EQ(reply.status, 200) << path;
    EXPECT_EQ(reply.headers.at("Content-Encoding"), "gzip");
    EXPECT_EQ(reply.body.substr(0, 2), "\x1f\x8b") << "gzip's own mark, RFC 1952";
    EXPECT_EQ(reply.body.substr(4, 4), std::string(4, '\0')) << "no date: same sources, same bytes";
    expect_safe_headers(reply);
  }
  const Reply workshop = ask(serving.port(), get_text(serving.port(), "/api/workshop"));
  const Json json = Json::parse(workshop.body);
  for (const char* name : {"version", "keys", "shapes", "cloths", "materials", "printers", "samples"})
    EXPECT_TRUE(json.contains(name)) << name;
  EXPECT_EQ(ask(serving.port(), "HEAD / HTTP/1.1\r\n" + host_line(serving.port()) + "\r\n", false).status,
            200);
}

TEST(Server, AnswersQuestionsOnOneConnection) {
  const Serving serving;
  Client client(serving.port());
  for (const int crown : {270, 280, 290}) {
    client.send(post_text(serving.port(), "/api/preview", block_request(crown)));
    const Reply reply = test::reply_from(client);
    EXPECT_EQ(reply.status, 200);
    expect_safe_headers(reply);
    EXPECT_NEAR(Json::parse(reply.body)["figures"]["crown_diameter"].get<double>(), crown - 6, 1e-3);
  }
  // Two questions in one breath.
  client.send(post_text(serving.port(), "/api/preview", block_request(260)) +
              post_text(serving.port(), "/api/preview", block_request(261)));
  for (const int crown : {260, 261})
    EXPECT_NEAR(Json::parse(test::reply_from(client).body)["figures"]["crown_diameter"].get<double>(),
                crown - 6, 1e-3);
}

TEST(Server, IsForThisMachineAndThisPageAlone) {
  const Serving serving;
  const std::string port = std::to_string(serving.port());
  const auto with_host = [&](const std::string& lines) {
    return ask(serving.port(), "GET / HTTP/1.1\r\n" + lines + "\r\n");
  };
  for (const std::string& host :
       std::vector<std::string>{"Host: evil.example\r\n", "Host: 127.0.0.1\r\n", "Host: 127.0.0.1:80\r\n",
                                "Host: 127.0.0.1.evil.example:" + port + "\r\n", "",
                                "Host: 127.0.0.1:" + port + "\r\nHost: evil.example\r\n",
                                "Host: localhost.:" + port + "\r\n", "Host: 0.0.0.0:" + port + "\r\n"}) {
    const Reply reply = with_host(host);
    expect_refused(reply, 403);
    expect_safe_headers(reply);
  }
  EXPECT_EQ(with_host("Host: localhost:" + port + "\r\n").status, 200);
  EXPECT_EQ(with_host("host: LocalHost:" + port + "\r\n").status, 200);
  const auto with_origin = [&](const std::string& origin) {
    return ask(serving.port(),
               post_text(serving.port(), "/api/save", "{\"order\": {}}", "Origin: " + origin + "\r\n"));
  };
  for (const std::string& origin : std::vector<std::string>{
           std::string("http://evil.example"), std::string("null"), "https://127.0.0.1:" + port,
           std::string("http://127.0.0.1:1"), "http://127.0.0.1:" + port + ".evil.example",
           "http://evil.example/127.0.0.1:" + port})
    expect_refused(with_origin(origin), 403);
  EXPECT_EQ(with_origin("http://127.0.0.1:" + port).status, 200);
  EXPECT_EQ(with_origin("http://localhost:" + port).status, 200);
}

// 127.0.0.1 is bound, not every address of the machine: another loopback address finds nobody.
TEST(Server, ListensOnOneAddress) {
  const Serving serving;
  const int other = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(serving.port()));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK + 1);
  EXPECT_NE(::connect(other, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
  ::close(other);
}

TEST(Server, RefusesWhatIsNoQuestion) {
  const Serving serving;
  const int port = serving.port();
  const auto asked = [&](const std::string& first_line, const std::string& lines = {},
                         const std::string& body = {}) {
    return ask(port, first_line + " HTTP/1.1\r\n" + host_line(port) + lines + "\r\n" + body);
  };
  const std::string json = "Content-Type: application/json\r\n", length = "Content-Length: 2\r\n";
  expect_refused(asked("GET /etc/passwd"), 404);
  expect_refused(asked("GET /../../etc/passwd"), 404);
  expect_refused(asked("GET /%2e%2e/%2e%2e/etc/passwd"), 404);
  expect_refused(asked("GET /api/other"), 404);
  expect_refused(asked("POST /api", json + length, "{}"), 404);
  const Reply wrong = asked("GET /api/preview");
  expect_refused(wrong, 405);
  EXPECT_EQ(wrong.headers.at("Allow"), "POST");
  expect_refused(asked("POST /", json + length, "{}"), 405);
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "PATCH"})
    expect_refused(asked(std::string(method) + " /api/preview", json + length, "{}"), 405);
  expect_refused(asked("POST /api/save", length, "{}"), 415);
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded",
                           "multipart/form-data; boundary=x", "application/jsonp", "text/json"})
    expect_refused(asked("POST /api/save", std::string("Content-Type: ") + type + "\r\n" + length, "{}"),
                   415);
  EXPECT_EQ(
      asked("POST /api/save", "Content-Type: Application/JSON; charset=utf-8\r\n" + length, "{}").status,
      200);
  expect_refused(asked("POST /api/save", json + length + "Content-Encoding: gzip\r\n", "{}"), 415);
  expect_refused(asked("POST /api/save", json), 411);
  expect_refused(asked("POST /api/save", json + "Transfer-Encoding: chunked\r\n", "2\r\n{}\r\n0\r\n\r\n"),
                 411);
  expect_refused(asked("POST /api/save", json + "Content-Length: 4000001\r\n"), 413);
  expect_refused(asked("POST /api/save", json + "Content-Length: 99999999999999999999999\r\n"), 413);
  for (const char* bad : {"-1", "+2", "2x", "0x2", "2 2"})
    expect_refused(asked("POST /api/save", json + "Content-Length: " + bad + "\r\n"), 400);
  expect_refused(asked("POST /api/save", json + length + "Content-Length: 3\r\n", "{}"), 400);
  expect_refused(asked("GET /", length, "{}"), 400);
  expect_alive(port);
}

TEST(Server, ABodyOfTheGreatestLengthIsHeardOut) {
  const Serving serving;
  const std::string body = "{\"toml\": \"" + std::string(most_request_bytes - 12, '#') + "\"}";
  ASSERT_EQ(body.size(), most_request_bytes);
  const Reply reply = ask(serving.port(), post_text(serving.port(), "/api/open", body));
  EXPECT_EQ(reply.status, 200);
  EXPECT_NE(reply.body.find("larger than 1 MiB"), std::string::npos);
}

// What is refused unread is read away, so that the client learns why instead of being cut off.
TEST(Server, AnOversizedBodyIsAnsweredThoughTheClientKeepsSending) {
  const Serving serving;
  const int port = serving.port();
  Client client(port);
  client.send("POST /api/save HTTP/1.1\r\n" + host_line(port) +
              "Content-Type: application/json\r\nContent-Length: 8000000\r\n\r\n");
  client.send(std::string(8'000'000, ' '));
  expect_refused(test::reply_from(client), 413);
  client.receive([](const std::string&) { return false; });
  EXPECT_TRUE(client.has_ended()) << "the connection goes no further";
}

TEST(Server, BadJsonGetsAMessage) {
  const Serving serving;
  for (const char* path : {"/api/preview", "/api/open", "/api/save", "/api/make", "/api/file"})
    for (const std::string& body :
         std::vector<std::string>{std::string("{"), std::string("[]"), std::string("{\"a\":1e999}"),
                                  std::string("\xff"), std::string(100'000, '[')})
      expect_refused(ask(serving.port(), post_text(serving.port(), path, body)), 400);
  expect_alive(serving.port());
}

TEST(Server, EndlessHeadsAreCutOff) {
  const Serving serving(hasty());
  const int port = serving.port();
  for (const std::string& start : {std::string("GET /"), "GET / HTTP/1.1\r\n" + host_line(port) + "X: "}) {
    Client client(port);
    client.send(start);
    const std::string more(100'000, 'a');
    bool taken = true;
    for (int k = 0; k < 300 && taken; ++k) taken = client.send(more);  // 30 MB
    const Reply reply = test::reply_from(client);
    EXPECT_NE(reply.status, 200);
  }
  std::string many = "GET / HTTP/1.1\r\n" + host_line(port);
  for (int k = 0; k < 100'000; ++k) many += "X-" + std::to_string(k) + ": 1\r\n";
  EXPECT_NE(ask(port, many + "\r\n").status, 200);
  expect_alive(port);
}

// As many slow clients as there may be, and still another is answered; the slow ones are dropped.
TEST(Server, SlowClientsHoldUpNobody) {
  const Serving serving(hasty());
  const int port = serving.port();
  std::vector<std::unique_ptr<Client>> slow;
  for (int k = 0; k < 40; ++k) {
    slow.push_back(std::make_unique<Client>(port));
    slow.back()->send(k % 2 == 0 ? "GET / HT"
                                 : "POST /api/save HTTP/1.1\r\n" + host_line(port) +
                                       "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n{");
  }
  EXPECT_EQ(ask(port, post_text(port, "/api/preview", block_request(280))).status, 200);
  for (auto& client : slow) {
    client->receive([](const std::string&) { return false; });
    EXPECT_TRUE(client->has_ended());
  }
}

// Drops of a request, each in time, do not make it last for ever.
TEST(Server, ARequestHasOneTimeForAllOfIt) {
  const Serving serving(hasty());
  Client client(serving.port());
  bool taken = true;
  client.send("GET / HTTP/1.1\r\n");
  for (int k = 0; k < 100 && taken; ++k) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    taken = client.send("X: 1\r\n");
  }
  EXPECT_FALSE(taken) << "ten seconds, where one is allowed";
}

// What a refused request leaves unread is no question of its own (RFC 9112, 11.2: request smuggling).
/// So many forms asked for at once. They are made one after the other: the last waits for all the others.
std::vector<Reply> forms_at_once(int port, std::size_t count) {
  std::vector<Reply> replies(count);
  std::vector<std::thread> clients;
  for (std::size_t i = 0; i < count; ++i) {
    clients.emplace_back([&replies, port, i] {
      Json order = test::with(small_block(), "mesh.chord_tolerance", "0.02 mm");
      order["measure.crown_diameter"] = std::to_string(280 + i / 10) + "." + std::to_string(i % 10) + " mm";
      replies[i] = ask(port, post_text(port, "/api/make", Json{{"order", order}}.dump()));
    });
  }
  for (std::thread& client : clients) client.join();
  return replies;
}

// As many as it takes to make the last wait longer than a request may take to come in.
TEST(Server, AnAnswerThatTakesLongIsStillGiven) {
  const Serving serving(hasty());
  std::chrono::duration<double> took{0};
  for (std::size_t count = test::light() ? 4 : 8; took.count() < 1.5 * hasty().request_seconds; count *= 2) {
    ASSERT_LE(count, 64u) << "no form takes long enough to tell anything";
    const auto start = std::chrono::steady_clock::now();
    const std::vector<Reply> replies = forms_at_once(serving.port(), count);
    took = std::chrono::steady_clock::now() - start;
    for (const Reply& reply : replies) {
      EXPECT_EQ(reply.status, 200);
      EXPECT_EQ(reply.body.substr(0, 2), "PK") << "a zip's own mark";
    }
  }
}

TEST(Server, ABodyIsNeverTakenForARequest) {
  const Serving serving;
  const int port = serving.port();
  const std::string hidden = get_text(port, "/api/workshop");
  const std::string length = "Content-Length: " + std::to_string(hidden.size()) + "\r\n";
  for (const std::string& lines :
       std::vector<std::string>{"Content-Type: text/plain\r\n" + length,
                                "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n" + length,
                                "Content-Type: application/json\r\nContent-Length: x\r\n"}) {
    Client client(port);
    client.send("POST /api/save HTTP/1.1\r\n" + host_line(port) + lines + "\r\n" + hidden);
    const Reply first = test::reply_from(client);
    EXPECT_GE(first.status, 400);
    EXPECT_TRUE(lines.find("chunked") == std::string::npos || first.status == 411);
    EXPECT_EQ(client.receive([](const std::string&) { return false; }, 10), "");
    EXPECT_TRUE(client.has_ended());
  }
}

// Packing a preview would take longer than making it; parts of an answer are never asked for.
TEST(Server, AnswersComeWholeAndUnpacked) {
  const Serving serving;
  const int port = serving.port();
  const std::string lines = "Accept-Encoding: gzip, deflate, br\r\nRange: bytes=0-3\r\n";
  const Reply preview = ask(port, post_text(port, "/api/preview", block_request(280), lines));
  EXPECT_EQ(preview.status, 200);
  EXPECT_FALSE(preview.headers.contains("Content-Encoding"));
  EXPECT_TRUE(Json::parse(preview.body)["ok"].get<bool>());
  const Reply plain = ask(port, get_text(port, "/app.css"));
  const Reply packed = ask(port, "GET /app.css HTTP/1.1\r\n" + host_line(port) + lines + "\r\n");
  EXPECT_EQ(packed.status, 200);
  EXPECT_EQ(packed.body, plain.body);
}

TEST(Server, MoreConnectionsThanThreadsAreServedInTurn) {
  ServerLimits limits;
  limits.idle_seconds = 60;
  limits.most_connections = 2;
  const Serving serving(limits);
  std::vector<std::unique_ptr<Client>> kept;
  for (int k = 0; k < 12; ++k) {
    kept.push_back(std::make_unique<Client>(serving.port()));
    kept.back()->send(get_text(serving.port(), "/"));
  }
  for (auto& client : kept) {  // all stay open meanwhile
    client->receive([](const std::string& text) { return !text.empty(); }, 10);
    EXPECT_EQ(test::reply_from(*client, true, 1).status, 200);
  }
}

TEST(Server, TooManyWaitingAreSentAway) {
  ServerLimits limits;
  limits.most_connections = 1;
  limits.most_waiting = 2;
  const Serving serving(limits);
  std::vector<std::unique_ptr<Client>> kept;
  for (int k = 0; k < 20; ++k) kept.push_back(std::make_unique<Client>(serving.port()));
  // One is heard, two wait; the last of all is sent away while they still are.
  kept.back()->receive([](const std::string&) { return false; }, 10);
  EXPECT_TRUE(kept.back()->has_ended());
  kept.front()->send(get_text(serving.port(), "/"));
  EXPECT_EQ(test::reply_from(*kept.front()).status, 200);
}

TEST(Server, ManyAtOnceEachGetTheirOwnAnswer) {
  const Serving serving;
  const int count = test::light() ? 40 : 200;
  std::vector<std::thread> pages;
  std::atomic<int> right = 0;
  for (int k = 0; k < count; ++k) {
    pages.emplace_back([&, k] {
      Client client(serving.port());
      client.send(post_text(serving.port(), "/api/preview", block_request(240 + k)));
      const Reply reply = test::reply_from(client);
      if (reply.status != 200) return;
      const Json json = Json::parse(reply.body, nullptr, false);
      const bool fits =
          json.is_object() && json["ok"] == true &&
          std::abs(json["figures"]["crown_diameter"].get<double>() - (240 + k - 6)) < 1e-3 &&
          json["toml"].get<std::string>().find("\"" + std::to_string(240 + k) + " mm\"") != std::string::npos;
      if (fits) ++right;
    });
  }
  for (std::thread& page : pages) page.join();
  EXPECT_EQ(right, count);
}

std::string malformed(std::mt19937_64& random, int port) {
  const auto any = [&](std::size_t most) { return static_cast<std::size_t>(random() % most); };
  std::string text = any(2) == 0
                         ? get_text(port, "/")
                         : post_text(port, "/api/preview", block_request(280), "Range: bytes=0-,-1,5-2\r\n");
  for (std::size_t k = 0; k <= any(6); ++k) {
    const std::size_t at = any(text.size());
    switch (any(5)) {
      case 0:
        text[at] = static_cast<char>(random() & 0xFF);
        break;
      case 1:
        text.erase(at, 1 + any(20));
        break;
      case 2:
        text.insert(at, std::string(1 + any(50), static_cast<char>(random() & 0xFF)));
        break;
      case 3:
        text.insert(at, text.substr(any(text.size()), any(200)));
        break;
      default:
        text.resize(at + 1);
    }
    if (text.empty()) return "\r\n";
  }
  return text;
}

TEST(Server, SurvivesMalformedRequests) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const Serving serving(hasty());
  const int count = test::light() ? 200 : 1000;
  for (int k = 0; k < count; ++k) {
    Client client(serving.port());
    client.send(malformed(random, serving.port()));
    client.end_sending();
    if (k % 4 == 0) continue;  // hangs up before the answer
    client.receive([](const std::string& text) { return text.size() > 12; }, 20);
  }
  expect_alive(serving.port());
  EXPECT_EQ(ask(serving.port(), post_text(serving.port(), "/api/preview", block_request(280))).status, 200);
}

/// Resident memory of this process, bytes (proc(5): the second number of statm, in pages).
double resident() {
  std::ifstream statm("/proc/self/statm");
  double all = 0, kept = 0;
  statm >> all >> kept;
  return kept * static_cast<double>(::sysconf(_SC_PAGESIZE));
}

TEST(Server, MemoryStaysFlatOverPreviews) {
  const char* asked = std::getenv("CW_PREVIEWS");
  const int count = asked != nullptr ? std::atoi(asked) : test::light() ? 60 : 300;
  const Serving serving;
  std::optional<Client> client;
  double before = 0;
  for (int k = 0; k < count; ++k) {
    if (k % 500 == 0) client.emplace(serving.port());  // the server ends a connection after so many
    if (k == count / 3) before = resident();           // pools of the libraries are filled by then
    client->send(post_text(serving.port(), "/api/preview", block_request(250 + k % 50)));
    const Reply reply = test::reply_from(*client);
    ASSERT_EQ(reply.status, 200) << k;
  }
  // Chosen: a leak of one preview's mesh in each would be a hundred times that. The address sanitizer keeps
  // up to 256 MB of what was given back, and tells of leaks itself.
  const double allowed = test::has_address_sanitizer() ? 300e6 : 24e6;
  EXPECT_LT(resident() - before, allowed);
}

TEST(Server, APortThatIsTakenIsTold) {
  const Serving serving;
  Workbench workbench(test::page_profiles());
  Server second(workbench);
  const auto port = second.listen(serving.port());
  ASSERT_FALSE(port.ok());
  EXPECT_EQ(port.fault().exit, ExitCode::file);
  EXPECT_NE(port.fault().what.find("another program listens there"), std::string::npos)
      << port.fault().line();
}

TEST(Server, EndsBeforeItHasBegun) {
  Workbench workbench(test::page_profiles());
  Server server(workbench);
  ASSERT_TRUE(server.listen(0).ok());
  std::thread ends([&] { server.stop(); });
  EXPECT_TRUE(server.run());
  ends.join();
}

}  // namespace
}  // namespace crownwright::page
