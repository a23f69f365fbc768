// Letters to be engraved, against librsvg, which draws the same font its own way, and against their own
// rules.

#include "drawings/text_outline.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <numbers>

#include "drawings/self_crossing.h"

namespace crownwright::drawings {
namespace {

namespace fs = std::filesystem;
using pattern::Outline;
using pattern::Vec2;

// Every letter a home keyboard of western or eastern Europe has, and what hat sizes are written with.
const std::string all_letters =
    "!\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~"
    "¡¢£¤¥¦§©ª«¬®°±²³µ¶·¹º»¼½¾¿ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖ×ØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõö÷øùúûüýþÿ"
    "ąćčďęěğıłńňőœřśşšťůűźżžĄŁŒŠŹŽ⅛⅜⅝⅞–—‘’“”„…†€™−";

TextOutline engraved(const std::string& text, const TextStyle& style = {}) {
  const auto outline = text_outline(text, style);
  EXPECT_TRUE(outline.ok()) << (outline.ok() ? "" : outline.fault().line());
  return outline.ok() ? *outline : TextOutline();
}

std::vector<std::string> split_letters(const std::string& text) {
  std::vector<std::string> letters;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) letters.emplace_back();
    letters.back() += c;
  }
  return letters;
}

std::vector<Outline> loops_in(const LetterPiece& piece) {
  std::vector<Outline> loops = {piece.outer};
  loops.insert(loops.end(), piece.holes.begin(), piece.holes.end());
  return loops;
}

double area_of(const TextOutline& text) {
  double area = 0;
  for (const LetterPiece& piece : text.pieces) {
    for (const Outline& loop : loops_in(piece)) area += pattern::signed_area(loop);
  }
  return area;
}

// Middle of the filled area.
Vec2 middle_of(const TextOutline& text) {
  Vec2 moment;
  double twice = 0;
  for (const LetterPiece& piece : text.pieces) {
    for (const Outline& loop : loops_in(piece)) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const Vec2 a = loop[i], b = loop[(i + 1) % loop.size()];
        twice += cross(a, b);
        moment = moment + cross(a, b) * (a + b);
      }
    }
  }
  return (1 / (3 * twice)) * moment;
}

double to_line(Vec2 p, const Outline& loop) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Vec2 a = loop[i], along = loop[(i + 1) % loop.size()] - a;
    const double f = std::clamp(dot(p - a, along) / dot(along, along), 0.0, 1.0);
    least = std::min(least, norm(p - a - f * along));
  }
  return least;
}

// Corners of each against sides of the other: enough where they do not cross.
double between_pieces(const LetterPiece& a, const LetterPiece& b) {
  double least = std::numeric_limits<double>::infinity();
  for (const Vec2 p : a.outer) least = std::min(least, to_line(p, b.outer));
  for (const Vec2 p : b.outer) least = std::min(least, to_line(p, a.outer));
  return least;
}

bool holds(const Outline& loop, Vec2 p) {
  double turned = 0;  // winding number: all the way round, or not at all
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Vec2 a = loop[i] - p, b = loop[(i + 1) % loop.size()] - p;
    turned += std::atan2(cross(a, b), dot(a, b));
  }
  return std::abs(turned) > std::numbers::pi;
}

// What librsvg fills: area, middle and ends from left to right, in mm from the text's origin.
struct DrawnText {
  double area = 0, left = 1e9, right = -1e9;
  Vec2 middle;
};

class TextPicture : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("crownwright_text_" + std::to_string(getpid()));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  // One text below the other, `cap` mm high: capitals of DejaVu Sans are 1493/2048 of an em (the font's own
  // OS/2 table, sCapHeight).
  std::vector<DrawnText> drawn(const std::vector<std::string>& texts, double cap) const {
    const std::string height = std::to_string(row * static_cast<int>(texts.size()));
    std::string svg = "<svg xmlns='http://www.w3.org/2000/svg' width='120mm' height='" + height +
                      "mm' viewBox='0 0 120 " + height + "'><rect width='120' height='" + height +
                      "' fill='white'/>";
    for (std::size_t i = 0; i < texts.size(); ++i) {
      svg += "<text x='10' y='" + std::to_string(row * static_cast<int>(i) + foot) +
             "' font-family='DejaVu Sans' font-size='" + std::to_string(cap * 2048 / 1493) + "'>" +
             (texts[i] == "&" ? "&amp;" : texts[i]) + "</text>";
    }
    const std::string base = (folder_ / "t").string();
    std::ofstream(base + ".svg") << svg << "</svg>";
    const std::string command = "rsvg-convert -f pdf -o " + base + ".pdf " + base +
                                ".svg && pdftoppm -r 254 " + "-gray -singlefile " + base + ".pdf " + base;
    EXPECT_EQ(std::system(command.c_str()), 0);
    return measured(base + ".pgm", texts.size());
  }

 private:
  static constexpr int row = 40, foot = 30;

  static std::vector<DrawnText> measured(const std::string& file, std::size_t count) {
    std::ifstream in(file, std::ios::binary);
    std::string magic;
    int width = 0, height = 0, most = 0;
    in >> magic >> width >> height >> most;
    in.get();
    std::vector<DrawnText> all(count);
    for (int y = 0; y < height; ++y) {
      DrawnText& one = all[std::min(static_cast<std::size_t>(y / (10 * row)), count - 1)];
      for (int x = 0; x < width; ++x) {
        const double ink = 1 - static_cast<unsigned char>(in.get()) / 255.0;
        const Vec2 at{(x + 0.5) / 10 - 10, foot - (y % (10 * row) + 0.5) / 10};
        one.area += ink / 100;
        one.middle = one.middle + (ink / 100) * at;
        if (ink > 0.5) {
          one.left = std::min(one.left, at.x - 0.05);
          one.right = std::max(one.right, at.x + 0.05);
        }
      }
    }
    for (DrawnText& one : all) one.middle = (1 / one.area) * one.middle;
    return all;
  }

  fs::path folder_;
};

TEST_F(TextPicture, LettersAreFilledAsLibrsvgFillsThem) {
  const std::vector<std::string> letters = {"H", "8", "g", "@", "é", "%", "½", "Å",
                                            "&", "i", "ß", "®", "Q", "4", "Ø", "ç"};
  const std::vector<DrawnText> pictures = drawn(letters, 20);
  for (std::size_t i = 0; i < letters.size(); ++i) {
    SCOPED_TRACE(letters[i]);
    const TextOutline ours = engraved(letters[i], {20, 0.6, 0.005});
    const DrawnText& theirs = pictures[i];
    EXPECT_NEAR(area_of(ours) / theirs.area, 1, 0.01);
    EXPECT_NEAR(ours.width, theirs.right - theirs.left, 0.15);
    EXPECT_NEAR(norm(middle_of(ours) + Vec2{theirs.left, 0} - theirs.middle), 0, 0.15);
  }
}

TEST_F(TextPicture, WordsAreAsWideAsLibrsvgSetsThem) {
  const std::vector<std::string> texts = {"HOL 57 cm", "57 280"};
  const std::vector<DrawnText> pictures = drawn(texts, 10);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const TextOutline ours = engraved(texts[i], {10, 0.6, 0.005});
    EXPECT_NEAR(ours.width, pictures[i].right - pictures[i].left, 0.25) << texts[i];
    EXPECT_NEAR(area_of(ours) / pictures[i].area, 1, 0.01) << texts[i];
  }
}

TEST(TextOutline, EveryLetterOfAKeyboardHasSoundLoops) {
  for (const std::string& letter : split_letters(all_letters)) {
    SCOPED_TRACE(letter);
    const TextOutline outline = engraved(letter, {3, 0.6, 0.02});
    EXPECT_GT(outline.pieces.size(), 0u);
    std::vector<Outline> loops;
    for (const LetterPiece& piece : outline.pieces) {
      EXPECT_GT(pattern::signed_area(piece.outer), 0) << "counter-clockwise, y up";
      for (const Outline& hole : piece.holes) {
        EXPECT_LT(pattern::signed_area(hole), 0);
        for (const Vec2 p : hole) EXPECT_TRUE(holds(piece.outer, p));
      }
      for (const Outline& loop : loops_in(piece)) loops.push_back(loop);
    }
    for (std::size_t i = 0; i < loops.size(); ++i) {
      EXPECT_FALSE(self_crossing(loops[i]));
      for (std::size_t k = 0; k < i; ++k) EXPECT_GT(between_pieces({loops[i], {}}, {loops[k], {}}), 1e-4);
    }
  }
}

// Counted by eye in the font.
TEST(TextOutline, HolesBelongToTheirPiece) {
  const auto shape = [](const std::string& letter) {
    std::string text;
    for (const LetterPiece& piece : engraved(letter).pieces) text += std::to_string(piece.holes.size());
    return text;
  };
  EXPECT_EQ(shape("H"), "0");
  EXPECT_EQ(shape("i"), "00");
  EXPECT_EQ(shape("8"), "2");
  EXPECT_EQ(shape("B"), "2");
  EXPECT_EQ(shape("%"), "110") << "two rings and the stroke";
  EXPECT_EQ(shape("Å"), "2") << "the ring touches the A";
  EXPECT_EQ(shape("©"), "10") << "a ring and, inside it, a c";
  EXPECT_EQ(shape("®"), "11") << "a ring and, inside it, an R with a hole";
}

TEST(TextOutline, CapitalsAreAsHighAsAsked) {
  for (const double cap : {1.0, 3.5, 20.0}) {
    const Outline h = engraved("H", {cap, 0.6, 0.02}).pieces.front().outer;
    const auto by_y = [](Vec2 a, Vec2 b) { return a.y < b.y; };
    EXPECT_NEAR(std::min_element(h.begin(), h.end(), by_y)->y, 0, 1e-9);
    EXPECT_NEAR(std::max_element(h.begin(), h.end(), by_y)->y, cap, 1e-9);
    EXPECT_EQ(h.size(), 12u);
  }
}

TEST(TextOutline, ChordsLieWithinTheirTolerance) {
  const LetterPiece fine = engraved("S", {10, 0.6, 0.0002}).pieces.front();
  for (const double flatness : {0.02, 0.2}) {
    const LetterPiece coarse = engraved("S", {10, 0.6, flatness}).pieces.front();
    double worst = 0;
    for (const Vec2 p : fine.outer) worst = std::max(worst, to_line(p, coarse.outer));
    EXPECT_LE(worst, flatness + 0.0002);
    EXPECT_GT(worst, flatness / 50) << "and are no finer than they need be";
    EXPECT_LT(coarse.outer.size(), fine.outer.size() / 4);
  }
}

// Small letters stand closer in the font than a nozzle can part them.
TEST(TextOutline, LettersKeepTheirDistance) {
  const std::string text = "LTillrn((//jfAV.,";
  const TextStyle style{2.5, 0.6, 0.02};
  const TextOutline outline = engraved(text, style);
  // Pieces of one letter may be nearer to each other; here only i and j have two.
  std::vector<std::vector<LetterPiece>> letters;
  std::size_t next = 0;
  for (const std::string& letter : split_letters(text)) {
    const std::size_t count = engraved(letter, style).pieces.size();
    letters.emplace_back(outline.pieces.begin() + static_cast<std::ptrdiff_t>(next),
                         outline.pieces.begin() + static_cast<std::ptrdiff_t>(next + count));
    next += count;
  }
  ASSERT_EQ(next, outline.pieces.size());
  double nearest = 1e9;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      for (const LetterPiece& a : letters[i]) {
        for (const LetterPiece& b : letters[k]) nearest = std::min(nearest, between_pieces(a, b));
      }
    }
  }
  EXPECT_GE(nearest, 0.6 - 1e-6);
  EXPECT_LE(nearest, 0.602) << "and no further than it must";
  EXPECT_GT(outline.width, engraved(text, {2.5, 0, 0.02}).width);
  // With a narrow letter high up between them, two that lie low must see each other.
  const TextOutline low = engraved("_'_", {1, 0.6, 0.02});
  EXPECT_NEAR(between_pieces(low.pieces[0], low.pieces[2]), 0.6, 0.002);
  EXPECT_NEAR(engraved("H H", style).width, engraved("H H", {2.5, 0, 0.02}).width, 1e-9);
}

// Every letter is turned as a whole, its foot on the circle.
TEST(RoundText, LettersStandOnTheCircle) {
  for (const bool heads_out : {true, false}) {
    const TextStyle style{4, 0.6, 0.02};
    const auto round = text_outline_round("IIII", style, {60, 1.0, heads_out});
    ASSERT_TRUE(round.ok());
    ASSERT_EQ(round->pieces.size(), 4u);
    EXPECT_NEAR(area_of(*round), 4 * area_of(engraved("I", style)), 1e-9);
    double sum = 0, before = heads_out ? 10 : -10;
    for (const LetterPiece& piece : round->pieces) {
      EXPECT_GT(pattern::signed_area(piece.outer), 0);
      const Vec2 middle = middle_of({{piece}, 0});
      // An I is a rectangle: its middle stands half its height above its foot.
      EXPECT_NEAR(norm(middle), heads_out ? 62 : 58, 1e-6);
      const double angle = std::atan2(middle.y, middle.x);
      EXPECT_TRUE(heads_out ? angle < before : angle > before) << "reading direction";
      before = angle;
      sum += angle;
    }
    EXPECT_NEAR(sum / 4, 1.0, 1e-9) << "about its middle";
  }
}

TEST(RoundText, LettersKeepTheirDistanceWhereHeadsCloseUp) {
  const TextStyle style{4, 0.6, 0.02};
  for (const double radius : {9.0, 15.0, 60.0}) {
    for (const bool heads_out : {true, false}) {
      const auto round = text_outline_round("HHH", style, {radius, 0, heads_out});
      ASSERT_TRUE(round.ok()) << round.fault().line();
      for (std::size_t i = 1; i < 3; ++i)
        EXPECT_GE(between_pieces(round->pieces[i - 1], round->pieces[i]), 0.6 - 1e-6);
    }
  }
  // On a great circle it is the straight line again.
  EXPECT_NEAR(text_outline_round("Market 57", style, {1e5, 0, true})->width,
              engraved("Market 57", style).width, 1e-3);
}

TEST(RoundText, LongerThanItsRingIsRefused) {
  const TextStyle style{4, 0.6, 0.02};
  const double width = engraved("Market beret 57 cm", style).width;
  EXPECT_TRUE(text_outline_round("Market beret 57 cm", style, {width / 6.0, 0, true}).ok());
  const auto round = text_outline_round("Market beret 57 cm", style, {width / 6.5, 0, true});
  ASSERT_FALSE(round.ok());
  EXPECT_NE(round.fault().line().find("too long for a ring"), std::string::npos) << round.fault().line();
}

// Where the text nearly fills its ring the last letter has to keep clear of the first, too.
TEST(RoundText, TheLastLetterKeepsClearOfTheFirst) {
  const TextStyle style{4, 0.6, 0.02};
  int taken = 0, refused = 0;
  for (const bool heads_out : {true, false}) {
    for (double radius = 4.5; radius < 12; radius += 0.05) {
      const auto round = text_outline_round("HHHHHHHH", style, {radius, 0, heads_out});
      (round.ok() ? taken : refused) += 1;
      if (!round.ok()) continue;
      EXPECT_GE(between_pieces(round->pieces.front(), round->pieces.back()), 0.6 - 1e-6) << radius;
    }
  }
  EXPECT_GT(taken, 50);
  EXPECT_GT(refused, 50);
}

TEST(TextOutline, WhatTheFontDoesNotHaveIsNamed) {
  const auto refusal = [](const std::string& text) {
    const auto outline = text_outline(text, {});
    return outline.ok() ? std::string("taken") : outline.fault().line();
  };
  EXPECT_NE(refusal("57 字").find("\"字\" (U+5B57)"), std::string::npos) << refusal("57 字");
  EXPECT_NE(refusal("a\tb").find("(U+0009)"), std::string::npos) << refusal("a\tb");
  EXPECT_NE(refusal("e\u0301").find("(U+0301)"), std::string::npos) << "an accent of its own";
  EXPECT_NE(refusal("\U0001F9E2").find("(U+1F9E2)"), std::string::npos) << refusal("\U0001F9E2");
  EXPECT_NE(refusal("a\xff").find("UTF-8"), std::string::npos);
  EXPECT_NE(refusal("").find("nothing to engrave"), std::string::npos);
  EXPECT_NE(refusal("   ").find("nothing to engrave"), std::string::npos);
  EXPECT_NE(refusal(std::string(401, 'x')).find("too long"), std::string::npos);
  EXPECT_EQ(refusal(std::string(400, 'x')), "taken");
}

TEST(TextOutline, IsTheSameEveryTime) {
  const TextOutline once = engraved("Market beret Ø 280"), again = engraved("Market beret Ø 280");
  ASSERT_EQ(once.pieces.size(), again.pieces.size());
  for (std::size_t i = 0; i < once.pieces.size(); ++i) {
    EXPECT_EQ(once.pieces[i].outer, again.pieces[i].outer);
    EXPECT_EQ(once.pieces[i].holes, again.pieces[i].holes);
  }
}

}  // namespace
}  // namespace crownwright::drawings
