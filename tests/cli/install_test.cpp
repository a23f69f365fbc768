// The installed program, away from its source: does it find what it needs?

#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

class Installed : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    place = new TemporaryFolder;
    const fs::path build = fs::path(built_program()).parent_path().parent_path();
    const std::string command = "cmake --install '" + build.string() + "' --prefix '" +
                                (place->path() / "pre fix").string() + "' >/dev/null";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("cmake --install failed");
  }
  static void TearDownTestSuite() { delete place; }
  static fs::path prefix() { return place->path() / "pre fix"; }
  static Outcome run_installed(const std::vector<std::string>& words,
                               std::vector<std::string> environment = {}) {
    environment.push_back("CROWNWRIGHT_PROFILES");
    return run(words, {.folder = place->path(),
                       .environment = std::move(environment),
                       .program = (prefix() / "bin/crownwright").string()});
  }
  static TemporaryFolder* place;
};
TemporaryFolder* Installed::place = nullptr;

TEST_F(Installed, HasEveryPart) {
  for (const char* file :
       {"bin/crownwright", "share/crownwright/profiles/cloth/fleece.toml", "share/man/man1/crownwright.1",
        "share/bash-completion/completions/crownwright", "share/zsh/site-functions/_crownwright",
        "share/fish/vendor_completions.d/crownwright.fish"}) {
    EXPECT_TRUE(fs::is_regular_file(prefix() / file)) << file;
  }
}

TEST_F(Installed, FindsItsOwnProfiles) {
  // A mark in the installed folder tells it from the source's.
  fs::copy_file(prefix() / "share/crownwright/profiles/cloth/fleece.toml",
                prefix() / "share/crownwright/profiles/cloth/installed-fleece.toml",
                fs::copy_options::overwrite_existing);
  const Outcome outcome = run_installed({"profiles", "cloth"});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_NE(outcome.out.find("installed-fleece"), std::string::npos) << outcome.out;
}

TEST_F(Installed, MakesAForm) {
  write_file(place->path() / "m.toml", small_order());
  const Outcome outcome = run_installed({"make", "m.toml", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(Json::parse(outcome.out)["proof"]["passed"], true);
}

TEST_F(Installed, IsFoundThroughALink) {
  const fs::path link = place->path() / "linked";
  fs::remove(link);
  fs::create_symlink(prefix() / "bin/crownwright", link);
  const Outcome outcome =
      run({"profiles", "cloth", "--json"},
          {.folder = "/", .environment = {"CROWNWRIGHT_PROFILES"}, .program = link.string()});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
}

TEST_F(Installed, PutsTheEnvironmentBeforeItsOwnAndTheOptionBeforeBoth) {
  const fs::path mine = place->path() / "mine", other = place->path() / "other";
  for (const fs::path& folder : {mine, other}) {
    fs::copy(CW_SOURCE_DIR "/profiles", folder,
             fs::copy_options::recursive | fs::copy_options::overwrite_existing);
  }
  fs::copy_file(mine / "cloth/knit.toml", mine / "cloth/knit-of-mine.toml",
                fs::copy_options::overwrite_existing);
  fs::copy_file(other / "cloth/knit.toml", other / "cloth/knit-of-another.toml",
                fs::copy_options::overwrite_existing);
  const RunRules rules{.folder = "/",
                       .environment = {"CROWNWRIGHT_PROFILES=" + mine.string()},
                       .program = (prefix() / "bin/crownwright").string()};
  EXPECT_NE(run({"profiles", "cloth"}, rules).out.find("knit-of-mine"), std::string::npos);
  const Outcome option = run({"profiles", "cloth", "--profiles", other.string()}, rules);
  EXPECT_NE(option.out.find("knit-of-another"), std::string::npos);
  EXPECT_EQ(option.out.find("knit-of-mine"), std::string::npos);
}

}  // namespace
}  // namespace crownwright::test
