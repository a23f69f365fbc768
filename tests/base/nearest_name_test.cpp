#include "base/nearest_name.h"

#include <gtest/gtest.h>

#include <random>

#include "support/seed.h"

namespace crownwright {
namespace {

// "kitten", "sitting" (3) and "saturday", "sunday" (3): the usual textbook pairs for Levenshtein's distance,
// here without swaps. "ca", "abc" is 3 in optimal string alignment (2 in the unrestricted distance): L.
// Boytsov, "Indexing methods for approximate dictionary searching", J. Exp. Algorithmics 16 (2011),
// section 2.2 (from memory).
TEST(EditDistance, AgreesWithTheTextbookPairs) {
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3u);
  EXPECT_EQ(edit_distance("saturday", "sunday"), 3u);
  EXPECT_EQ(edit_distance("ca", "abc"), 3u);
  EXPECT_EQ(edit_distance("", ""), 0u);
  EXPECT_EQ(edit_distance("", "rise"), 4u);
  EXPECT_EQ(edit_distance("rise", "rise"), 0u);
}

// Damerau's four slips, one step each.
TEST(EditDistance, CountsEachSlipAsOneStep) {
  EXPECT_EQ(edit_distance("collar", "colar"), 1u);
  EXPECT_EQ(edit_distance("collar", "colllar"), 1u);
  EXPECT_EQ(edit_distance("collar", "collor"), 1u);
  EXPECT_EQ(edit_distance("collar", "colalr"), 1u);
}

TEST(EditDistance, IsSymmetricAndBoundedByTheLongerWord) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto word = [&] {
    std::string text(random() % 8, 'a');
    for (char& c : text) c = static_cast<char>('a' + random() % 3);
    return text;
  };
  for (int i = 0; i < 20000; ++i) {
    const std::string a = word(), b = word();
    const std::size_t distance = edit_distance(a, b);
    ASSERT_EQ(distance, edit_distance(b, a)) << a << " " << b;
    ASSERT_LE(distance, std::max(a.size(), b.size())) << a << " " << b;
    ASSERT_EQ(distance == 0, a == b) << a << " " << b;
  }
}

const std::vector<std::string> kKeys = {"head_girth", "hat_size", "crown_diameter", "rise", "taken_at"};

TEST(NearestName, FindsWhatWasMeant) {
  EXPECT_EQ(nearest_name("crown_diametre", kKeys), "crown_diameter");
  EXPECT_EQ(nearest_name("head_grith", kKeys), "head_girth");
  EXPECT_EQ(nearest_name("hatsize", kKeys), "hat_size");
  EXPECT_EQ(nearest_name("Head-Girth", kKeys), "head_girth");
  EXPECT_EQ(nearest_name("rize", kKeys), "rise");
}

TEST(NearestName, SaysNothingWhenNothingIsNear) {
  EXPECT_EQ(nearest_name("colour", kKeys), std::nullopt);
  EXPECT_EQ(nearest_name("", kKeys), std::nullopt);
  EXPECT_EQ(nearest_name("rise", {}), std::nullopt);
  EXPECT_EQ(nearest_name("x", {"y"}), std::nullopt);
  EXPECT_EQ(nearest_name(std::string(101, 'r'), {std::string(101, 'r')}), std::nullopt);
}

// A third of the longer word: two slips in six letters, not three.
TEST(NearestName, AllowsAThirdOfTheLength) {
  EXPECT_EQ(nearest_name("collxx", {"collar"}), "collar");
  EXPECT_EQ(nearest_name("colxxx", {"collar"}), std::nullopt);
  EXPECT_EQ(nearest_name("pat", {"pad"}), "pad");
}

TEST(NearestName, PrefersTheNearestThenTheFirst) {
  EXPECT_EQ(nearest_name("collars", {"dollar", "collar"}), "collar");
  EXPECT_EQ(nearest_name("bollar", {"dollar", "collar"}), "dollar");
}

}  // namespace
}  // namespace crownwright
