// The first page of a tiled pattern, however many pieces there are and however long their names.
#include <gtest/gtest.h>

#include "drawings/milling_pages.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

pattern::Piece small_sheet(std::size_t number) {
  pattern::Piece piece;
  piece.name = "Sheet " + std::to_string(number);
  piece.cut = {{0, 0}, {30, 0}, {30, 30}, {0, 30}};
  piece.text_at = {15, 15};
  return piece;
}

// What is drawn ends 17 mm above the page's foot, where the rule and the title stand.
TEST(FirstPage, HoldsItsListAndItsTitle) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    for (const std::size_t count : {1u, 12u, 13u, 30u, 60u, 200u}) {
      std::vector<pattern::Piece> pieces;
      for (std::size_t i = 1; i <= count; ++i) pieces.push_back(small_sheet(i));
      const std::string title(120, 'W');
      const printed::PrintedSheet sheet(tiled_pdf(pieces, title, paper));
      SCOPED_TRACE(count);
      std::size_t listed = 0, more = 0;
      for (const printed::PrintedWord& word : sheet.words()) {
        if (word.page != 1) continue;
        EXPECT_GE(word.left, 5) << word.text;
        EXPECT_LE(word.right, sides_of(paper).width - 5) << word.text;
        EXPECT_LE(word.bottom, sides_of(paper).height - 5) << word.text;
        if (word.left < 119) continue;
        listed += word.text == "Sheet" ? 1 : 0;
        more += word.text == "more" ? 1 : 0;
        if (word.text == "Sheet" || word.text == "fold" || word.text == "mark") {
          EXPECT_LE(word.bottom, sides_of(paper).height - 17) << word.text;
        }
      }
      if (count <= 30) {
        EXPECT_EQ(listed, count);
        EXPECT_EQ(more, 0u);
      } else {
        EXPECT_TRUE(listed == count ? more == 0 : more == 1) << listed;
        EXPECT_GE(listed, 30u);
      }
    }
  }
}

}  // namespace
}  // namespace crownwright::drawings
