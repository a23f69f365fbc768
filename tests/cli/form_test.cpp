// crownwright block and crownwright pad.

#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

const Names kBlock = {"block",  "--head-girth", "57 cm",  "--crown-diameter", "28 cm", "--rise",
                      "7.5 cm", "--cloth",      "fleece", "--tolerance",      "0.2 mm"};

Names with(Names words, const Names& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Block, IsMadeWithoutAnOrderFile) {
  const TemporaryFolder folder;
  const Outcome outcome = run(kBlock, {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(files_in(folder.path()), form_files("out/block/block"));
}

TEST(Block, IsFiledUnderItsName) {
  const TemporaryFolder folder;
  const Outcome outcome =
      run(with(kBlock, {"--name", "Béret No. 5 (navy)!", "-q"}), {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(files_in(folder.path()), form_files("out/béret-no-5-navy/béret-no-5-navy"));
}

TEST(Block, SavedAsAnOrderMakesTheSameBytes) {
  const TemporaryFolder folder;
  const RunRules here{.folder = folder.path()};
  const Outcome saved = run(with(kBlock, {"--name", "Navy", "--vents", "--set", "form.floor=4 mm", "--socket",
                                          "25 mm", "--save-order", "navy.toml", "--into", "one", "-q"}),
                            here);
  ASSERT_EQ(saved.exit_code, 0) << saved.err;
  const Outcome made = run({"make", "navy.toml", "--into", "two", "-q"}, here);
  ASSERT_EQ(made.exit_code, 0) << made.err << read_file(folder.path() / "navy.toml");
  EXPECT_EQ(read_file(folder.path() / "one/navy/navy.stl"), read_file(folder.path() / "two/navy/navy.stl"));
  EXPECT_EQ(read_file(folder.path() / "one/navy/navy.report.json"),
            read_file(folder.path() / "two/navy/navy.report.json"));
}

TEST(Block, KeepsAnotherOrderFile) {
  const TemporaryFolder folder;
  const RunRules here{.folder = folder.path()};
  write_file(folder.path() / "mine.toml", "mine\n");
  const Names saving = with(kBlock, {"--save-order", "mine.toml", "-q"});
  expect_fault(run(saving, here), 4, "mine.toml");
  EXPECT_EQ(read_file(folder.path() / "mine.toml"), "mine\n");
  EXPECT_EQ(files_in(folder.path()), (Names{"mine.toml"}));
  EXPECT_EQ(run(with(saving, {"--force"}), here).exit_code, 0);
  EXPECT_EQ(run(saving, here).exit_code, 0) << "the same words may be written again";
}

TEST(Block, SavesNoOrderThatNoFormCanMeet) {
  const TemporaryFolder folder;
  const Outcome outcome = run({"block", "--head-girth", "57 cm", "--crown-diameter", "28 cm", "--rise",
                               "20 mm", "--edge-radius", "40 mm", "--save-order", "x.toml"},
                              {.folder = folder.path()});
  EXPECT_EQ(outcome.exit_code, 3) << outcome.err;
  EXPECT_EQ(files_in(folder.path()), Names{});
}

TEST(Block, TakesHatSizesAndInches) {
  const TemporaryFolder folder;
  const Outcome outcome = run({"block", "--hat-size", "US 7 1/8", "--crown-diameter", "11 in", "--rise",
                               "3 in", "--tolerance", "0.2 mm", "--json"},
                              {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json ordered = Json::parse(outcome.out)["ordered"];
  EXPECT_EQ(ordered["head_girth"], 570.0);      // published table
  EXPECT_EQ(ordered["crown_diameter"], 279.4);  // 11 x 25.4 exactly
  EXPECT_EQ(ordered["rise"], 76.2);
}

TEST(Pad, IsMadeFlatAndInADish) {
  const TemporaryFolder folder;
  const RunRules here{.folder = folder.path()};
  const Outcome flat = run({"pad", "--crown-diameter", "26 cm", "--rise", "4 cm", "--shape", "flat",
                            "--tolerance", "0.2 mm", "--json"},
                           here);
  ASSERT_EQ(flat.exit_code, 0) << flat.err;
  EXPECT_EQ(Json::parse(flat.out)["kind"], "pad");
  const Outcome dish =
      run({"pad", "--crown-diameter", "26 cm", "--rise", "5 cm", "--name", "Dish", "--gap", "3 mm",
           "--dish-readings", "0 mm=0 mm, 90 mm=4 mm, 140 mm=12 mm", "--tolerance", "0.2 mm", "--json"},
          here);
  ASSERT_EQ(dish.exit_code, 0) << dish.err;
  const Json readings = Json::parse(dish.out)["ordered"]["dish"]["readings"];
  EXPECT_EQ(readings, Json::parse("[[0.0, 0.0], [90.0, 4.0], [140.0, 12.0]]"));
}

}  // namespace
}  // namespace crownwright::test
