#pragma once
// Runs the real program as a person would, in a folder of its own.

#include <fcntl.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace crownwright::test {

namespace fs = std::filesystem;

/// The program of the build that this test belongs to: ../src/crownwright from the test's own file.
inline std::string built_program() {
  return fs::read_symlink("/proc/self/exe").parent_path().parent_path() / "src/crownwright";
}

struct Outcome {
  int exit_code = -1;  ///< 1000 + the signal that ended it
  std::string out, err;
};

/// A folder that is empty at first and gone afterwards.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string pattern = (fs::temp_directory_path() / "crownwright-test-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = pattern;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

inline std::string read_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline void write_file(const fs::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

/// All files below the folder, as paths from it, sorted.
inline std::vector<std::string> files_in(const fs::path& folder) {
  std::vector<std::string> files;
  if (!fs::exists(folder)) return files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_directory()) files.push_back(fs::relative(entry.path(), folder).string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

struct RunRules {
  fs::path folder = fs::current_path();
  std::string input{};
  std::vector<std::string> environment{};  ///< "NAME=value", put over ours; "NAME" alone takes it away
  std::string program = built_program();
  std::string output_to{};  ///< a file for standard output instead of a pipe
};

/// In a child: turns into the program, in its folder and environment.
[[noreturn]] inline void become(const std::vector<std::string>& arguments, const RunRules& rules) {
  ::signal(SIGPIPE, SIG_DFL);
  if (::chdir(rules.folder.c_str()) != 0) ::_exit(99);
  for (const std::string& setting : rules.environment) {
    const auto equals = setting.find('=');
    if (equals == std::string::npos) {
      ::unsetenv(setting.c_str());
    } else {
      ::setenv(setting.substr(0, equals).c_str(), setting.c_str() + equals + 1, 1);
    }
  }
  std::vector<std::string> words = {rules.program};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  ::execv(rules.program.c_str(), argv.data());
  ::_exit(98);
}

/// A program that has been started.
class Process {
 public:
  Process(const std::vector<std::string>& arguments, const RunRules& rules) {
    if (::pipe(in_) != 0 || ::pipe(out_) != 0 || ::pipe(err_) != 0) throw std::runtime_error("no pipe");
    id_ = ::fork();
    if (id_ == 0) become_piped(arguments, rules);
    for (const int end : {in_[0], out_[1], err_[1]}) ::close(end);
    ::signal(SIGPIPE, SIG_IGN);
    const ssize_t ignored = ::write(in_[1], rules.input.data(), rules.input.size());  // small: fits the pipe
    (void)ignored;
    ::close(in_[1]);
  }
  pid_t id() const { return id_; }
  void close_output() { ::close(out_[0]), out_[0] = -1; }

  Outcome finish() {
    Outcome outcome;
    read_both(outcome);
    int status = 0;
    ::waitpid(id_, &status, 0);
    outcome.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
    return outcome;
  }

 private:
  [[noreturn]] void become_piped(const std::vector<std::string>& arguments, const RunRules& rules) {
    ::dup2(in_[0], 0), ::dup2(out_[1], 1), ::dup2(err_[1], 2);
    for (const auto* both : {in_, out_, err_}) ::close(both[0]), ::close(both[1]);
    if (!rules.output_to.empty()) ::dup2(::open(rules.output_to.c_str(), O_WRONLY), 1);
    become(arguments, rules);
  }

  void read_both(Outcome& outcome) {
    pollfd ends[2] = {{out_[0], POLLIN, 0}, {err_[0], POLLIN, 0}};
    std::string* texts[2] = {&outcome.out, &outcome.err};
    while (ends[0].fd >= 0 || ends[1].fd >= 0) {
      ::poll(ends, 2, -1);
      for (int i = 0; i < 2; ++i) {
        if (ends[i].fd < 0 || ends[i].revents == 0) continue;
        char buffer[65536];
        const ssize_t got = ::read(ends[i].fd, buffer, sizeof buffer);
        if (got > 0) {
          texts[i]->append(buffer, static_cast<std::size_t>(got));
        } else {
          ::close(ends[i].fd), ends[i].fd = -1;
        }
      }
    }
  }

  pid_t id_ = -1;
  int in_[2], out_[2], err_[2];
};

inline Outcome run(const std::vector<std::string>& arguments, const RunRules& rules = {}) {
  return Process(arguments, rules).finish();
}

/// What the folder of a whole form holds, with the files of these endings beside it, sorted.
inline std::vector<std::string> form_files(const std::string& base,
                                           const std::vector<std::string>& more = {}) {
  std::vector<std::string> files;
  for (const char* ending : {".3mf", ".glb", ".picture.png", ".profile.dxf", ".profile.svg", ".report.json",
                             ".sheet.a4.pdf", ".sheet.html", ".stl"})
    files.push_back(base + ending);
  for (const std::string& ending : more) files.push_back(base + ending);
  std::sort(files.begin(), files.end());
  return files;
}

/// A block that is made in a moment.
inline std::string small_order(const std::string& more = {}) {
  return "name = \"Small block\"\n[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = "
         "\"7.5 cm\"\n"
         "[cloth]\nname = \"fleece\"\n[mesh]\nchord_tolerance = \"0.2 mm\"\n" +
         more;
}

/// An order that no form can meet: an edge radius that needs more rise.
inline std::string impossible_order() {
  return "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"20 "
         "mm\"\n[shape]\nedge_radius = \"40 mm\"\n";
}

/// Exactly one line, as every error is.
inline void expect_one_line(const std::string& text) {
  EXPECT_TRUE(text.starts_with("crownwright: ")) << text;
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1) << text;
  EXPECT_TRUE(text.ends_with("\n")) << text;
}

inline void expect_fault(const Outcome& outcome, int exit_code, const std::string& part) {
  EXPECT_EQ(outcome.exit_code, exit_code) << outcome.err;
  expect_one_line(outcome.err);
  EXPECT_NE(outcome.err.find(part), std::string::npos) << outcome.err << "lacks: " << part;
}

}  // namespace crownwright::test
