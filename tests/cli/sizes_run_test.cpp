// Runs of sizes through the program.
#include <map>
#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

class SizesRun : public testing::Test {
 protected:
  void put(const std::string& name, const std::string& text) { write_file(folder_.path() / name, text); }
  std::string get(const std::string& name) { return read_file(folder_.path() / name); }
  bool there(const std::string& name) { return fs::exists(folder_.path() / name); }
  std::map<std::string, std::string> all(const std::string& folder = "out") {
    std::map<std::string, std::string> contents;
    for (const std::string& name : files_in(folder_.path() / folder))
      contents[name] = get(folder + "/" + name);
    return contents;
  }
  Outcome make(Names words) {
    words.insert(words.begin(), "make");
    return run(words, {.folder = folder_.path()});
  }
  Json table() { return Json::parse(get("out/b/b.sizes.json")); }
  TemporaryFolder folder_;
};

std::string base(const std::string& sizes, const std::string& more = {}) {
  return "name = \"School beret\"\n[measure]\nhead_girth = \"55 cm\"\ncrown_diameter = \"27 cm\"\nrise = "
         "\"75 "
         "mm\"\n[cloth]\nname = \"fleece\"\n[pattern]\npanels = 8\n[mesh]\nchord_tolerance = \"0.4 mm\"\n" +
         more + "[sizes]\n" + sizes;
}

const char three[] =
    "list = [[\"S\", \"53 cm\", \"26 cm\"], [\"M\", \"55 cm\", \"27 cm\"], [\"L\", \"57 cm\", "
    "\"28 cm\", \"78 mm\"]]\n";
// M's crown of 500 mm asks for more rise than 75 mm: the soft dome's edge is 0.143 of the crown radius.
const char one_too_wide[] =
    "list = [[\"S\", \"53 cm\", \"26 cm\"], [\"M\", \"55 cm\", \"50 cm\"], [\"L\", \"57 cm\", \"28 cm\"]]\n";

std::vector<Names> csv_of(const std::string& text) {
  std::vector<Names> rows;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    EXPECT_TRUE(line.ends_with('\r')) << line;  // RFC 4180
    line.pop_back();
    Names cells(1);
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    rows.push_back(cells);
  }
  return rows;
}
std::string cell(const std::vector<Names>& csv, std::size_t row, const std::string& column) {
  const auto at = std::find(csv[0].begin(), csv[0].end(), column);
  return at == csv[0].end() ? "no such column" : csv[row].at(static_cast<std::size_t>(at - csv[0].begin()));
}

TEST_F(SizesRun, EverySizeHasItsFolderAndTheRunItsTables) {
  put("b.toml", base(three));
  const Outcome outcome = make({"b.toml"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  Names expected;
  for (const char* size : {"b-L", "b-M", "b-S"})
    for (const std::string& file :
         form_files("b/" + std::string(size) + "/" + size, {".fit.png", ".fit.svg"}))
      expected.push_back(file);
  for (const char* table : {".nested.svg", ".sizes.csv", ".sizes.json", ".sizes.txt"})
    expected.push_back("b/b" + std::string(table));
  std::sort(expected.begin(), expected.end());
  EXPECT_EQ(files_in(folder_.path() / "out"), expected);
  EXPECT_EQ(outcome.out.find(get("out/b/b.sizes.txt")), 0u) << outcome.out;
}

TEST_F(SizesRun, TablesHoldWhatWasOrderedAndMeasured) {
  put("b.toml", base(three));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  const auto csv = csv_of(get("out/b/b.sizes.csv"));
  const Json json = table();
  ASSERT_EQ(csv.size(), 4u);
  ASSERT_EQ(json["sizes"].size(), 3u);
  EXPECT_EQ(json["units"], "mm");
  // Figures of the outside less 3 mm of fleece all round: crowns less 6 mm, girths less 2 pi 3 mm.
  const double crowns[] = {254, 264, 274}, heads[] = {530 - 18.8496, 550 - 18.8496, 570 - 18.8496};
  const char* const names[] = {"S", "M", "L"};
  for (std::size_t i = 0; i < 3; ++i) {
    SCOPED_TRACE(names[i]);
    const Json& size = json["sizes"][i];
    EXPECT_EQ(cell(csv, i + 1, "size"), names[i]);
    EXPECT_EQ(size["size"], names[i]);
    EXPECT_EQ(size["made"], true);
    EXPECT_NEAR(std::stod(cell(csv, i + 1, "crown_diameter")), crowns[i], 1e-3);
    EXPECT_NEAR(std::stod(cell(csv, i + 1, "head_girth")), heads[i], 1e-3);
    // Read back from the mesh, whose chords lie within 0.4 mm.
    EXPECT_NEAR(size["measured"]["crown_diameter"].get<double>(), crowns[i], 0.8);
    EXPECT_NEAR(std::stod(cell(csv, i + 1, "measured_head_girth")), heads[i], 2 * 3.1416 * 0.4);
    EXPECT_TRUE(cell(csv, i + 1, "fault").empty());
    EXPECT_EQ(cell(csv, i + 1, "verdict"), size["fit"]["verdict"]);
    // Each size's own report says the same.
    const std::string stem = std::string("b-") + names[i];
    const Json report = Json::parse(get("out/b/" + stem + "/" + stem + ".report.json"));
    EXPECT_EQ(report["fit"]["verdict"], size["fit"]["verdict"]);
    EXPECT_EQ(report["fit"]["length_strain_centre"], size["fit"]["length_strain_centre"]);
    EXPECT_EQ(report["measured"]["rise"], size["measured"]["rise"]);
    EXPECT_EQ(report["name"], std::string("School beret, size ") + names[i]);
    for (const Json& file : size["files"]) EXPECT_TRUE(there("out/b/" + file.get<std::string>())) << file;
  }
  // L has a rise of its own, 3 mm more.
  EXPECT_NEAR(std::stod(cell(csv, 3, "rise")) - std::stod(cell(csv, 2, "rise")), 3, 0.5);
  for (const Json& file : json["files"]) EXPECT_TRUE(there("out/b/" + file.get<std::string>())) << file;
}

TEST_F(SizesRun, TheNestedChartNamesEverySize) {
  put("b.toml", base(three));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  const Outcome drawn = run({"-f", "png", "-w", "200", "out/b/b.nested.svg", "-o", "n.png"},
                            {.folder = folder_.path(), .program = "/usr/bin/rsvg-convert"});
  EXPECT_EQ(drawn.exit_code, 0) << drawn.err;
  put("plain.toml",
      "[measure]\nhead_girth = \"55 cm\"\ncrown_diameter = \"27 cm\"\nrise = \"75 mm\"\n[mesh]\n"
      "chord_tolerance = \"0.5 mm\"\n[sizes]\n" +
          std::string(three));
  ASSERT_EQ(make({"plain.toml", "-q"}).exit_code, 0);
  EXPECT_FALSE(there("out/plain/plain.nested.svg")) << "no panels to draw";
}

TEST_F(SizesRun, AnImpossibleSizeDoesNotStopTheOthers) {
  put("b.toml", base(one_too_wide));
  const Outcome outcome = make({"b.toml"});
  expect_fault(outcome, 3, "size M");
  EXPECT_TRUE(there("out/b/b-S/b-S.stl"));
  EXPECT_TRUE(there("out/b/b-L/b-L.stl"));
  EXPECT_FALSE(there("out/b/b-M"));
  const auto csv = csv_of(get("out/b/b.sizes.csv"));
  ASSERT_EQ(csv.size(), 4u);
  EXPECT_EQ(csv[2].size(), csv[0].size());
  EXPECT_EQ(cell(csv, 2, "crown_diameter"), "");
  EXPECT_NE(cell(csv, 2, "fault"), "");
  EXPECT_EQ(cell(csv, 1, "fault"), "");
  const Json json = table();
  EXPECT_EQ(json["sizes"][0]["made"], true);
  EXPECT_EQ(json["sizes"][1]["made"], false);
  EXPECT_EQ(json["sizes"][1]["fault"]["exit"], 3);
  EXPECT_FALSE(json["sizes"][1]["fault"]["what"].get<std::string>().empty());
  EXPECT_NE(get("out/b/b.sizes.txt").find("not made"), std::string::npos);
  EXPECT_NE(outcome.out.find("not made"), std::string::npos);
}

TEST_F(SizesRun, PrintsNothingButJsonWithJson) {
  put("b.toml", base(one_too_wide));
  const Outcome outcome = make({"b.toml", "--json"});
  EXPECT_EQ(outcome.exit_code, 3);
  const Json printed = Json::parse(outcome.out);
  ASSERT_EQ(printed["sizes"].size(), 3u);
  for (const Json& file : printed["sizes"][0]["files"]) EXPECT_TRUE(there(file.get<std::string>())) << file;
}

// EU sizes are girths in cm.
TEST_F(SizesRun, HatSizes) {
  put("b.toml", base("hat_sizes = [\"EU 54\", \"US 7 1/8\"]\nhead_step = \"2 cm\"\ncrown_step = \"1 cm\"\n"));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  EXPECT_TRUE(there("out/b/b-EU-54/b-EU-54.stl"));
  EXPECT_TRUE(there("out/b/b-US-7-1-8/b-US-7-1-8.stl"));
  // 1 cm less girth than the base's 55: half a step of crown less.
  const Json report = Json::parse(get("out/b/b-EU-54/b-EU-54.report.json"));
  EXPECT_NEAR(report["form"]["crown_diameter"].get<double>(), 270 - 5 - 6, 1e-3);
  EXPECT_NEAR(report["form"]["head_girth"].get<double>(), 540 - 18.8496, 1e-3);
}

TEST_F(SizesRun, StepsDownAndUp) {
  put("b.toml", base("smaller = 1\nlarger = 1\nhead_step = \"15 mm\"\nrise_step = \"2 mm\"\n"));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  const auto csv = csv_of(get("out/b/b.sizes.csv"));
  ASSERT_EQ(csv.size(), 4u);
  EXPECT_EQ(cell(csv, 1, "size"), "535mm");
  EXPECT_EQ(cell(csv, 2, "size"), "55cm");
  EXPECT_EQ(cell(csv, 3, "size"), "565mm");
  // Without crown_step the crown keeps its overhang: girth / pi of diameter.
  EXPECT_NEAR(std::stod(cell(csv, 3, "crown_diameter")) - std::stod(cell(csv, 2, "crown_diameter")),
              15 / 3.14159265, 1e-3);
}

TEST_F(SizesRun, GivesTheSameBytesEveryTime) {
  put("b.toml", base(three));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  const auto first = all();
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0) << "its own files are replaced without --force";
  EXPECT_TRUE(first == all());
  // A run that was changed replaces what it made before, too.
  put("b.toml", base("smaller = 0\nlarger = 1\nhead_step = \"2 cm\"\n"));
  ASSERT_EQ(make({"b.toml", "-q"}).exit_code, 0);
  EXPECT_EQ(table()["sizes"].size(), 2u);
}

TEST_F(SizesRun, LeavesForeignTablesAlone) {
  put("b.toml", base("smaller = 0\nlarger = 0\nhead_step = \"2 cm\"\n"));
  fs::create_directories(folder_.path() / "out/b");
  for (const char* table : {"out/b/b.sizes.csv", "out/b/b.sizes.json"}) {
    put(table, "somebody else's");
    expect_fault(make({"b.toml"}), 4, "--force");
    EXPECT_EQ(get(table), "somebody else's");
    fs::remove(folder_.path() / table);
  }
  put("out/b/b.sizes.csv", "somebody else's");
  ASSERT_EQ(make({"b.toml", "--force", "-q"}).exit_code, 0);
  EXPECT_NE(get("out/b/b.sizes.csv"), "somebody else's");
}

TEST_F(SizesRun, AForeignMeshFailsItsSizeAlone) {
  put("b.toml", base(three));
  fs::create_directories(folder_.path() / "out/b/b-M");
  put("out/b/b-M/b-M.stl", "somebody else's");
  expect_fault(make({"b.toml"}), 4, "size M");
  EXPECT_EQ(get("out/b/b-M/b-M.stl"), "somebody else's");
  EXPECT_TRUE(there("out/b/b-L/b-L.stl"));
  EXPECT_EQ(table()["sizes"][1]["fault"]["exit"], 4);
}

}  // namespace
}  // namespace crownwright::test
