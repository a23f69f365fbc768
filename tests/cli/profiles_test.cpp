#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

TEST(Profiles, AreListedWithTheirSources) {
  const Outcome outcome = run({"profiles", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json json = Json::parse(outcome.out);
  EXPECT_GE(json["shapes"].size(), 6u);
  EXPECT_GE(json["cloth"].size(), 6u);
  EXPECT_GE(json["materials"].size(), 1u);
  for (const Json& cloth : json["cloth"]) {
    for (const char* key : {"thickness_mm", "heat_shrink", "stretch", "ease"}) {
      EXPECT_FALSE(cloth[key]["source"].get<std::string>().empty()) << cloth["name"] << key;
    }
  }
}

TEST(Profiles, ShowEachShapeInAPicture) {
  const Json json = Json::parse(run({"profiles", "shapes", "--json"}).out);
  const Outcome unicode = run({"profiles", "shapes"}, {.environment = {"LC_ALL=C.UTF-8"}});
  const Outcome ascii = run({"profiles", "shapes"}, {.environment = {"LC_ALL=C"}});
  for (const Json& shape : json["shapes"]) {
    std::string name(1, '\n');
    name.append(shape["name"].get<std::string>()).append(1, '\n');
    for (const std::string* text : {&unicode.out, &ascii.out}) {
      const auto at = text->find(name);
      ASSERT_NE(at, std::string::npos) << name;
      const std::string entry = text->substr(at, text->find("\n\n", at + 1) - at);
      EXPECT_GE(std::count(entry.begin(), entry.end(), '\n'), 6)
          << entry;  // summary, figures and a crown of some lines
    }
  }
  EXPECT_NE(unicode.out.find("\xE2\xA0"), std::string::npos);  // U+28xx
  EXPECT_EQ(ascii.out.find("\xE2\xA0"), std::string::npos);
}

TEST(Profiles, GiveOneKindWhenAsked) {
  const Json json = Json::parse(run({"profiles", "cloth", "--json"}).out);
  EXPECT_TRUE(json.contains("cloth"));
  EXPECT_FALSE(json.contains("shapes"));
}

// A bed's name is its size: bed-220 is 220 mm wide and deep.
TEST(Profiles, ListPrintersByTheirBeds) {
  const Outcome outcome = run({"profiles", "printers", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json.size(), 1u) << "no other kind";
  std::vector<std::string> names;
  for (const Json& printer : json["printers"]) {
    names.push_back(printer["name"]);
    ASSERT_TRUE(names.back().starts_with("bed-"));
    const double side = std::stod(names.back().substr(4));
    EXPECT_EQ(printer["width_mm"]["value"], side);
    EXPECT_EQ(printer["depth_mm"]["value"], side);
    for (const char* key : {"width_mm", "depth_mm", "height_mm", "nozzle_mm"}) {
      EXPECT_GT(printer[key]["value"].get<double>(), 0) << names.back() << key;
      EXPECT_FALSE(printer[key]["source"].get<std::string>().empty()) << names.back() << key;
    }
  }
  std::vector<std::string> files;
  for (const std::string& file : files_in(CW_SOURCE_DIR "/profiles/printers"))
    files.push_back(file.substr(0, file.size() - std::string(".toml").size()));
  EXPECT_EQ(names, files);
  const Outcome page = run({"profiles", "printers"});
  for (const std::string& name : names)
    EXPECT_NE(page.out.find("\n" + name + "\n"), std::string::npos) << name;
  EXPECT_EQ(page.out.find("CLOTHS"), std::string::npos);
}

// A folder of one's own may have been made before there were printers.
TEST(Profiles, OfAFolderWithoutPrintersAreTheOthers) {
  const TemporaryFolder folder;
  const fs::path mine = folder.path() / "mine";
  fs::copy(CW_SOURCE_DIR "/profiles", mine, fs::copy_options::recursive);
  fs::remove_all(mine / "printers");
  const Outcome all = run({"profiles", "--json", "--profiles", mine.string()});
  ASSERT_EQ(all.exit_code, 0) << all.err;
  EXPECT_FALSE(Json::parse(all.out).contains("printers"));
  EXPECT_TRUE(Json::parse(all.out).contains("materials"));
  EXPECT_TRUE(Json::parse(run({"profiles", "--json"}).out).contains("printers"));
  expect_fault(run({"profiles", "printers", "--profiles", mine.string()}), 4, "printers");
}

TEST(Profiles, ComeFromTheFolderThatWasAskedFor) {
  const TemporaryFolder folder;
  expect_fault(run({"profiles", "--profiles", (folder.path() / "none").string()}), 4, "none");
  expect_fault(
      run({"profiles"}, {.environment = {"CROWNWRIGHT_PROFILES=" + (folder.path() / "gone").string()}}), 4,
      "gone");
  const fs::path mine = folder.path() / "mine";
  fs::copy(CW_SOURCE_DIR "/profiles", mine, fs::copy_options::recursive);
  fs::rename(mine / "cloth/fleece.toml", mine / "cloth/my-own-fleece.toml");
  const Outcome asked = run({"profiles", "cloth", "--profiles", mine.string()});
  EXPECT_NE(asked.out.find("my-own-fleece"), std::string::npos) << asked.err;
  const Outcome set = run({"profiles", "cloth"}, {.environment = {"CROWNWRIGHT_PROFILES=" + mine.string()}});
  EXPECT_NE(set.out.find("my-own-fleece"), std::string::npos) << set.err;
}

TEST(Schema, IsJson) {
  const Outcome outcome = run({"schema"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json schema = Json::parse(outcome.out);
  EXPECT_TRUE(schema.contains("properties"));
  EXPECT_EQ(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
}

}  // namespace
}  // namespace crownwright::test
