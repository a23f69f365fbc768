#include "files/reader_child.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <vector>

#include "base/length.h"
#include "files/child_message.h"
#include "files/system_fault.h"

// posix_spawn and not fork: the program may have threads by now, and a forked child of it could not safely
// allocate. The child is this very program, started again with a first argument nobody types.

namespace crownwright::files {
namespace {

using Clock = std::chrono::steady_clock;

class Descriptor {
 public:
  explicit Descriptor(int file = -1) : file_(file) {}
  ~Descriptor() { close(); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return file_; }
  void set(int file) { file_ = file; }
  void close() {
    if (file_ >= 0) ::close(std::exchange(file_, -1));
  }

 private:
  int file_;
};

// A child that is gone, at the latest, when this object is.
class Child {
 public:
  ~Child() { end(); }
  pid_t id = -1;

  // Kills it if it still runs; its status as of waitpid.
  int end() {
    if (id < 0) return status_;
    ::kill(id, SIGKILL);
    return wait();
  }
  int wait() {
    while (id >= 0 && ::waitpid(id, &status_, 0) < 0 && errno == EINTR) continue;
    id = -1;
    return status_;
  }

 private:
  int status_ = 0;
};

class SpawnActions {
 public:
  // The child sees nothing of ours but the pipe, as its standard output.
  explicit SpawnActions(int pipe_end) {
    ::posix_spawn_file_actions_init(&actions_);
    ::posix_spawn_file_actions_adddup2(&actions_, pipe_end, STDOUT_FILENO);
    ::posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    ::posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    ::posix_spawn_file_actions_addclosefrom_np(&actions_, STDERR_FILENO + 1);
  }
  ~SpawnActions() { ::posix_spawn_file_actions_destroy(&actions_); }
  SpawnActions(const SpawnActions&) = delete;
  SpawnActions& operator=(const SpawnActions&) = delete;
  const posix_spawn_file_actions_t* get() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_;
};

std::vector<std::string> arguments(const std::string& path, const MeshReadRules& rules) {
  return {"crownwright",
          "--read-mesh-child",
          path,
          std::to_string(rules.memory),
          std::to_string(rules.cpu_seconds),
          std::to_string(rules.limits.bytes),
          std::to_string(rules.limits.facets)};
}

Result<Done> start(Child& child, int pipe_end, const std::string& path, const MeshReadRules& rules) {
  std::vector<std::string> words = arguments(path, rules);
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  const SpawnActions actions(pipe_end);
  const int error =
      ::posix_spawn(&child.id, rules.reader_program.c_str(), actions.get(), nullptr, argv.data(), environ);
  if (error == 0) return Done{};
  child.id = -1;
  return system_fault(path, "cannot be read: the reader " + rules.reader_program + " does not start", error);
}

enum class Heard { all, too_much, too_late };

Heard listen(int from, Clock::time_point deadline, std::size_t most, std::vector<std::byte>& message) {
  std::vector<std::byte> block(256 * 1024);
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
    if (left <= 0) return Heard::too_late;
    pollfd waiting{from, POLLIN, 0};
    const int ready = ::poll(&waiting, 1, static_cast<int>(std::min<long long>(left, 1'000'000)));
    if (ready <= 0) continue;
    const ssize_t got = ::read(from, block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return Heard::all;
    message.insert(message.end(), block.begin(), block.begin() + got);
    if (message.size() > most) return Heard::too_much;
  }
}

std::string seconds(std::chrono::milliseconds time) {
  return number_text(static_cast<double>(time.count()) / 1000, 1) + " s";
}

Fault death(int status, const std::string& path, const MeshReadRules& rules) {
  const std::string damaged = "the file is damaged or not what its name says";
  if (!WIFSIGNALED(status))
    return file_fault(path, "cannot be read: its reader ended without a word", damaged);
  const int signal = WTERMSIG(status);
  if (signal == SIGXCPU)
    return file_fault(path,
                      "cannot be read: its reader was still at it after " +
                          std::to_string(rules.cpu_seconds) + " s of work",
                      damaged);
  const char* name = ::sigdescr_np(signal);
  return file_fault(path,
                    std::string("cannot be read: its reader died (") + (name ? name : "unknown signal") + ")",
                    damaged);
}

}  // namespace

Result<mesh::TriangleMesh> read_in_child(const std::string& path, const MeshReadRules& rules) {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) return system_fault(path, "cannot be read", errno);
  Descriptor from(ends[0]), to(ends[1]);
  Child child;
  const Clock::time_point deadline = Clock::now() + rules.time;
  if (const Result<Done> started = start(child, to.get(), path, rules); !started) return started.fault();
  to.close();
  std::vector<std::byte> message;
  const Heard heard = listen(from.get(), deadline, longest_message(rules.limits), message);
  if (heard == Heard::too_late)
    return file_fault(path, "cannot be read: its reader was not done after " + seconds(rules.time));
  if (heard == Heard::too_much) return file_fault(path, "cannot be read: its reader never stops talking");
  const int status = child.wait();
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) return death(status, path, rules);
  return understand_message(message, path);
}

}  // namespace crownwright::files
