#include <gtest/gtest.h>
#include <zip.h>

#include <map>
#include <set>

#include "cli/program.h"
#include "page/asked.h"
#include "page/base64.h"
#include "page/made_forms.h"

namespace crownwright::page {
namespace {

using test::Json;
using test::small_block;
using test::small_pad;
using test::with;

// Read by libzip, as any unpacker would.
std::map<std::string, std::string> unpacked(const std::string& bytes) {
  std::map<std::string, std::string> files;
  zip_error_t error;
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  zip_t* zip = zip_open_from_source(source, ZIP_CHECKCONS, &error);
  if (zip == nullptr) throw std::runtime_error("this is no ZIP archive");
  for (zip_int64_t i = 0; i < zip_get_num_entries(zip, 0); ++i) {
    zip_stat_t stat;
    zip_stat_index(zip, static_cast<zip_uint64_t>(i), 0, &stat);
    std::string content(stat.size, '\0');
    zip_file_t* file = zip_fopen_index(zip, static_cast<zip_uint64_t>(i), 0);
    EXPECT_EQ(zip_fread(file, content.data(), stat.size), static_cast<zip_int64_t>(stat.size));
    zip_fclose(file);
    files[stat.name] = std::move(content);
  }
  zip_discard(zip);
  return files;
}

/// What the command writes for an order file, by name.
std::map<std::string, std::string> made_by_command(const std::string& toml, const std::string& stem) {
  const test::TestFolder folder;
  test::write_file(folder.path() / (stem + ".toml"), toml);
  test::RunRules rules;
  rules.folder = folder.path();
  const test::Outcome outcome = test::run({"make", stem + ".toml", "--quiet"}, rules);
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  std::map<std::string, std::string> files;
  for (const std::string& name : test::files_in(folder.path() / "out"))
    files[name] = test::contents_of(folder.path() / "out" / name);
  return files;
}

std::set<std::string> names_of(const std::map<std::string, std::string>& files) {
  std::set<std::string> names;
  for (const auto& [name, bytes] : files) names.insert(name);
  return names;
}

TEST(Make, TheZipHoldsWhatTheCommandWritesByteForByte) {
  Json full = with(small_block(), "vents", true);
  full.update({{"name", "Full beret"},
               {"pattern.panels", "8"},
               {"draft", true},
               {"mesh.formats", "[\"stl\", \"ply\"]"}});
  Json pad = small_pad();
  pad.update({{"stack.sheet", "10 mm"}, {"name", "Pad 26"}});
  for (const Json& order : {full, pad}) {
    const std::string request = Json{{"order", order}}.dump();
    const Answer answer = test::bench().make(request);
    ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 400);
    EXPECT_EQ(answer.type, "application/zip");
    const Json saved = test::answer_of(test::bench().save(request));
    const std::string stem = std::filesystem::path(saved["file"].get<std::string>()).stem();
    EXPECT_EQ(answer.file_name, stem + ".zip");
    const auto ours = unpacked(answer.body);
    const auto theirs = made_by_command(saved["toml"], stem);
    EXPECT_EQ(names_of(ours), names_of(theirs));
    for (const auto& [name, bytes] : theirs) EXPECT_TRUE(ours.at(name) == bytes) << name;
    EXPECT_EQ(test::bench().make(request).body, answer.body);
  }
}

TEST(Make, ARunOfSizesIsWholeInTheZip) {
  Json run = small_block();
  run.update({{"name", "Town run"},
              {"sizes.list", R"([["S", "55 cm", "27 cm"], ["2XL wide", "62 cm", "30 cm", "8 cm"]])"}});
  const std::string request = Json{{"order", run}}.dump();
  const Answer answer = test::bench().make(request);
  ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 400);
  EXPECT_EQ(answer.file_name, "town-run.zip");
  const auto ours = unpacked(answer.body);
  const auto theirs = made_by_command(test::answer_of(test::bench().save(request))["toml"], "town-run");
  EXPECT_EQ(names_of(ours), names_of(theirs));
  for (const auto& [name, bytes] : theirs) EXPECT_TRUE(ours.at(name) == bytes) << name;
  EXPECT_TRUE(ours.contains("town-run/town-run-2XL-wide/town-run-2XL-wide.stl"));
  EXPECT_TRUE(ours.contains("town-run/town-run.sizes.csv"));
}

TEST(Make, ARunWithASizeThatCannotBeMadeIsRefusedWithItsName) {
  Json run = small_block();
  run.update({{"sizes.list", R"([["S", "55 cm", "27 cm"], ["odd", "62 cm", "30 cm", "2 cm"]])"}});
  const Answer answer = test::bench().make(Json{{"order", run}}.dump());
  EXPECT_EQ(answer.status, 422);
  EXPECT_NE(test::fault_of(test::answer_of(answer))["where"].get<std::string>().find("size odd"),
            std::string::npos)
      << answer.body;
}

TEST(Make, ADrawingThatCameAlongLeavesNoTraceOfItsFolder) {
  const Json order = {{"pattern.kind", "outline"},       {"pattern.panels", "8"},
                      {"pattern.layer", "cut"},          {"pattern.seam_allowance", "3/8 in"},
                      {"cloth.name", "wool-felt"},       {"pattern.includes_allowance", "true"},
                      {"mesh.chord_tolerance", "0.3 mm"}};
  const std::string bytes = test::contents_of(std::string(CW_SOURCE_DIR) + "/samples/drawn-panel.svg");
  const Json request = {
      {"order", order},
      {"attachments",
       {{"pattern.file", {{"name", "panel.svg"}, {"base64", base64(std::as_bytes(std::span(bytes)))}}}}}};
  page::Workbench first(test::page_profiles()), second(test::page_profiles());
  const Answer one = first.make(request.dump()), two = second.make(request.dump());
  ASSERT_EQ(one.status, 200) << one.body.substr(0, 400);
  EXPECT_EQ(one.body, two.body) << "the same question in another folder gives other bytes";
  for (const auto& [name, content] : unpacked(one.body))
    EXPECT_EQ(content.find("/crownwright-"), std::string::npos) << name;
}

TEST(Make, OneFileIsThatOfTheZip) {
  const Json order = small_block();
  const auto all = unpacked(test::bench().make(Json{{"order", order}}.dump()).body);
  for (const std::string ending : {".stl", ".3mf", ".report.json", ".profile.svg"}) {
    const Answer answer = test::bench().file(Json{{"order", order}, {"ending", ending}}.dump());
    ASSERT_EQ(answer.status, 200);
    EXPECT_EQ(answer.body, all.at("beret/beret" + ending));
    EXPECT_EQ(answer.file_name, "beret" + ending);
  }
  for (const std::string ending : {"", ".exe", "/../../etc/passwd", "stl", "beret.stl"}) {
    const Answer answer = test::bench().file(Json{{"order", order}, {"ending", ending}}.dump());
    EXPECT_EQ(answer.status, 422) << ending;
    EXPECT_EQ(test::fault_of(test::answer_of(answer))["where"], "ending");
  }
}

// What the preview promises is what is made.
TEST(Make, ThePromisedFilesAreMade) {
  Json full = with(small_block(), "vents", true);
  full.update({{"pattern.panels", "8"}, {"draft", true}, {"stack.sheet", "10 mm"}});
  Json pad = small_pad();
  pad.update({{"cover", true}, {"draft", true}});
  for (const Json& order : {small_block(), full, pad}) {
    const std::string request = Json{{"order", order}}.dump();
    const auto made = unpacked(test::bench().make(request).body);
    const std::string stem = made.begin()->first.substr(0, made.begin()->first.find('/'));
    std::set<std::string> promised;
    const Json preview = test::good_preview(order);
    for (const Json& kind : preview["makes"])
      promised.insert(stem + "/" + stem + kind["ending"].get<std::string>());
    EXPECT_EQ(promised, names_of(made));
  }
}

TEST(Make, ThePromisedProgramsAreMade) {
  Json order = small_pad();
  order.update({{"measure.crown_diameter", "12 cm"},
                {"measure.rise", "25 mm"},
                {"shape.dome", "3 mm"},
                {"shape.edge_radius", "12 mm"},
                {"mill.material", "xps"},
                {"mill.stock_sheets", "30 mm"},
                {"mill.stock_size", "200x200 mm"},
                {"mill.flute", "30 mm"},
                {"mill.stick_out", "60 mm"},
                {"mill.scallop", "0.2 mm"},
                {"mill.cell", "1 mm"},
                {"press.heat", "cold"}});
  const Answer answer = test::bench().make(Json{{"order", order}}.dump());
  ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 400);
  const auto made = names_of(unpacked(answer.body));
  const Json preview = test::good_preview(order);
  std::size_t programs = 0;
  for (const Json& kind : preview["makes"]) {
    const std::string ending = kind["ending"];
    EXPECT_TRUE(made.contains("pad/pad" + ending)) << ending << Json(made).dump();
    programs += ending.ends_with(".ngc") ? 1 : 0;
  }
  EXPECT_GE(programs, 2u);
}

TEST(Make, FaultsAreTold) {
  const auto status = [](const std::string& request) { return test::bench().make(request).status; };
  EXPECT_EQ(status("{"), 400);
  EXPECT_EQ(status("{}"), 422);
  EXPECT_EQ(status(Json{{"order", with(small_block(), "measure.rise", "7.5")}}.dump()), 422);
}

MadeForm form_named(const std::string& name, std::size_t bytes) {
  return {name, {{name, std::string(bytes, 'x')}}};
}

TEST(MadeForms, KeepsTheLastFewAndMakesThemOnce) {
  MadeForms forms;
  int made = 0;
  const auto get = [&](const std::string& key, std::size_t bytes = 10) {
    return forms.get(key, [&]() -> Result<MadeForm> {
      ++made;
      return form_named(key, bytes);
    });
  };
  for (int k = 0; k < 3; ++k) EXPECT_EQ((*get("a"))->stem, "a");
  EXPECT_EQ(made, 1);
  for (const char* key : {"b", "c", "d"}) (void)get(key);
  (void)get("a");
  EXPECT_EQ(made, 4);
  (void)get("e");  // "b" is the one not used for longest
  EXPECT_EQ(forms.kept(), MadeForms::most_forms);
  (void)get("a");
  EXPECT_EQ(made, 5);
  (void)get("b");
  EXPECT_EQ(made, 6);
  EXPECT_EQ(forms.kept(), MadeForms::most_forms);
}

TEST(MadeForms, IsBoundedInBytesAndKeepsNoFault) {
  MadeForms forms;
  const auto big = [&](const std::string& key, std::size_t bytes) {
    return forms.get(key, [&]() -> Result<MadeForm> { return form_named(key, bytes); });
  };
  (void)big("a", MadeForms::most_bytes / 2);
  (void)big("b", MadeForms::most_bytes / 2 + 1);
  EXPECT_EQ(forms.kept(), 1u);
  (void)big("c", MadeForms::most_bytes);
  EXPECT_EQ(forms.kept(), 1u) << "larger than all that is kept";
  int tried = 0;
  for (int k = 0; k < 2; ++k) {
    const auto made = forms.get("bad", [&]() -> Result<MadeForm> {
      ++tried;
      return order_fault("x", "no");
    });
    EXPECT_FALSE(made.ok());
  }
  EXPECT_EQ(tried, 2);
}

}  // namespace
}  // namespace crownwright::page
