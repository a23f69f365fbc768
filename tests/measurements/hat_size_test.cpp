// The published table: Wikipedia, "Hat", section "Hat size" (centimetres, letters, UK, US and French sizes).

#include "measurements/hat_size.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace crownwright::measurements {
namespace {

struct Row {
  int cm;
  std::string letter, uk, us, french;
};

const std::vector<Row> kTable = {
    {51, "XXS", "6 1/4", "6 3/8", "2"}, {52, "XXS", "6 3/8", "6 1/2", "2 1/2"},
    {53, "XS", "6 1/2", "6 5/8", "3"},  {54, "XS", "6 5/8", "6 3/4", "3 1/2"},
    {55, "S", "6 3/4", "6 7/8", "4"},   {56, "S", "6 7/8", "7", "4 1/2"},
    {57, "M", "7", "7 1/8", "5"},       {58, "M", "7 1/8", "7 1/4", "5 1/2"},
    {59, "L", "7 1/4", "7 3/8", "6"},   {60, "L", "7 3/8", "7 1/2", "6 1/2"},
    {61, "XL", "7 1/2", "7 5/8", "7"},  {62, "XL", "7 5/8", "7 3/4", "7 1/2"},
    {63, "XXL", "7 3/4", "7 7/8", "8"}, {64, "XXL", "7 7/8", "8", "8 1/2"},
    {65, "XXXL", "8", "8 1/8", "9"},    {66, "XXXL", "8 1/8", "8 1/4", "9 1/2"},
};

Length girth_read(const std::string& text) {
  const auto size = parse_hat_size(text);
  EXPECT_TRUE(size.ok()) << text << ": " << (size.ok() ? "" : size.fault().line());
  return size.ok() ? girth_of(*size) : Length();
}

TEST(HatSize, EveryEntryOfTheTableGivesItsCentimetre) {
  for (const Row& row : kTable) {
    SCOPED_TRACE(row.cm);
    const Length girth(10 * row.cm, 1);
    EXPECT_EQ(girth_read("US " + row.us), girth);
    EXPECT_EQ(girth_read("UK " + row.uk), girth);
    EXPECT_EQ(girth_read("FR " + row.french), girth);
    EXPECT_EQ(girth_read("EU " + std::to_string(row.cm)), girth);
    EXPECT_EQ(girth_read(std::to_string(row.cm) + " cm"), girth);
  }
}

TEST(HatSize, EveryCentimetreOfTheTableGivesItsEntries) {
  for (const Row& row : kTable) {
    SCOPED_TRACE(row.cm);
    const auto sizes = sizes_for_girth(Length(10 * row.cm, 1));
    ASSERT_TRUE(sizes.ok());
    EXPECT_EQ(sizes->girth_cm, row.cm);
    EXPECT_EQ(to_text(sizes->us), "US " + row.us);
    EXPECT_EQ(to_text(sizes->uk), "UK " + row.uk);
    EXPECT_EQ(to_text(sizes->eu), "EU " + std::to_string(row.cm));
    ASSERT_TRUE(sizes->fr.has_value());
    EXPECT_EQ(to_text(*sizes->fr), "FR " + row.french);
    EXPECT_EQ(sizes->letter, row.letter);
  }
}

// A US size is by origin girth/pi in inches; rounded to the nearest eighth it must name the same size as the
// law does, for every whole centimetre with a size.
TEST(HatSize, AgreesWithTheDiameterInInchesToTheNearestEighth) {
  for (int cm = kSmallestGirthCm; cm <= kLargestGirthCm; ++cm) {
    const auto sizes = sizes_for_girth(Length(10 * cm, 1));
    ASSERT_TRUE(sizes.ok());
    const double eighths = std::round(8 * cm / 2.54 / std::numbers::pi);
    const ExactNumber us = sizes->us.number;
    EXPECT_EQ(8.0 * static_cast<double>(us.numerator) / static_cast<double>(us.denominator), eighths) << cm;
  }
}

// Children's heads of the same Wikipedia section: 34 cm at birth, 43 at half a year, 47 at one year.
TEST(HatSize, ReachesFromNewbornHeadsToPastTheTable) {
  for (const int cm : {34, 43, 47, 70}) EXPECT_TRUE(sizes_for_girth(Length(10 * cm, 1)).ok()) << cm;
  EXPECT_FALSE(sizes_for_girth(Length(460, 1))->fr.has_value());
  EXPECT_EQ(to_text(*sizes_for_girth(Length(470, 1))->fr), "FR 0");
  EXPECT_EQ(sizes_for_girth(Length(500, 1))->letter, "");
  EXPECT_EQ(sizes_for_girth(Length(670, 1))->letter, "");
}

TEST(HatSize, TakesTheNearestRowAndTheLargerOfTwo) {
  EXPECT_EQ(sizes_for_girth(Length(5749, 10))->girth_cm, 57);
  EXPECT_EQ(sizes_for_girth(Length(575, 1))->girth_cm, 58);
  EXPECT_EQ(sizes_for_girth(Length(5651, 10))->girth_cm, 57);
  EXPECT_EQ(sizes_for_girth(Length(565, 1))->girth_cm, 57);
  EXPECT_EQ(sizes_for_girth(Length(564999999, 1000000))->girth_cm, 56);
}

TEST(HatSize, RefusesGirthsWithoutASize) {
  for (const Length& girth :
       {Length(309999, 1000), Length(700001, 1000), Length(), Length(-570, 1), Length(1000000, 1)}) {
    const auto sizes = sizes_for_girth(girth);
    ASSERT_FALSE(sizes.ok()) << to_text(girth);
    EXPECT_NE(sizes.fault().line().find("310 mm to 700 mm"), std::string::npos) << sizes.fault().line();
  }
  EXPECT_TRUE(sizes_for_girth(Length(310, 1)).ok());
  EXPECT_TRUE(sizes_for_girth(Length(700, 1)).ok());
}

TEST(HatSize, ReadsTheManyWaysOfWritingOne) {
  for (const std::string text : {"US 7 1/8", "us 7 1/8", "US 7-1/8", "US 7\u215B", "US 7 \u215B",
                                 "US\u00A07\u202F1\u20448", "US7 1/8", "US 7.125", "  US  7  1/8 ", "US 57/8",
                                 "UK 7", "uk 7.0", "EU 57", "EU 57 cm", "EU 57.0", "57 cm", "57cm", "FR 5"}) {
    EXPECT_EQ(girth_read(text), Length(570, 1)) << text;
  }
  EXPECT_EQ(girth_read("FR 5\u00BD"), Length(580, 1));
  EXPECT_EQ(girth_read("US 7 1/16"), Length(565, 1));  // half sizes
  EXPECT_EQ(girth_read("UK 6 15/16"), Length(565, 1));
  EXPECT_EQ(girth_read("FR 4 3/4"), Length(565, 1));
  EXPECT_EQ(girth_read("EU 57 1/2"), Length(575, 1));
  EXPECT_EQ(girth_read("57.3 cm"), Length(573, 1));
}

struct Bad {
  std::string text, what, hint;
};

const std::vector<Bad> kBad = {
    {"", "empty", "US 7 1/8"},
    {"57", "has no system", "\"EU 57\""},
    {"7", "has no system", "\"US 7\" or \"UK 7\" or \"FR 7\""},
    {"7 1/8", "has no system", "\"US 7 1/8\" or \"UK 7 1/8\""},
    {"M", "letter size", "57 cm"},
    {"xxl", "letter size", ""},
    {"US", "has no number", ""},
    {"DE 57", "does not name a hat size system", "US, UK, EU and FR"},
    {"7 1/8 US", "system behind its number", ""},
    {"US 7.1", "between two sizes", "US 7 1/8"},
    {"UK 7 1/3", "between two sizes", "UK 7 3/8"},
    {"FR 5 1/3", "between two sizes", "FR 5 1/2"},
    {"EU 57.25", "between two sizes", "EU 57"},
    {"US 3 3/4", "outside the hat sizes", "from 3 7/8 (31 cm) to 8 3/4 (70 cm)"},
    {"US 9", "outside the hat sizes", "from 3 7/8 (31 cm) to 8 3/4 (70 cm)"},
    {"UK 8 3/4", "outside the hat sizes", "from 3 3/4 (31 cm) to 8 5/8 (70 cm)"},
    {"EU 30", "outside the hat sizes", "from 31 (31 cm) to 70 (70 cm)"},
    {"EU 71", "outside the hat sizes", "from 31 (31 cm) to 70 (70 cm)"},
    {"71 cm", "outside the hat sizes", ""},
    {"FR -1", "outside the hat sizes", "from 0 (47 cm) to 11 1/2 (70 cm)"},
    {"FR 12", "outside the hat sizes", ""},
    {"US -7", "outside the hat sizes", ""},
    {"US 1000000000", "outside the hat sizes", ""},
    {"US 57", "outside the hat sizes", ""},
    {"EU 57,5", "decimal comma", "\"EU 57.5\""},
    {"US 7 1/8 cm", "only EU sizes take", ""},
    {"US 7 1/8 in", "no hat size", ""},
    {"22 1/2 in", "no hat size", ""},
    {"57 CM", "no hat size", ""},
    {"US nan", "not a finite number", ""},
    {"US 1e1", "exponent", ""},
    {"US 7 9/8", "1 or more", ""},
    {"US 7 1/0", "divides by zero", ""},
    {"US \xFF", "not UTF-8", ""},
    {std::string(1000, '7'), "1000 bytes", ""},
};

TEST(HatSize, RefusesEachSlipWithItsOwnSentence) {
  for (const Bad& c : kBad) {
    SCOPED_TRACE(c.text.substr(0, 80));
    const auto size = parse_hat_size(c.text);
    ASSERT_FALSE(size.ok()) << to_text(*size);
    const std::string line = size.fault().line();
    EXPECT_NE(line.find(c.what), std::string::npos) << line;
    EXPECT_NE(line.find(c.hint), std::string::npos) << line;
    EXPECT_EQ(size.fault().exit, ExitCode::order);
    EXPECT_TRUE(size.fault().where.empty());
  }
}

TEST(HatSize, TextIsReadBackAsTheSameSize) {
  const auto expect_same = [](const HatSize& size) {
    const auto back = parse_hat_size(to_text(size));
    ASSERT_TRUE(back.ok()) << to_text(size);
    EXPECT_EQ(*back, size) << to_text(size);
  };
  for (int cm = kSmallestGirthCm; cm <= kLargestGirthCm; ++cm) {
    const auto sizes = sizes_for_girth(Length(10 * cm, 1));
    ASSERT_TRUE(sizes.ok());
    expect_same(sizes->us);
    expect_same(sizes->uk);
    expect_same(sizes->eu);
    if (sizes->fr) expect_same(*sizes->fr);
    EXPECT_EQ(girth_of(sizes->us), Length(10 * cm, 1));
    EXPECT_EQ(girth_of(sizes->uk), Length(10 * cm, 1));
  }
  for (int mm = 310; mm <= 700; ++mm) {
    const auto size = parse_hat_size(number_text(mm / 10.0, 1) + " cm");
    ASSERT_TRUE(size.ok()) << mm;
    EXPECT_EQ(girth_of(*size), Length(mm, 1));
    expect_same(*size);
  }
}

}  // namespace
}  // namespace crownwright::measurements
