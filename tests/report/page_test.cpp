#include "report/page.h"

#include <gtest/gtest.h>

#include <sstream>

namespace crownwright::report {
namespace {

TEST(Page, WrapsBesideTheLabel) {
  Page page{Paint(false)};
  page.line("Ordered", "one two three four five six seven eight nine ten eleven twelve thirteen fourteen");
  EXPECT_EQ(page.text(),
            "Ordered    one two three four five six seven eight nine ten eleven twelve\n"
            "           thirteen fourteen\n");
}

TEST(Page, NeverPartsANumberFromItsUnit) {
  for (int pad = 50; pad < 75; ++pad) {
    Page page{Paint(false)};
    page.line("Rise", std::string(static_cast<std::size_t>(pad), 'x') + " 57.0 cm (22 7/16 in), 4 mm.");
    EXPECT_EQ(page.text().find("57.0\n"), std::string::npos) << page.text();
    EXPECT_EQ(page.text().find("7/16\n"), std::string::npos) << page.text();
  }
}

TEST(Page, StaysWithinEightyColumnsWhateverTheWords) {
  Page page{Paint(false)};
  for (int words = 1; words < 60; ++words) {
    std::string text;
    for (int i = 0; i < words; ++i)
      text += std::string(static_cast<std::size_t>(1 + (i * 7) % 12), 'm') + " ";
    page.line("Label", text);
  }
  std::istringstream lines(page.text());
  for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), Page::width) << line;
}

TEST(Page, EscapesWhatCouldSteerATerminal) {
  Page page{Paint(true)};
  page.heading("a\x1b[2Jb").line("x", "c\x07").whole("y", "d\ne");
  EXPECT_EQ(page.text().find("\x1b[2J"), std::string::npos);
  EXPECT_NE(page.text().find("\\x1b[2J"), std::string::npos) << page.text();
  EXPECT_EQ(page.text().find('\x07'), std::string::npos);
  EXPECT_NE(page.text().find("d\\x0ae"), std::string::npos) << page.text();
}

TEST(Page, PaintsLabelsWithoutMovingTheText) {
  Page plain{Paint(false)}, painted{Paint(true)};
  plain.line("Mind", "text", Tone::mind);
  painted.line("Mind", "text", Tone::mind);
  EXPECT_EQ(painted.text(), "\x1b[33mMind\x1b[0m       text\n");  // ECMA-48 SGR 33: yellow
  EXPECT_EQ(plain.text(), "Mind       text\n");
}

TEST(Columns, CountsCharactersNotBytes) {
  EXPECT_EQ(columns("béret"), 5);
  EXPECT_EQ(columns("⣀⡤"), 2);
}

}  // namespace
}  // namespace crownwright::report
