// The manual page and the completions name exactly the options that --help names.

#include <regex>
#include <set>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using NameSet = std::set<std::string>;

constexpr const char* kCommands[] = {"make",     "block", "pad",   "draft",    "check",
                                     "simulate", "page",  "sizes", "profiles", "schema"};
const fs::path kShare = CW_SOURCE_DIR "/src/cli/share";

NameSet long_options(const std::string& text) {
  NameSet names;
  static const std::regex option("--[a-z][a-z-]*[a-z]");
  for (std::sregex_iterator at(text.begin(), text.end(), option), end; at != end; ++at)
    names.insert(at->str());
  return names;
}

// Those of the option list alone: examples and explanations name others.
NameSet options_in_help(const std::string& help) {
  NameSet names;
  std::istringstream lines(help);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("  -")) continue;
    for (const std::string& name : long_options(line.substr(0, 27))) names.insert(name);
  }
  return names;
}

NameSet all_options() {
  NameSet names = options_in_help(run({"--help"}).out);
  for (const char* command : kCommands) names.merge(options_in_help(run({command, "--help"}).out));
  return names;
}

std::string without(std::string text, const std::string& part) {
  for (std::size_t at; (at = text.find(part)) != std::string::npos;) text.erase(at, part.size());
  return text;
}

TEST(SharedFiles, HelpNamesTheOptionsWeCountOn) {
  EXPECT_TRUE(all_options().contains("--head-girth"));
  EXPECT_TRUE(all_options().contains("--save-order"));
  EXPECT_GT(all_options().size(), 30u);
}

TEST(SharedFiles, ManualPageNamesEveryOptionAndNoOther) {
  const std::string page = without(read_file(kShare / "crownwright.1"), "\\");  // \- is a hyphen
  EXPECT_EQ(long_options(page), all_options());
}

TEST(SharedFiles, ManualPageNamesEveryCommandAndExitCode) {
  const std::string page = read_file(kShare / "crownwright.1");
  for (const char* command : kCommands) EXPECT_NE(page.find(command), std::string::npos) << command;
  for (const char* code : {"0", "1", "2", "3", "4", "5", "130"}) {
    EXPECT_NE(page.find(std::string(".B ") + code + "\n"), std::string::npos) << code;
  }
}

TEST(SharedFiles, ManualPageIsCleanRoff) {
  const TemporaryFolder folder;
  const std::string command = "groff -man -ww -z '" + (kShare / "crownwright.1").string() + "' 2> '" +
                              (folder.path() / "warnings").string() + "'";
  ASSERT_EQ(std::system(command.c_str()), 0);
  EXPECT_EQ(read_file(folder.path() / "warnings"), "");
}

TEST(SharedFiles, ZshNamesEveryOptionAndNoOther) {
  EXPECT_EQ(long_options(read_file(kShare / "_crownwright")), all_options());
}

TEST(SharedFiles, FishNamesEveryOptionAndNoOther) {
  const std::string text = read_file(kShare / "crownwright.fish");
  static const std::regex option(" -l ([a-z-]+)");
  NameSet names;
  for (std::sregex_iterator at(text.begin(), text.end(), option), end; at != end; ++at) {
    const std::string name = at->str(1);
    if (text.find("set -l " + name + " '") == std::string::npos || name == "pad") names.insert("--" + name);
  }
  for (const char* variable : {"--reports", "--makes", "--measured", "--block", "--pad"})
    names.erase(variable);
  EXPECT_EQ(names, all_options());
}

// Bash is at hand, so it is asked itself.
TEST(SharedFiles, BashOffersEachCommandItsOwnOptions) {
  const TemporaryFolder folder;
  for (const char* command : kCommands) {
    const std::string script = "source '" + (kShare / "crownwright.bash").string() +
                               "'; COMP_WORDS=(crownwright " + command +
                               " --); COMP_CWORD=2; _crownwright; printf '%s\\n' \"${COMPREPLY[@]}\"";
    const fs::path offered = folder.path() / command;
    write_file(folder.path() / "script", script);
    ASSERT_EQ(
        std::system(
            ("bash '" + (folder.path() / "script").string() + "' > '" + offered.string() + "'").c_str()),
        0);
    EXPECT_EQ(long_options(read_file(offered)), options_in_help(run({command, "--help"}).out)) << command;
  }
}

// The kinds that `profiles` takes: every file offers those, in that order, and the program takes each and no
// other.
TEST(SharedFiles, NameTheKindsOfProfiles) {
  const std::vector<std::string> kinds = {"shapes", "cloth", "materials", "printers"};
  std::string words, bars;
  for (const std::string& kind : kinds) {
    EXPECT_EQ(run({"profiles", kind}).exit_code, 0) << kind;
    words.append(words.empty() ? "" : " ").append(kind);
    bars.append(bars.empty() ? "" : " | ").append(kind);
  }
  const Outcome wrong = run({"profiles", "hats"});
  EXPECT_EQ(wrong.exit_code, 2);
  for (const std::string& kind : kinds) EXPECT_NE(wrong.err.find(kind), std::string::npos) << wrong.err;
  const auto holds = [](const char* file, const std::string& text) {
    EXPECT_NE(read_file(kShare / file).find(text), std::string::npos) << file << " lacks: " << text;
  };
  holds("crownwright.1", "[ " + bars + " ");
  holds("_crownwright", ":kind:(" + words + ")");
  holds("crownwright.fish", "__fish_seen_subcommand_from profiles' -a '" + words + "'");
  const TemporaryFolder folder;
  write_file(
      folder.path() / "script",
      "source '" + (kShare / "crownwright.bash").string() +
          "'; COMP_WORDS=(crownwright profiles ''); COMP_CWORD=2; _crownwright; echo \"${COMPREPLY[*]}\"");
  ASSERT_EQ(std::system(("bash '" + (folder.path() / "script").string() + "' > '" +
                         (folder.path() / "offered").string() + "'")
                            .c_str()),
            0);
  EXPECT_EQ(read_file(folder.path() / "offered"), words + "\n");
}

}  // namespace
}  // namespace crownwright::test
