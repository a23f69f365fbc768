// Well-formed sequences: The Unicode Standard 15.0, table 3-7. Control characters: its C0 and C1 charts.

#include "base/printable.h"

#include <gtest/gtest.h>

#include <random>

#include "support/seed.h"

namespace crownwright {
namespace {

TEST(Printable, KeepsOrdinaryText) {
  EXPECT_EQ(printable(""), "");
  EXPECT_EQ(printable("market.toml:7:15: \"10\u00BD in\" ~ B\u00E9ret \U0001F9E2"),
            "market.toml:7:15: \"10\u00BD in\" ~ B\u00E9ret \U0001F9E2");
}

TEST(Printable, EscapesControls) {
  EXPECT_EQ(printable("a\tb\nc\rd"), "a\\x09b\\x0ac\\x0dd");
  EXPECT_EQ(printable("\x1B[31mred"), "\\x1b[31mred");
  EXPECT_EQ(printable(std::string_view("\0", 1)), "\\x00");
  EXPECT_EQ(printable("\x7F"), "\\x7f");
  EXPECT_EQ(printable("\xC2\x9B"), "\\xc2\\x9b");  // U+009B, a one-character control sequence introducer
  EXPECT_EQ(printable("\xC2\xA0"), "\xC2\xA0");    // U+00A0 is no control
}

TEST(Printable, EscapesBytesThatAreNoText) {
  EXPECT_EQ(printable("\xFF"), "\\xff");
  EXPECT_EQ(printable("caf\xE9"), "caf\\xe9");
  EXPECT_EQ(printable("\xC3"), "\\xc3");
  EXPECT_EQ(printable("\xE2\x80"), "\\xe2\\x80");
}

TEST(Printable, CutsLongText) {
  const std::string cut = printable(std::string(5000, 'a'));
  EXPECT_LE(cut.size(), 2000u);
  EXPECT_TRUE(cut.ends_with("..."));
  EXPECT_EQ(printable(std::string(10, 'a'), 20), std::string(10, 'a'));
}

TEST(IsUtf8, FollowsTheStandardsTable) {
  for (const char* good : {"", "a", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                           "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_TRUE(is_utf8(good)) << printable(good);
  }
  for (const char* bad :
       {"\x80", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xED\xBF\xBF", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC2", "\xE2\x82", "\xF0\x9F\x98", "a\xFF", "\xC2\x41"}) {
    EXPECT_FALSE(is_utf8(bad)) << printable(bad);
  }
}

TEST(Printable, AlwaysGivesOneLineOfText) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 20000; ++i) {
    std::string bytes(random() % 30, ' ');
    for (char& c : bytes) c = static_cast<char>(random());
    const std::string text = printable(bytes);
    ASSERT_TRUE(is_utf8(text));
    for (const char c : text) ASSERT_TRUE(static_cast<unsigned char>(c) >= 0x20 && c != 0x7F);
    ASSERT_EQ(printable(text), text);
  }
}

}  // namespace
TEST(Printable, keeps_to_its_limit_and_cuts_nothing_that_fits) {
  EXPECT_LE(printable(std::string(5000, '\n')).size(), 2000u);
  const std::string fits(1998, 'a');
  EXPECT_EQ(printable(fits), fits);
}

}  // namespace crownwright
