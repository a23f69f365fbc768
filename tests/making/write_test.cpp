// Same order, same bytes; and files whole or not at all.
#include "making/write.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <map>
#include <thread>

#include "files/temp_folder.h"
#include "making/orders.h"

namespace crownwright::making {
namespace {

using test::content_of;
using test::TempFolder;

std::string report(const std::vector<std::string>& paths) {
  std::string text = "{\"made_by\": \"crownwright\", \"files\": " + std::to_string(paths.size()) + "}\n";
  return text;
}

order::Order in_all_formats(order::Order order, bool ascii) {
  order.mesh.formats = {order::MeshFormat::stl, order::MeshFormat::obj, order::MeshFormat::ply};
  order.mesh.ascii = ascii;
  return order;
}

using Files = std::map<std::string, std::string>;  ///< name and bytes

Files files_in(const std::string& folder) {
  Files files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[entry.path().lexically_relative(folder)] = content_of(entry.path());
  }
  return files;
}

Files written(const order::Order& order) {
  const TempFolder folder;
  const auto paths = write_form(test::make(order), {folder.path(), "beret", false}, report);
  EXPECT_TRUE(paths) << paths.fault().line();
  return files_in(folder.path());
}

TEST(SameBytes, EverySampleTwiceAndInTwoThreadsAtOnce) {
  for (const char* name : test::kSamples) {
    SCOPED_TRACE(name);
    order::Order order = in_all_formats(test::sample(name), name[0] == 't');
    order.mesh.chord_tolerance = Length::from_mm(0.3);  // the same ways in less time
    Files first, second;
    std::thread other([&] { second = written(order); });
    first = written(order);
    other.join();
    EXPECT_GE(first.size(), 6u);  // three meshes, package, what is looked at, report
    EXPECT_TRUE(first == second);
  }
}

TEST(SameBytes, AnotherOrderOtherBytes) {
  order::Order order = test::sample("table-pad");
  const Files first = written(order);
  order.form.foot_edge_size = Length::from_mm(0.6);
  EXPECT_FALSE(first == written(order));
}

TEST(OrderMark, TellsOrdersApart) {
  order::Order order = test::sample("table-pad");
  const std::string mark = order_mark(order);
  EXPECT_EQ(mark.size(), std::string("order ").size() + 16);
  EXPECT_EQ(mark, order_mark(order));
  order.form.foot_edge_size = Length::from_mm(0.6);
  EXPECT_NE(mark, order_mark(order));
}

// ---- what may be replaced ------------------------------------------------------------------------

class Writing : public testing::Test {
 protected:
  Result<std::vector<std::string>> write(bool force = false) {
    return write_form(form_, {folder_.file("out"), "pad", force}, report);
  }
  std::string place(const std::string& name) const { return folder_.file("out/pad/" + name); }
  /// A fault of the kind `file`, with the path in it, and nothing unfinished left.
  void expect_fault(const Result<std::vector<std::string>>& result, const std::string& path) {
    ASSERT_FALSE(result);
    EXPECT_EQ(result.fault().exit, ExitCode::file);
    EXPECT_NE(result.fault().line().find(path), std::string::npos) << result.fault().line();
  }
  Form form_ = test::make(in_all_formats(test::sample("table-pad"), false));
  TempFolder folder_;
};

TEST_F(Writing, NamesAllFilesMeshesFirst) {
  const auto paths = write();
  ASSERT_TRUE(paths);
  EXPECT_EQ(*paths, (std::vector<std::string>{place("pad.stl"), place("pad.obj"), place("pad.ply"),
                                              place("pad.3mf"), place("pad.glb"), place("pad.report.json")}));
  EXPECT_EQ(content_of(place("pad.report.json")), "{\"made_by\": \"crownwright\", \"files\": 6}\n");
  EXPECT_EQ(files_in(folder_.path()).size(), 6u);
}

TEST_F(Writing, ReplacesWhatTheSameOrderMade) {
  ASSERT_TRUE(write());
  const Files first = files_in(folder_.path());
  ASSERT_TRUE(write());
  EXPECT_TRUE(first == files_in(folder_.path()));
}

TEST_F(Writing, ReplacesWhatTheOrderMadeBeforeItWasChanged) {
  ASSERT_TRUE(write());
  const std::string before = content_of(place("pad.stl"));
  order::Order order = form_.order;
  order.form.foot_edge_size = Length::from_mm(0.6);
  form_ = test::make(order);
  ASSERT_TRUE(write());
  EXPECT_NE(before, content_of(place("pad.stl")));
}

TEST_F(Writing, RefusesToReplaceAForeignFileWithoutForce) {
  for (const char* name : {"pad.stl", "pad.obj", "pad.ply", "pad.3mf", "pad.glb", "pad.report.json"}) {
    SCOPED_TRACE(name);
    std::filesystem::remove_all(folder_.file("out"));
    std::filesystem::create_directories(folder_.file("out/pad"));
    folder_.put("out/pad/" + std::string(name), "my own work\n");
    expect_fault(write(), place(name));
    EXPECT_EQ(content_of(place(name)), "my own work\n");
    ASSERT_TRUE(write(true));
    EXPECT_NE(content_of(place(name)), "my own work\n");
    EXPECT_EQ(files_in(folder_.path()).size(), 6u);
  }
}

// A report that may not be replaced stops everything; a mesh that may not leaves only whole meshes before it.
TEST_F(Writing, AForeignReportStopsAllMeshes) {
  std::filesystem::create_directories(folder_.file("out/pad"));
  folder_.put("out/pad/pad.report.json", "{\"mine\": true}");
  expect_fault(write(), "pad.report.json");
  EXPECT_EQ(files_in(folder_.path()).size(), 1u);
}

TEST_F(Writing, AForeignMeshLeavesWholeMeshesBeforeItAndNoReport) {
  std::filesystem::create_directories(folder_.file("out/pad"));
  folder_.put("out/pad/pad.ply", "my own work\n");
  expect_fault(write(), "pad.ply");
  const Files left = files_in(folder_.path());
  ASSERT_EQ(left.size(), 3u);
  EXPECT_FALSE(left.contains("out/pad/pad.report.json"));
  std::filesystem::remove(place("pad.ply"));
  ASSERT_TRUE(write());
  const Files whole = files_in(folder_.path());
  for (const char* name : {"out/pad/pad.stl", "out/pad/pad.obj"})
    EXPECT_TRUE(left.at(name) == whole.at(name)) << name;
}

TEST_F(Writing, AFolderInAFilesPlaceIsAFault) {
  for (const char* name : {"pad.stl", "pad.report.json"}) {
    for (const bool force : {false, true}) {
      std::filesystem::remove_all(folder_.file("out"));
      std::filesystem::create_directories(place(name));
      expect_fault(write(force), name);
      EXPECT_TRUE(files_in(folder_.path()).empty());
      EXPECT_TRUE(std::filesystem::is_directory(place(name)));
    }
  }
}

TEST_F(Writing, AFileInTheFoldersPlaceIsAFault) {
  folder_.put("out", "in the way\n");
  expect_fault(write(true), "out");
  std::filesystem::remove(folder_.file("out"));
  std::filesystem::create_directory(folder_.file("out"));
  folder_.put("out/pad", "in the way\n");
  expect_fault(write(true), "out/pad");
  EXPECT_EQ(files_in(folder_.path()).size(), 1u);
  EXPECT_EQ(content_of(folder_.file("out/pad")), "in the way\n");
}

TEST_F(Writing, ALinkIsNeverWrittenThrough) {
  std::filesystem::create_directories(folder_.file("out/pad"));
  folder_.put("elsewhere.stl", "elsewhere\n");
  std::filesystem::create_symlink(folder_.file("elsewhere.stl"), place("pad.stl"));
  expect_fault(write(true), "pad.stl");
  EXPECT_EQ(content_of(folder_.file("elsewhere.stl")), "elsewhere\n");
}

}  // namespace
}  // namespace crownwright::making
