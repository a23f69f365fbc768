// On a terminal: colour and progress, and how to be without them.

#include <pty.h>

#include "cli/program.h"

namespace crownwright::test {
namespace {

/// The words run on a pseudo-terminal, where standard output and standard error come out together.
Outcome run_on_terminal(const std::vector<std::string>& words, const RunRules& rules) {
  int master = -1;
  const pid_t id = ::forkpty(&master, nullptr, nullptr, nullptr);
  if (id < 0) throw std::runtime_error("no pseudo-terminal");
  if (id == 0) become(words, rules);
  Outcome outcome;
  char buffer[65536];
  // Linux ends the reading of a terminal that everybody has left with EIO.
  for (ssize_t got; (got = ::read(master, buffer, sizeof buffer)) > 0;) {
    outcome.out.append(buffer, static_cast<std::size_t>(got));
  }
  ::close(master);
  int status = 0;
  ::waitpid(id, &status, 0);
  outcome.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
  return outcome;
}

class Terminal : public testing::Test {
 protected:
  Terminal() { write_file(folder_.path() / "a.toml", small_order()); }
  bool is_coloured(std::vector<std::string> words, std::vector<std::string> environment) {
    words.insert(words.begin(), {"make", "a.toml"});
    if (environment.empty() || !environment.back().starts_with("TERM=")) environment.push_back("TERM=xterm");
    environment.insert(environment.begin(), "NO_COLOR");
    const Outcome outcome = run_on_terminal(words, {.folder = folder_.path(), .environment = environment});
    EXPECT_EQ(outcome.exit_code, 0) << outcome.out;
    return outcome.out.find("\x1b[1m") != std::string::npos;
  }
  TemporaryFolder folder_;
};

TEST_F(Terminal, IsGivenColour) { EXPECT_TRUE(is_coloured({}, {})); }

// no-color.org: "when present and not an empty string (regardless of its value)".
TEST_F(Terminal, IsSparedColourOnRequest) {
  EXPECT_FALSE(is_coloured({}, {"NO_COLOR=1"}));
  EXPECT_FALSE(is_coloured({}, {"NO_COLOR=0"}));
  EXPECT_TRUE(is_coloured({}, {"NO_COLOR="}));
  EXPECT_FALSE(is_coloured({"--color", "never"}, {}));
  EXPECT_FALSE(is_coloured({}, {"TERM=dumb"}));
  EXPECT_TRUE(is_coloured({"--color", "always"}, {"NO_COLOR=1"}));
}

// Standard input that stays silent for over a second makes a long run of a short one.
TEST_F(Terminal, SeesProgressOfALongRunUnlessQuiet) {
  const auto seen = [&](const std::string& options) {
    const std::string script = "(sleep 1.6; cat a.toml) | '" + built_program() + "' make - " + options;
    return run_on_terminal({"-c", script},
                           {.folder = folder_.path(), .environment = {"TERM=xterm"}, .program = "/bin/sh"})
        .out;
  };
  EXPECT_NE(seen("").find("\rmaking order ... 1 s"), std::string::npos);
  EXPECT_EQ(seen("--quiet"), "");
}

TEST_F(Terminal, SeesNoProgressOfAShortRun) {
  const Outcome outcome =
      run_on_terminal({"make", "a.toml"}, {.folder = folder_.path(), .environment = {"TERM=xterm"}});
  EXPECT_EQ(outcome.out.find("making"), std::string::npos) << outcome.out;
}

}  // namespace
}  // namespace crownwright::test
