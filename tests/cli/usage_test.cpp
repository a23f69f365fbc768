// What the command line says to slips and questions.

#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

struct Slip {
  std::vector<std::string> words;
  std::string part;
};

TEST(Usage, AnswersEverySlipInOneLineWithExitTwo) {
  const std::vector<Slip> slips = {
      {{}, "a command is missing"},
      {{"mak", "x.toml"}, "did you mean make?"},
      {{"frobnicate"}, "the commands are make, block"},
      {{"--quite", "make"}, "no option \"--quite\" before a command"},
      {{"make"}, "ORDER is required"},
      {{"make", "--jsn", "x.toml"}, "did you mean --json?"},
      {{"make", "--frobnicate", "x.toml"}, "see crownwright make --help"},
      {{"make", "x.toml", "--into"}, "--into stands there without its value"},
      {{"make", "--color", "alway", "x.toml"}, "did you mean always?"},
      {{"make", "a.toml", "a.toml"}, "\"a.toml\" is given twice"},
      {{"make", "a.toml", "b/a.toml"}, "both be written to the folder \"a\""},
      {{"make", ".."}, "not the name of an order file"},
      {{"check"}, "FILE is required"},
      {{"check", "a.stl", "b.stl"}, "\"b.stl\" is one word too many"},
      {{"schema", "x"}, "one word too many"},
      {{"profiles", "shape"}, "did you mean shapes?"},
      {{"sizes", "7"}, "has no system"},
      {{"sizes", "M"}, "letter size"},
      {{"sizes", "US", "99"}, "outside the hat sizes"},
      {{"sizes", "200 cm"}, "hat size"},
      {{"block"}, "is missing; as in --"},
      {{"block", "--head-girth", "57 cm", "--crown-diameter", "28 cm"},
       "block: --rise is missing; as in --rise \"7.5 cm\""},
      {{"pad", "--rise", "4 cm"}, "pad: --crown-diameter is missing; as in --crown-diameter \"28 cm\""},
      {{"block", "--rise"}, "--rise stands there without its value"},
      {{"block", "--rise", "7cm", "--rise", "8cm"}, "--rise is given more than once"},
      {{"block", "--rise", "75"}, "--rise: \"75\" has no unit"},
      {{"block", "--rise", "-5 cm"}, "--rise: rise of -50 mm"},
      {{"block", "--collar", "7,5 cm"}, "--collar:"},
      {{"block", "--panels", "two"}, "--panels"},
      {{"block", "--taken-at", "inside"}, "--taken-at"},
      {{"block", "--gap", "3 mm"}, "no option \"--gap\""},
      {{"pad", "--head-girth", "57 cm"}, "no option \"--head-girth\""},
      {{"block", "--set", "collar"}, "key=value"},
      {{"block", "--set", "form.colar=2 cm"}, "did you mean form.collar?"},
      {{"block", "--set", "form.collar=2"}, "--set form.collar: \"2\" has no unit"},
      {{"block", "--collar", "1 cm", "--set", "form.collar=2 cm"}, "given already by --collar"},
      {{"block", "--set", "form.collar=1 cm", "--set", "form.collar=2 cm"}, "given already"},
      {{"pad", "--set", "form.kind=block"}, "given already"},
      {{"block", "--cloth", "../etc/passwd"}, "--cloth"},
  };
  const TemporaryFolder folder;
  for (const Slip& slip : slips) {
    std::string line;
    for (const auto& word : slip.words) line += word + " ";
    SCOPED_TRACE(line);
    const Outcome outcome = run(slip.words, {.folder = folder.path()});
    expect_fault(outcome, 2, slip.part);
    EXPECT_EQ(outcome.out, "");
  }
  EXPECT_EQ(files_in(folder.path()), std::vector<std::string>{});
}

TEST(Usage, SurvivesHostileWords) {
  const TemporaryFolder folder;
  for (const std::string& word : {std::string("\xFF\xFE"), std::string("\x1b[2J"), std::string(100'000, 'x'),
                                  std::string("a\nb"), std::string(), std::string("--"), std::string("---"),
                                  std::string("-"), std::string("%s%n"), std::string("[a")}) {
    for (const std::string command : {"", "make", "check", "sizes", "block", "profiles"}) {
      std::vector<std::string> words;
      if (!command.empty()) words.push_back(command);
      words.push_back(word);
      const Outcome outcome = run(words, {.folder = folder.path()});
      EXPECT_GE(outcome.exit_code, 0) << command << " " << word;
      EXPECT_LE(outcome.exit_code, 4) << command << " " << word << outcome.err;
      EXPECT_NE(outcome.exit_code, 1) << command << " " << word << outcome.err;
      if (outcome.exit_code != 0) expect_one_line(outcome.err);
      EXPECT_EQ(outcome.err.find('\x1b'), std::string::npos);
      EXPECT_LT(outcome.err.size(), 10'000u);
    }
  }
}

TEST(Usage, HelpsOnStandardOutput) {
  const Outcome all = run({"--help"});
  EXPECT_EQ(all.exit_code, 0);
  EXPECT_EQ(all.err, "");
  for (const std::string command : {"make", "block", "pad", "check", "sizes", "profiles", "schema"}) {
    EXPECT_NE(all.out.find("\n  " + command + " "), std::string::npos) << command;
    const Outcome one = run({command, "--help"});
    EXPECT_EQ(one.exit_code, 0);
    EXPECT_EQ(one.err, "");
    EXPECT_NE(one.out.find("Usage: crownwright " + command), std::string::npos) << one.out;
    EXPECT_NE(one.out.find("Examples:"), std::string::npos) << command;
  }
  EXPECT_NE(all.out.find("Exit codes: 0 done"), std::string::npos);
  EXPECT_NE(all.out.find("Examples:"), std::string::npos);
}

TEST(Usage, TellsItsVersion) {
  const Outcome outcome = run({"--version"});
  EXPECT_EQ(outcome.exit_code, 0);
  EXPECT_EQ(outcome.out, "crownwright 0.1.0\n");
}

TEST(Usage, SaysWhenStandardOutputIsFull) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"--help"}, {"--version"}, {"sizes"}, {"schema"}, {"profiles"}, {"sizes", "UK 7", "--json"}}) {
    expect_fault(run(words, {.output_to = "/dev/full"}), 4,
                 "standard output: cannot be written: No space left");
  }
}

TEST(Usage, SaysWhenNobodyReads) {
  for (int trial = 0; trial < 3; ++trial) {
    Process process({"schema"}, {});
    process.close_output();
    const Outcome outcome = process.finish();
    // The program may have written all of it before the pipe was closed.
    if (outcome.exit_code == 0) continue;
    expect_fault(outcome, 4, "standard output: cannot be written: Broken pipe");
  }
}

}  // namespace
}  // namespace crownwright::test
