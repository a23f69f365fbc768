#include "page/serve.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <functional>
#include <thread>

#include "page/asked.h"
#include "page/socket.h"

namespace crownwright::page {
namespace {

using test::Json;

/// The page as a process of its own; what it is ready with comes through a pipe.
class ServingProcess {
 public:
  explicit ServingProcess(
      int port = 0, const std::function<void()>& before = [] {}) {
    if (::pipe(pipe_) != 0) throw std::runtime_error("no pipe");
    id_ = ::fork();
    if (id_ == 0) {
      before();
      const auto served =
          serve(test::page_profiles(), {port, [&](const std::string& address) -> Result<Done> {
                                          const std::string line = address + "\n";
                                          const ssize_t ignored = ::write(pipe_[1], line.data(), line.size());
                                          (void)ignored;
                                          return Done{};
                                        }});
      ::_exit(served ? 0 : static_cast<int>(served.fault().exit));
    }
    ::close(pipe_[1]);
  }
  ~ServingProcess() {
    ::close(pipe_[0]);
    if (id_ > 0) ::kill(id_, SIGKILL), ::waitpid(id_, nullptr, 0);
  }
  ServingProcess(const ServingProcess&) = delete;
  ServingProcess& operator=(const ServingProcess&) = delete;

  std::string address() {
    std::string text;
    char c = 0;
    while (::read(pipe_[0], &c, 1) == 1 && c != '\n') text += c;
    return text;
  }
  int port() {
    const std::string text = address();
    const std::string start = "http://127.0.0.1:";
    if (!text.starts_with(start) || !text.ends_with("/")) throw std::runtime_error("no address: " + text);
    return std::stoi(text.substr(start.size()));
  }
  pid_t id() const { return id_; }
  /// Exit code, or 1000 + the signal that ended it.
  int wait() {
    int status = 0;
    ::waitpid(id_, &status, 0);
    id_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
  }

 private:
  int pipe_[2];
  pid_t id_ = -1;
};

TEST(Serve, SignalsEndItCleanly) {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    ServingProcess process;
    const int port = process.port();
    EXPECT_EQ(test::ask(port, test::get_text(port, "/")).status, 200);
    test::Client idle(port);  // holds nothing up
    idle.send("GET / HT");
    ::kill(process.id(), signal);
    EXPECT_EQ(process.wait(), 0) << signal;
  }
}

TEST(Serve, ASignalThatWasIgnoredStaysIgnored) {
  ServingProcess process(0, [] { ::signal(SIGHUP, SIG_IGN); });
  const int port = process.port();
  ::kill(process.id(), SIGHUP);
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  EXPECT_EQ(test::ask(port, test::get_text(port, "/")).status, 200);
  ::kill(process.id(), SIGTERM);
  EXPECT_EQ(process.wait(), 0);
}

// The form below takes longer than it is waited for.
TEST(Serve, EndsWhileAFormIsMadeAndLeavesNothing) {
  const test::TestFolder folder;
  ServingProcess process(0, [&] { ::setenv("TMPDIR", folder.path().c_str(), 1); });
  const int port = process.port();
  Json order = test::small_block();
  order["mesh.chord_tolerance"] = "0.002 mm";
  order["vents.spacing"] = "8 mm";
  order["mesh.formats"] = "[\"stl\", \"obj\", \"ply\"]";
  order["mesh.ascii"] = true;
  test::Client client(port);
  client.send(test::post_text(port, "/api/make", Json{{"order", order}}.dump()));
  for (int k = 0; k < 100 && std::filesystem::is_empty(folder.path()); ++k)
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_FALSE(std::filesystem::is_empty(folder.path())) << "the making has not begun";
  ::kill(process.id(), SIGTERM);
  EXPECT_EQ(process.wait(), 0);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(Serve, APortThatIsTakenIsAFileFault) {
  ServingProcess first;
  const int port = first.port();
  ServingProcess second(port);
  EXPECT_EQ(second.address(), "");
  EXPECT_EQ(second.wait(), 4);
  ::kill(first.id(), SIGTERM);
  EXPECT_EQ(first.wait(), 0);
}

TEST(Serve, TheChosenPortIsTaken) {
  int port = 0;
  {
    ServingProcess any;
    port = any.port();
    ::kill(any.id(), SIGINT);
    EXPECT_EQ(any.wait(), 0);
  }
  ServingProcess again(port);
  EXPECT_EQ(again.port(), port);
  ::kill(again.id(), SIGINT);
  EXPECT_EQ(again.wait(), 0);
}

TEST(Serve, WhoCannotSayWhereEndsWithThatFault) {
  const auto served =
      serve(test::page_profiles(),
            {0, [](const std::string&) -> Result<Done> { return file_fault("standard output", "closed"); }});
  ASSERT_FALSE(served.ok());
  EXPECT_EQ(served.fault().where, "standard output");
}

}  // namespace
}  // namespace crownwright::page
