#pragma once
// Sheets for the milling bench as a reader's programs see them: poppler's pdfinfo, pdftotext and pdftoppm.

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/numbers.h"
#include "drawings/milling_sheet.h"
#include "support/grey_picture.h"
#include "support/outside_program.h"

namespace crownwright::drawings::printed {

using crownwright::test::GreyPicture;
using crownwright::test::output_of;

struct PrintedWord {
  std::size_t page = 0;
  double left = 0, top = 0, right = 0, bottom = 0;  ///< mm from the page's upper left
  std::string text;
};

struct PrintedPage {
  double width = 0, height = 0;  ///< mm
};

class PrintedSheet {
 public:
  explicit PrintedSheet(const std::string& pdf) {
    static int counter = 0;
    base_ = std::filesystem::temp_directory_path() /
            ("crownwright_milling_" + std::to_string(getpid()) + "_" + std::to_string(counter++));
    std::ofstream(base_.string() + ".pdf", std::ios::binary) << pdf;
    read_words();
  }
  ~PrintedSheet() {
    for (const char* ending : {".pdf", ".pgm"}) std::filesystem::remove(base_.string() + ending);
  }
  PrintedSheet(const PrintedSheet&) = delete;
  PrintedSheet& operator=(const PrintedSheet&) = delete;

  const std::vector<PrintedPage>& pages() const { return pages_; }
  const std::vector<PrintedWord>& words() const { return words_; }
  std::string text() const { return output_of("pdftotext -layout " + base_.string() + ".pdf -"); }
  std::string info() const { return output_of("pdfinfo " + base_.string() + ".pdf"); }

  /// Page from 1, ten dots a millimetre.
  GreyPicture picture(int page) const {
    const std::string which = std::to_string(page);
    output_of("pdftoppm -r 254 -gray -singlefile -f " + which + " -l " + which + " " + base_.string() +
              ".pdf " + base_.string());
    return crownwright::test::read_pgm(base_.string() + ".pgm");
  }

  /// The first line of the text that holds these words; empty when there is none.
  std::string line_with(const std::string& words) const {
    std::istringstream in(text());
    for (std::string line; std::getline(in, line);)
      if (line.find(words) != std::string::npos) return line;
    return {};
  }

 private:
  void read_words() {
    constexpr double mm_a_point = 25.4 / 72;
    std::istringstream in(output_of("pdftotext -bbox " + base_.string() + ".pdf -"));
    for (std::string line; std::getline(in, line);) {
      double a = 0, b = 0, c = 0, d = 0;
      if (std::sscanf(line.c_str(), " <page width=\"%lf\" height=\"%lf\"", &a, &b) == 2) {
        pages_.push_back({a * mm_a_point, b * mm_a_point});
      } else if (std::sscanf(line.c_str(), " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &a,
                             &b, &c, &d) == 4) {
        const std::size_t from = line.find('>') + 1;
        words_.push_back({pages_.size(), a * mm_a_point, b * mm_a_point, c * mm_a_point, d * mm_a_point,
                          line.substr(from, line.rfind('<') - from)});
      }
    }
  }

  std::filesystem::path base_;
  std::vector<PrintedPage> pages_;
  std::vector<PrintedWord> words_;
};

/// ISO 216: 210 x 297 mm. Letter: 8 1/2 x 11 in.
inline void expect_paper(const PrintedSheet& sheet, Paper paper) {
  ASSERT_FALSE(sheet.pages().empty());
  for (const PrintedPage& page : sheet.pages()) {
    EXPECT_NEAR(page.width, paper == Paper::a4 ? 210 : 8.5 * 25.4, 0.01);
    EXPECT_NEAR(page.height, paper == Paper::a4 ? 297 : 11 * 25.4, 0.01);
  }
}

/// Every word lies on its page, 5 mm from its edges at least (home printers leave 3 to 7 blank: common
/// practice, no source), and none covers another.
inline void expect_legible(const PrintedSheet& sheet) {
  const auto& words = sheet.words();
  for (std::size_t i = 0; i < words.size(); ++i) {
    const PrintedWord& w = words[i];
    const PrintedPage& page = sheet.pages().at(w.page - 1);
    EXPECT_GE(w.left, 5) << w.text << " on page " << w.page;
    EXPECT_GE(w.top, 5) << w.text << " on page " << w.page;
    EXPECT_LE(w.right, page.width - 5) << w.text << " on page " << w.page;
    EXPECT_LE(w.bottom, page.height - 5) << w.text << " on page " << w.page;
    for (std::size_t k = i + 1; k < words.size() && words[k].page == w.page; ++k) {
      const PrintedWord& other = words[k];
      // Boxes hold the font's whole height; letters fill some 0.7 of it.
      const double across = std::min(w.right, other.right) - std::max(w.left, other.left);
      const double down = std::min(w.bottom, other.bottom) - std::max(w.top, other.top);
      const double low = std::min(w.bottom - w.top, other.bottom - other.top);
      const double narrow = std::min(w.right - w.left, other.right - other.left);
      EXPECT_FALSE(across > 0.2 * std::min(narrow, low) && down > 0.3 * std::min(narrow, low))
          << '"' << w.text << "\" and \"" << other.text << "\" on page " << w.page;
    }
  }
}

/// The block of a 280 mm crown, 90.7 mm head radius, rise 75, dome 6, edges 20 mm, and a collar: its figures
/// (tip angle 5.6328 degrees, radius 1242.582, underside 51.303 degrees) were worked by hand.
inline meridian::Chain worked_block(double collar, double size = 1) {
  using meridian::Segment;
  const double f = 5.6328 * pi / 180, under = 51.303 * pi / 180, rho = 1242.582 * size, e = 20 * size;
  const double top = size * (75 + collar), centre_z = size * (75 + collar - 6) - e * std::cos(f);
  meridian::Chain chain;
  chain.push_back(Segment::arc_about({0, top}, {0, top - rho}, -f));
  chain.push_back(Segment::arc_about(chain.back().to(), {120 * size, centre_z}, -(pi / 2 - f)));
  chain.push_back(Segment::arc_about(chain.back().to(), {120 * size, centre_z}, -under));
  chain.push_back(Segment::line(chain.back().to(), {90.7 * size, size * collar}));
  if (collar > 0) chain.push_back(Segment::line({90.7 * size, size * collar}, {90.7 * size, 0}));
  return chain;
}

inline GlueUp worked_glue_up() {
  GlueUp sheet;
  sheet.title = "Market beret, medium";
  sheet.outer = worked_block(15);
  sheet.slabs = {{"tier 1", 65, 90, false},
                 {"tier 2", 40, 65, true},
                 {"tier 3", 15, 40, true},
                 {"tier 4", 0, 15, false}};
  for (const double degrees : {0.0, 130.0, 250.0})
    sheet.dowels.push_back({60 * std::cos(degrees * pi / 180), 60 * std::sin(degrees * pi / 180), 6, 0, 78});
  sheet.sheet = 25, sheet.side_x = 300, sheet.side_y = 290, sheet.sheets = 4;
  sheet.notes = {"The holes of tier 1 are blind."};
  return sheet;
}

}  // namespace crownwright::drawings::printed
