// Pattern and chart files: each bears the order's mark and is still what its name says, to other programs.
#include "making/extra_files.h"

#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <map>

#include "drawings/read_drawing.h"
#include "making/drafted.h"
#include "making/write.h"
#include "support/outside_program.h"

namespace crownwright::making {
namespace {

const char order_text[] =
    "name = \"Beret & \\\"friends\\\" <1>\"\n[measure]\ncrown_diameter = \"28 cm\"\nhead_girth = \"57 cm\"\n"
    "rise = \"75 mm\"\n[cloth]\nname = \"fleece\"\n[pattern]\npanels = 8\n[band]\n[draft]\n"
    "[mesh]\nchord_tolerance = \"0.5 mm\"\n";

class ExtraFiles : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    form = new Form(test::make(order_text));
    files = new std::map<std::string, std::string>;
    for (ExtraFile& file : pattern_files(form->order, form->pieces)) (*files)[file.ending] = file.bytes;
    for (ExtraFile& file : fit_files(form->order, *form->fit)) (*files)[file.ending] = file.bytes;
  }
  static void TearDownTestSuite() {
    delete files;
    delete form;
  }
  std::string put(const std::string& ending) const { return folder_.put("b" + ending, files->at(ending)); }

  static Form* form;
  static std::map<std::string, std::string>* files;
  test::TempFolder folder_;
};
Form* ExtraFiles::form = nullptr;
std::map<std::string, std::string>* ExtraFiles::files = nullptr;

TEST_F(ExtraFiles, AreThoseOfPanelBandAndChart) {
  std::vector<std::string> endings;
  for (const auto& [ending, bytes] : *files) endings.push_back(ending);
  EXPECT_EQ(endings,
            (std::vector<std::string>{".band.dxf", ".band.svg", ".fit.png", ".fit.svg", ".panel.a4.pdf",
                                      ".panel.dxf", ".panel.letter.pdf", ".panel.sheet.pdf", ".panel.svg"}));
}

TEST_F(ExtraFiles, BearTheMarkOfTheirOrder) {
  const std::string mark = "crownwright " + order_mark(form->order);
  for (const auto& [ending, bytes] : *files) {
    EXPECT_TRUE(bears_extra_mark(put(ending))) << ending;
    EXPECT_NE(bytes.find(mark), std::string::npos) << ending;
  }
}

TEST_F(ExtraFiles, OthersFilesBearNone) {
  EXPECT_FALSE(bears_extra_mark(folder_.put("own.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>\n")));
  EXPECT_FALSE(bears_extra_mark(folder_.put("empty.pdf", "")));
  EXPECT_FALSE(bears_extra_mark(folder_.file("missing.dxf")));
}

TEST_F(ExtraFiles, AreTheSameAgain) {
  const Form again = test::make(order_text);
  for (const ExtraFile& file : pattern_files(again.order, again.pieces))
    EXPECT_TRUE(file.bytes == files->at(file.ending)) << file.ending;
  for (const ExtraFile& file : fit_files(again.order, *again.fit))
    EXPECT_TRUE(file.bytes == files->at(file.ending)) << file.ending;
}

// ---- PNG -------------------------------------------------------------------------------------

std::uint32_t big_endian_at(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(bytes.at(at + i));
  return value;
}

// Bit by bit after ISO/IEC 15948, annex D: polynomial 0xedb88320, begun and ended with all ones.
std::uint32_t crc_of(std::string_view bytes) {
  std::uint32_t crc = 0xffffffffu;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = crc & 1u ? 0xedb88320u ^ crc >> 1 : crc >> 1;
  }
  return ~crc;
}

TEST(Crc, OfTheUsualCheck) { EXPECT_EQ(crc_of("123456789"), 0xcbf43926u); }  // catalogue of CRCs, CRC-32

TEST_F(ExtraFiles, ThePngIsWholeChunkByChunk) {
  const std::string& png = files->at(".fit.png");
  ASSERT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  std::vector<std::string> types;
  for (std::size_t at = 8; at < png.size();) {
    const std::size_t length = big_endian_at(png, at);
    ASSERT_LE(at + 12 + length, png.size());
    types.push_back(png.substr(at + 4, 4));
    EXPECT_EQ(crc_of(std::string_view(png).substr(at + 4, 4 + length)), big_endian_at(png, at + 8 + length))
        << types.back();
    at += 12 + length;
  }
  ASSERT_GE(types.size(), 4u);
  EXPECT_EQ(types.front(), "IHDR");
  EXPECT_EQ(types[types.size() - 2], "tEXt");
  EXPECT_EQ(types.back(), "IEND");
}

// ---- the others, by other programs -----------------------------------------------------------

TEST_F(ExtraFiles, PdfsOpenInPoppler) {
  for (const char* ending : {".panel.a4.pdf", ".panel.letter.pdf", ".panel.sheet.pdf"}) {
    const test::OutsideAnswer info = test::answer_of("pdfinfo " + put(ending) + " 2>&1");
    EXPECT_EQ(info.exit, 0) << ending << info.text;
    EXPECT_NE(info.text.find("Pages:"), std::string::npos) << info.text;
    EXPECT_EQ(info.text.find("rror"), std::string::npos) << info.text;
  }
  // ISO 216 and the Letter sheet, in points of 1/72 in.
  EXPECT_NE(test::answer_of("pdfinfo " + put(".panel.a4.pdf")).text.find("(A4)"), std::string::npos);
  EXPECT_NE(test::answer_of("pdfinfo " + put(".panel.letter.pdf")).text.find("612 x 792"), std::string::npos);
}

TEST_F(ExtraFiles, SvgsAreDrawnByLibrsvg) {
  for (const char* ending : {".panel.svg", ".band.svg", ".fit.svg"}) {
    const test::OutsideAnswer drawn = test::answer_of("rsvg-convert -f png -w 100 " + put(ending) + " -o " +
                                                      folder_.file("s.png") + " 2>&1");
    EXPECT_EQ(drawn.exit, 0) << ending << drawn.text;
    EXPECT_EQ(drawn.text, "") << ending;
    EXPECT_EQ(test::content_of(folder_.file("s.png")).substr(1, 3), "PNG");
  }
}

// Pairs of lines, a group code and a value, from the remark (999) to EOF (DXF reference, "Group codes").
TEST_F(ExtraFiles, DxfsAreReadWithTheirMark) {
  for (const char* ending : {".panel.dxf", ".band.dxf"}) {
    std::istringstream lines(files->at(ending));
    std::string code, value, first;
    while (std::getline(lines, code) && std::getline(lines, value))
      if (first.empty()) first = code;
    EXPECT_EQ(first, "999") << ending;
    EXPECT_EQ(value, "EOF") << ending;
    for (const char* layer : {"1", "14"}) {
      const auto outline = drawings::read_outline(files->at(ending), ending, {layer, {}, 0.001});
      EXPECT_TRUE(outline.ok()) << ending << " " << layer << ": " << outline.fault().line();
    }
  }
}

TEST_F(ExtraFiles, PiecesOfAPadAndOfDiscsHaveTheirOwnNames) {
  const order::Order discs = test::read_order(
      "[measure]\ncrown_diameter = \"28 cm\"\nhead_girth = \"57 cm\"\nrise = \"75 mm\"\n[draft]\npieces = "
      "\"discs\"\n");
  const order::Order pad = test::read_order(
      "[measure]\ncrown_diameter = \"26 cm\"\nrise = \"55 mm\"\n[form]\nkind = \"pad\"\n[cover]\n[draft]\n");
  const auto first_of = [](const order::Order& order) {
    return pattern_files(order, draft_order(order, test::own_profiles()).value()).front().ending;
  };
  EXPECT_EQ(first_of(discs), ".panel.svg");
  EXPECT_EQ(first_of(pad), ".cover.svg");
  EXPECT_TRUE(pattern_files(pad, {}).empty());
}

TEST(FitFiles, ThereAreNoneWithoutACrownsFit) {
  EXPECT_TRUE(
      fit_files(test::read_order(test::drafting_order({140, 90.7, 75, 6, 20, 20}, {})), FormFit{}).empty());
}

}  // namespace
}  // namespace crownwright::making
