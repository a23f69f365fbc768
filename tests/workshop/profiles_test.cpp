#include "workshop/profiles.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>

#include "workshop/cloth.h"
#include "workshop/material.h"
#include "workshop/shape_profile.h"

namespace fs = std::filesystem;
using namespace crownwright;
using namespace crownwright::workshop;

namespace {

const ProfileFolder source_profiles{CW_SOURCE_DIR "/profiles"};

// A profile folder of our own, gone afterwards; the environment as it was.
class Profiles : public testing::Test {
 protected:
  Profiles() {
    std::string pattern = (fs::temp_directory_path() / "cw_profiles_XXXXXX").string();
    folder_.path = mkdtemp(pattern.data());
    for (const char* kind : {"shapes", "cloth", "materials"})
      fs::create_directory(fs::path(folder_.path) / kind);
    unsetenv("CROWNWRIGHT_PROFILES");
  }
  ~Profiles() override {
    fs::remove_all(folder_.path);
    unsetenv("CROWNWRIGHT_PROFILES");
  }

  fs::path path(const std::string& name) const { return fs::path(folder_.path) / name; }
  void write(const std::string& name, const std::string& text) const { std::ofstream(path(name)) << text; }

  /// The fault of reading this text as the material "x".
  Fault material_fault(const std::string& text) const {
    write("materials/x.toml", text);
    const auto material = find_material(folder_, "x");
    EXPECT_FALSE(material.ok()) << text;
    return material.ok() ? Fault() : material.fault();
  }
  void expect_broken(const std::string& text, const std::string& where, const std::string& part) const {
    const Fault fault = material_fault(text);
    EXPECT_EQ(fault.exit, ExitCode::order);
    EXPECT_EQ(fault.where.rfind(path("materials/x.toml").string() + where, 0), 0u) << fault.line();
    EXPECT_NE(fault.line().find(part), std::string::npos) << fault.line();
  }

  ProfileFolder folder_;
};

const std::string good_material = "summary = \"x\"\ndensity = { value = 1, source = \"y\" }\n";

// ---- where the folder is ---------------------------------------------------------------------

TEST_F(Profiles, AreFoundInTheSourceTreeWhenNothingElseIsSaid) {
  const auto found = find_profile_folder("");
  ASSERT_TRUE(found.ok()) << found.fault().line();
  EXPECT_TRUE(fs::equivalent(found->path, source_profiles.path)) << found->path;
}

TEST_F(Profiles, TheEnvironmentComesBeforeTheUsualPlacesAndAnExplicitFolderBeforeIt) {
  setenv("CROWNWRIGHT_PROFILES", folder_.path.c_str(), 1);
  EXPECT_EQ(find_profile_folder("")->path, folder_.path);
  EXPECT_EQ(find_profile_folder(source_profiles.path)->path, source_profiles.path);
}

TEST_F(Profiles, AFolderAskedForMustExist) {
  const std::string none = path("none").string();
  const auto asked = find_profile_folder(none);
  ASSERT_FALSE(asked.ok());
  EXPECT_EQ(asked.fault().exit, ExitCode::file);
  EXPECT_NE(asked.fault().line().find(none), std::string::npos);
  setenv("CROWNWRIGHT_PROFILES", none.c_str(), 1);
  const auto environment = find_profile_folder("");
  ASSERT_FALSE(environment.ok()) << "another folder was taken in its place";
  EXPECT_EQ(environment.fault().exit, ExitCode::file);
  EXPECT_NE(environment.fault().line().find("CROWNWRIGHT_PROFILES"), std::string::npos);
}

TEST_F(Profiles, AreLookedForBesideAnInstalledProgram) {
  fs::create_directories(path("share/crownwright/profiles"));
  const auto places = usual_profile_places(path("bin/crownwright").string());
  ASSERT_EQ(places.size(), 2u);
  const auto found = first_profile_folder(places);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->path, path("share/crownwright/profiles").string());
}

TEST_F(Profiles, NameEveryPlaceTried) {
  const auto found = first_profile_folder({path("a").string(), path("b").string()});
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.fault().exit, ExitCode::file);
  EXPECT_NE(found.fault().line().find(path("a").string()), std::string::npos);
  EXPECT_NE(found.fault().line().find(path("b").string()), std::string::npos);
}

// ---- names -----------------------------------------------------------------------------------

TEST_F(Profiles, NamesNeverLeadOutOfTheFolder) {
  for (const char* good : {"a", "soft-dome", "pa12", "my_felt"}) EXPECT_TRUE(is_profile_name(good)) << good;
  for (const char* bad : {"", "..", "../x", "a/b", "a.b", "A", "-x", " ", "é", "a\n"}) {
    EXPECT_FALSE(is_profile_name(bad)) << bad;
  }
  EXPECT_FALSE(is_profile_name(std::string("a\0b", 3)));
  EXPECT_FALSE(is_profile_name(std::string(65, 'a')));
  write("secret.toml", good_material);
  const auto outside = find_material(folder_, "../secret");
  ASSERT_FALSE(outside.ok());
  EXPECT_EQ(outside.fault().exit, ExitCode::order);
}

TEST_F(Profiles, AreListedByNameAndNothingElseIs) {
  write("materials/b.toml", good_material);
  write("materials/a.toml", good_material);
  write("materials/notes.txt", "no profile");
  write("materials/.hidden.toml", "no profile");
  write("materials/Bad Name.toml", "no profile");
  EXPECT_EQ(*profile_names(folder_, "materials"), (std::vector<std::string>{"a", "b"}));
  ASSERT_TRUE(list_materials(folder_).ok());
  EXPECT_EQ(list_materials(folder_)->at(1).name, "b");
}

TEST_F(Profiles, AnUnknownNameIsAnsweredWithTheNearestAndAll) {
  const auto shape = find_shape(source_profiles, "soft-doom");
  ASSERT_FALSE(shape.ok());
  EXPECT_EQ(shape.fault().exit, ExitCode::order);
  const std::string line = shape.fault().line();
  EXPECT_NE(line.find("did you mean soft-dome?"), std::string::npos) << line;
  EXPECT_NE(line.find("flat"), std::string::npos) << line;
  const auto cloth = find_cloth(folder_, "fleece");
  ASSERT_FALSE(cloth.ok());
  EXPECT_NE(cloth.fault().line().find("there are: none"), std::string::npos) << cloth.fault().line();
}

// ---- broken and hostile files ----------------------------------------------------------------

TEST_F(Profiles, AMissingKindOfProfileIsAFileFault) {
  fs::remove(path("cloth"));
  ASSERT_FALSE(list_cloths(folder_).ok());
  EXPECT_EQ(list_cloths(folder_).fault().exit, ExitCode::file);
  EXPECT_EQ(find_cloth(folder_, "fleece").fault().exit, ExitCode::file);
}

TEST_F(Profiles, BrokenFilesSayWhere) {
  const std::string summary = "summary = \"x\"\n";
  expect_broken("", ":1:1: summary", "missing");
  expect_broken(summary, ":1:1: density", "missing");
  expect_broken("summary = [\n", ":", "not TOML");
  expect_broken("summary = 3\n", ":1:11: summary", "not a line of text");
  expect_broken("summary = \"a\\nb\"\n", ":1:11: summary", "not a line of text");
  expect_broken(summary + "density = 1\n", ":2:11: density", "without its source");
  expect_broken(summary + "density = { value = 1 }\n", ":2:11: density.source", "missing");
  expect_broken(summary + "density = { source = \"y\" }\n", ":2:11: density.value", "missing");
  expect_broken(summary + "density = { value = \"1\", source = \"y\" }\n", ":2:21: density", "not a number");
  expect_broken(summary + "density = { value = -1, source = \"y\" }\n", ":2:21: density", "0.005 to 20");
  expect_broken(summary + "density = { value = nan, source = \"y\" }\n", ":2:21", "nan");
  expect_broken(summary + "density = { value = 1e308, source = \"y\" }\n", ":2:21: density", "out of range");
  expect_broken(summary + "density = { value = 1, source = \"\" }\n", ":2:33: density.source", "not a line");
  expect_broken(summary + "density = { value = 1, source = \"y\", unit = \"kg\" }\n", ":2:38: unit",
                "value, source");
  expect_broken(good_material + "densty = 3\n", ":3:1: densty", "did you mean density?");
  expect_broken(good_material + std::string("\0", 1), ":3:1", "NUL");
  expect_broken(summary + "density = " + std::string(10000, '['), ":", "not TOML");
}

TEST_F(Profiles, ALengthWantsItsUnit) {
  const auto cloth = [&](const std::string& thickness) {
    write("cloth/x.toml",
          "summary = \"x\"\nthickness = { value = " + thickness +
              ", source = \"y\" }\nheat_shrink = { value = 0, source = \"y\" }\n"
              "stretch = { value = 0, source = \"y\" }\nease = { value = 0, source = \"y\" }\n");
    return find_cloth(folder_, "x");
  };
  ASSERT_TRUE(cloth("\"1/8 in\"").ok()) << cloth("\"1/8 in\"").fault().line();
  EXPECT_EQ(cloth("\"1/8 in\"")->thickness.value, Length(3175, 1000));
  for (const char* bad : {"3", "\"3\"", "\"-3 mm\"", "\"3 m\"", "true"}) {
    ASSERT_FALSE(cloth(bad).ok()) << bad;
    EXPECT_NE(cloth(bad).fault().where.find("cloth/x.toml:2:23: thickness"), std::string::npos);
  }
}

TEST_F(Profiles, OneBrokenFileSpoilsTheListButNotItsNeighbours) {
  write("materials/a.toml", good_material);
  write("materials/b.toml", "density = [");
  EXPECT_TRUE(find_material(folder_, "a").ok());
  ASSERT_FALSE(list_materials(folder_).ok());
  EXPECT_NE(list_materials(folder_).fault().where.find("b.toml"), std::string::npos);
}

TEST_F(Profiles, FoldersPipesAndHugeFilesAreNotRead) {
  fs::create_directory(path("materials/folder.toml"));
  ASSERT_EQ(mkfifo(path("materials/pipe.toml").c_str(), 0600), 0);
  write("materials/big.toml", "#");
  fs::resize_file(path("materials/big.toml"), 100u << 20);
  fs::create_symlink("loop.toml", path("materials/loop.toml"));
  for (const char* name : {"folder", "pipe", "big", "loop"}) {
    const auto material = find_material(folder_, name);
    ASSERT_FALSE(material.ok()) << name;
    EXPECT_EQ(material.fault().exit, ExitCode::file) << name;
  }
}

}  // namespace
