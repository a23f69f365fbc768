// The parts of a form as files, read by other libraries.
#include "making/part_files.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>

#include "files/lib3mf_reading.h"
#include "files/temp_folder.h"
#include "files/threemf_reader.h"
#include "making/printed_orders.h"
#include "making/read_back.h"
#include "making/stack_files.h"
#include "making/write.h"

namespace crownwright::making {
namespace {

using test::BoxOf;
using test::on_bed;
using test::pc_block;
using test::TempFolder;
using Names = std::vector<std::string>;

std::string no_report(const std::vector<std::string>&) { return "{\"made_by\": \"crownwright\"}\n"; }

Result<Names> put_into(const TempFolder& folder, const Form& form, std::vector<ExtraFile> extras = {}) {
  return write_form(form, {folder.path(), "b", false, std::move(extras)}, no_report);
}

/// Names below the order's folder, sorted, with their bytes.
std::map<std::string, std::string> put_files(const TempFolder& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder.path()))
    if (entry.is_regular_file())
      files[entry.path().filename().string()] = test::content_of(entry.path().string());
  return files;
}

Names put_names(const TempFolder& folder) {
  Names names;
  for (const auto& [name, bytes] : put_files(folder)) names.push_back(name);
  return names;
}

/// Three sectors on two beds, five pieces and a ring on one, a whole block.
const Form& in_sectors() {
  static const Form form = test::make(pc_block(on_bed("220x220x250") + "licence = \"CC BY 4.0\"\n",
                                               "[vents]\ndiameter = \"3 mm\"\nspacing = \"60 mm\"\n"));
  return form;
}
const Form& in_pieces() {
  static const Form form = test::make(pc_block("", "[puzzle]\npieces = 5\n"));
  return form;
}
const Form& in_one() {
  static const Form form = test::make(pc_block());
  return form;
}

TEST(PartFiles, AreNamedByWhatTheFormIs) {
  EXPECT_EQ(part_endings(in_one()), (Names{".3mf", ".glb"}));
  EXPECT_EQ(part_ending(in_one(), 0), ".stl");
  EXPECT_EQ(part_endings(in_sectors()), (Names{".part-1.stl", ".part-2.stl", ".part-3.stl", ".3mf",
                                               ".plate-1.3mf", ".plate-2.3mf", ".glb"}));
  EXPECT_EQ(part_ending(in_sectors(), 2), ".part-3.stl");
  EXPECT_EQ(part_endings(in_pieces()).size(), 6u + 2u) << "one bed needs no plates";
}

TEST(PartFiles, AreWrittenAsTheyAreNamed) {
  const TempFolder folder;
  const auto paths = put_into(folder, in_sectors());
  ASSERT_TRUE(paths) << paths.fault().line();
  EXPECT_EQ(put_names(folder), (Names{"b.3mf", "b.glb", "b.part-1.stl", "b.part-2.stl", "b.part-3.stl",
                                      "b.plate-1.3mf", "b.plate-2.3mf", "b.report.json", "b.stl"}));
  EXPECT_EQ(paths->size(), 9u);
  EXPECT_TRUE(paths->front().ends_with("b.stl") && paths->back().ends_with("b.report.json"));
}

// Assimp reads the file, CGAL proves it: closed, one piece, bounding a volume, no facet through another.
TEST(PartFiles, EveryStlIsAPartProvedByOthers) {
  for (const Form* form : {&in_sectors(), &in_pieces()}) {
    const TempFolder folder;
    ASSERT_TRUE(put_into(folder, *form));
    int holes = 0;
    for (std::size_t k = 0; k < form->printed.parts.size(); ++k) {
      SCOPED_TRACE(form->printed.parts[k].name);
      const test::Soup soup = test::read_by_assimp(folder.file("b/b" + part_ending(*form, k)));
      const test::ProofAgain proof = test::prove_again(soup);
      EXPECT_TRUE(proof.manifold && proof.closed && proof.outward && proof.bounds_a_volume);
      EXPECT_FALSE(proof.crosses_itself);
      EXPECT_EQ(proof.pieces, 1);
      holes += proof.genus;
      EXPECT_NEAR(test::volume_of(soup), form->printed.parts[k].figures.body.volume, 2);
      double low = 1e9;
      for (const test::Spot3& p : soup.corners) low = std::min(low, p.z);
      EXPECT_NEAR(low, 0, 1e-4);
    }
    if (form == &in_sectors()) {
      EXPECT_EQ(holes, form->printed.vents) << "each vent a hole through its part";
    }
  }
}

void expect_side_by_side(const std::vector<BoxOf>& boxes) {
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k) EXPECT_GE(boxes[i].low[k], -1e-4) << "the positive octant";
    EXPECT_NEAR(boxes[i].low[2], 0, 1e-4);
    for (std::size_t k = 0; k < i; ++k) EXPECT_FALSE(boxes[i].overlaps(boxes[k])) << i << " and " << k;
  }
}

TEST(PartFiles, ThePackageHoldsEveryPartOnceByItsName) {
  for (const Form* form : {&in_one(), &in_sectors(), &in_pieces()}) {
    const TempFolder folder;
    ASSERT_TRUE(put_into(folder, *form));
    const auto model = files::read_threemf(folder.file("b/b.3mf"));
    ASSERT_TRUE(model) << model.fault().line();
    const test::Lib3mfReading seen = test::read_by_lib3mf(folder.file("b/b.3mf"));
    ASSERT_TRUE(seen.read) << seen.error;
    EXPECT_EQ(seen.warnings, 0u);
    EXPECT_TRUE(seen.is_millimetre);
    const auto& parts = form->printed.parts;
    ASSERT_EQ(seen.items.size(), parts.size());
    ASSERT_EQ(model->items.size(), parts.size());
    std::vector<BoxOf> by_us, by_lib3mf;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      SCOPED_TRACE(parts[k].name);
      const auto& body = model->bodies[model->items[k].body];
      EXPECT_EQ(body.name, parts[k].name);
      EXPECT_EQ(seen.items[k].name, parts[k].name);
      EXPECT_TRUE(seen.items[k].manifold_and_oriented && seen.items[k].valid);
      EXPECT_NEAR(test::mesh_volume(seen.items[k].mesh), parts[k].figures.body.volume, 2);
      by_us.push_back(test::placed_box(body.mesh, model->items[k].place));
      by_lib3mf.push_back(test::placed_box(seen.items[k].mesh, seen.items[k].place));
    }
    expect_side_by_side(by_us);
    expect_side_by_side(by_lib3mf);
    EXPECT_EQ(seen.metadata.at("Title"), "Worked");
    EXPECT_EQ(seen.metadata.contains("LicenseTerms"), form == &in_sectors());
  }
}

// Each bed's own package holds what lies on it, where it lies, within the bed less 2 mm.
TEST(PartFiles, EachBedHasItsPackage) {
  const TempFolder folder;
  ASSERT_TRUE(put_into(folder, in_sectors()));
  Names found;
  for (const char* plate : {"b/b.plate-1.3mf", "b/b.plate-2.3mf"}) {
    const test::Lib3mfReading seen = test::read_by_lib3mf(folder.file(plate));
    ASSERT_TRUE(seen.read) << seen.error;
    std::vector<BoxOf> boxes;
    for (const test::Lib3mfItem& item : seen.items) {
      found.push_back(item.name);
      boxes.push_back(test::placed_box(item.mesh, item.place));
      for (std::size_t k : {0u, 1u}) {
        EXPECT_GE(boxes.back().low[k], 2 - 1e-3);
        EXPECT_LE(boxes.back().high[k], 218 + 1e-3);
      }
    }
    expect_side_by_side(boxes);
    EXPECT_NE(seen.metadata.at("Title").find("bed"), std::string::npos);
  }
  EXPECT_EQ(found, (Names{"sector-1", "sector-2", "sector-3"}));
}

TEST(PartFiles, AreTheSameBytesEveryTime) {
  const std::string orders[] = {pc_block(on_bed("220x220x250")),
                                pc_block("", "[puzzle]\npieces = 5\n[stack]\nsheet = \"10 mm\"\n")};
  for (const std::string& text : orders) {
    std::map<std::string, std::string> first;
    for (int turn = 0; turn < 2; ++turn) {
      const Form form = test::make(text);
      std::vector<ExtraFile> extras;
      if (form.order.stack) extras = stack_files(form.order, form.solid, test::own_profiles()).value();
      const TempFolder folder;
      ASSERT_TRUE(put_into(folder, form, extras));
      const auto files = put_files(folder);
      EXPECT_EQ(files.contains("b.stack.a4.pdf"), form.order.stack.has_value());
      if (turn == 0) first = files;
      ASSERT_EQ(files.size(), first.size());
      for (const auto& [name, bytes] : files) EXPECT_TRUE(bytes == first.at(name)) << name;
    }
  }
}

// ---- what is in the way ------------------------------------------------------------------------

TEST(PartFiles, NeverReplaceAForeignFileAndLeaveNothingHalfDone) {
  for (const char* name : {"b.part-2.stl", "b.3mf", "b.plate-2.3mf", "b.glb"}) {
    SCOPED_TRACE(name);
    const TempFolder folder;
    std::filesystem::create_directory(folder.file("b"));
    folder.put("b/" + std::string(name), "my own work\n");
    const auto refused = put_into(folder, in_sectors());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.fault().exit, ExitCode::file);
    EXPECT_NE(refused.fault().line().find(name), std::string::npos) << refused.fault().line();
    auto left = put_files(folder);
    EXPECT_EQ(left.at(name), "my own work\n");
    EXPECT_FALSE(left.contains("b.report.json"));
    // What is there is whole: as where nothing was in the way.
    left.erase(name);
    const TempFolder free;
    ASSERT_TRUE(put_into(free, in_sectors()));
    const auto whole = put_files(free);
    for (const auto& [file, bytes] : left) {
      ASSERT_TRUE(whole.contains(file)) << file << " is not a file of the form";
      EXPECT_TRUE(bytes == whole.at(file)) << file;
    }
  }
}

TEST(PartFiles, OfTheSameOrderAreReplaced) {
  const TempFolder folder;
  ASSERT_TRUE(put_into(folder, in_pieces()));
  const auto first = put_files(folder);
  const auto again = put_into(folder, in_pieces());
  ASSERT_TRUE(again) << again.fault().line();
  EXPECT_TRUE(put_files(folder) == first);
}

}  // namespace
}  // namespace crownwright::making
