// Adults: ANSUR II, "2012 Anthropometric Survey of U.S. Army Personnel", NATICK/TR-15/007 (2014), public
// data, head circumference: men (n = 4082) 1/5/50/95/99 % 538/548/574/601/614.2 mm, women (n = 1986)
// 521/532/560/597/611 mm. Children: WHO Child Growth Standards, head circumference-for-age (2007), L = 1, so
// percentile = M (1 + S z).

#include "measurements/heads.h"

#include <gtest/gtest.h>

#include <cmath>

namespace crownwright::measurements {
namespace {

constexpr double kThirdPercentile = -1.880794;  // standard normal quantile of 0.03

double who_mm(double median_cm, double s, double z) { return 10 * median_cm * (1 + s * z); }

TEST(HeadWarning, SaysNothingAboutPublishedHeads) {
  for (const double mm : {538.0, 548.0, 574.0, 601.0, 614.2, 521.0, 532.0, 560.0, 597.0, 611.0}) {
    EXPECT_EQ(head_warning(Length::from_mm(mm)), std::nullopt) << mm;
  }
  // WHO, girls then boys: birth, 6, 12, 24, 60 months; M in cm and S.
  const double children[][2] = {{33.8787, .03496}, {42.2079, .03087}, {44.8940, .03027}, {47.1845, .02957},
                                {49.9225, .02850}, {34.4618, .03686}, {43.3393, .02817}, {46.0637, .02789},
                                {48.2536, .02821}, {50.7372, .02945}};
  for (const auto& [median, s] : children) {
    EXPECT_EQ(head_warning(Length::from_mm(10 * median)), std::nullopt) << median;
    EXPECT_EQ(head_warning(Length::from_mm(who_mm(median, s, kThirdPercentile))), std::nullopt) << median;
  }
}

// The smallest 3rd percentile of the WHO table is that of girls at birth; the bound is it, to half a tenth of
// a mm.
TEST(HeadWarning, StartsBelowTheThirdPercentileOfNewbornGirls) {
  const double bound = who_mm(33.8787, 0.03496, kThirdPercentile);
  EXPECT_EQ(head_warning(Length::from_mm(bound + 0.05)), std::nullopt);
  const auto warning = head_warning(Length::from_mm(bound - 0.05));
  ASSERT_TRUE(warning.has_value());
  EXPECT_NE(warning->find("316.5 mm"), std::string::npos) << *warning;
  EXPECT_NE(warning->find("WHO"), std::string::npos) << *warning;
}

TEST(HeadWarning, StartsAboveThe99thPercentileOfMen) {
  EXPECT_EQ(head_warning(Length(6142, 10)), std::nullopt);
  const auto warning = head_warning(Length(6143, 10));
  ASSERT_TRUE(warning.has_value());
  EXPECT_NE(warning->find("614.3 mm"), std::string::npos) << *warning;
  EXPECT_NE(warning->find("614.2 mm"), std::string::npos) << *warning;
  EXPECT_NE(warning->find("ANSUR II"), std::string::npos) << *warning;
  // The largest heads measured, 633 mm (man) and 635 mm (woman), are rare enough to ask about.
  EXPECT_TRUE(head_warning(Length(633, 1)).has_value());
  EXPECT_TRUE(head_warning(Length(635, 1)).has_value());
}

TEST(HeadWarning, TakesAnyLength) {
  EXPECT_TRUE(head_warning(Length()).has_value());
  EXPECT_TRUE(head_warning(Length(-570, 1)).has_value());
  EXPECT_TRUE(head_warning(Length(1000000, 1)).has_value());
}

TEST(DescribeHead, NamesTheNearestPublishedHead) {
  EXPECT_EQ(describe_head(Length(570, 1)), "nearest to adult men's 50th percentile, 574 mm");
  EXPECT_EQ(describe_head(Length(562, 1)), "nearest to adult women's 50th percentile, 560 mm");
  EXPECT_EQ(describe_head(Length(530, 1)), "nearest to adult women's 5th percentile, 532 mm");
  EXPECT_EQ(describe_head(Length(640, 1)), "nearest to adult men's 95th percentile, 601 mm");
  EXPECT_EQ(describe_head(Length(200, 1)), "nearest to a newborn girl's median, 339 mm");
}

struct Median {
  double cm;
  const char* whose;
};

// Each WHO median must be named by its own girth, with its millimetres.
TEST(DescribeHead, KnowsTheMediansOfChildren) {
  const Median medians[] = {{33.8787, "a newborn girl's median"},     {34.4618, "a newborn boy's median"},
                            {42.2079, "a girl's median at 6 months"}, {43.3393, "a boy's median at 6 months"},
                            {44.8940, "a girl's median at 1 year"},   {46.0637, "a boy's median at 1 year"},
                            {47.1845, "a girl's median at 2 years"},  {48.2536, "a boy's median at 2 years"},
                            {49.9225, "a girl's median at 5 years"},  {50.7372, "a boy's median at 5 years"}};
  for (const Median& m : medians) {
    const std::string mm = number_text(std::round(10 * m.cm), 0);
    EXPECT_EQ(describe_head(Length::from_mm(10 * m.cm)),
              std::string("nearest to ") + m.whose + ", " + mm + " mm");
  }
}

}  // namespace
}  // namespace crownwright::measurements
