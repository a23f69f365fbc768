#include "order/sizes.h"

#include <gtest/gtest.h>

#include <numbers>
#include <set>

#include "measurements/hat_size.h"
#include "order/list_value.h"
#include "order/order_support.h"
#include "order/reader.h"
#include "order/saver.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

Order read_sizes(const std::string& text) {
  const auto order = read_order_text(text, "beret.toml");
  EXPECT_TRUE(order.ok()) << (order.ok() ? "" : order.fault().line());
  return order.ok() ? *order : Order();
}

std::vector<SizedOrder> sized(const std::string& sizes, const std::string& base = test::plain_block) {
  const auto orders = sized_orders(read_sizes(base + "[sizes]\n" + sizes));
  EXPECT_TRUE(orders.ok()) << (orders.ok() ? "" : orders.fault().line());
  return orders.ok() ? *orders : std::vector<SizedOrder>();
}

std::vector<std::string> names(const std::vector<SizedOrder>& orders) {
  std::vector<std::string> all;
  for (const SizedOrder& one : orders) all.push_back(one.size);
  return all;
}

}  // namespace

TEST(SizedOrders, AreTheOrderItselfWithoutSizes) {
  const Order order = read_sizes(test::plain_block + "[vents]\n");
  const auto orders = sized_orders(order);
  ASSERT_TRUE(orders.ok());
  ASSERT_EQ(orders->size(), 1u);
  EXPECT_EQ(orders->front().size, "");
  EXPECT_EQ(orders->front().order, order);
}

TEST(SizedOrders, TakeEveryRowOfAList) {
  const auto orders =
      sized("list = [[\"S\", \"55 cm\", \"27 cm\"], [\"Large\", \"23 1/2 in\", \"29 cm\", \"8 cm\"]]\n");
  ASSERT_EQ(names(orders), (std::vector<std::string>{"S", "Large"}));
  EXPECT_EQ(orders[0].order.measure.head_girth, Length(550, 1));
  EXPECT_EQ(orders[0].order.measure.crown_diameter, Length(270, 1));
  EXPECT_EQ(orders[0].order.measure.rise, Length(75, 1)) << "of [measure]";
  EXPECT_EQ(orders[1].order.measure.head_girth, Length(5969, 10)) << "23.5 x 25.4";
  EXPECT_EQ(orders[1].order.measure.rise, Length(80, 1));
  EXPECT_EQ(orders[1].order.name, "beret, size Large");
}

// All but name and measure is that of the order, and a sized order is an order like any other.
TEST(SizedOrders, KeepTheRestAndAreOrdersThemselves) {
  const std::string rest = "[cloth]\nname = \"fleece\"\n[form]\ncollar = \"20 mm\"\n[vents]\n";
  for (const SizedOrder& one :
       sized("larger = 2\nhead_step = \"1 cm\"\n" + rest, "name = \"Market beret\"\n" + test::plain_block)) {
    Order plain = read_sizes("name = \"Market beret\"\n" + test::plain_block + rest);
    EXPECT_FALSE(one.order.sizes);
    plain.measure = one.order.measure;
    plain.name = one.order.name;
    EXPECT_EQ(one.order, plain);
    EXPECT_EQ(read_sizes(order_text(one.order)), one.order);
  }
}

// By hand: 57 cm two steps of 10 mm down and one up; crown 280 by 5 mm, rise 75 by 1 mm a step.
TEST(SizedOrders, CountStepsFromTheMeasures) {
  const auto orders =
      sized("smaller = 2\nlarger = 1\nhead_step = \"1 cm\"\ncrown_step = \"5 mm\"\nrise_step = \"1 mm\"\n");
  ASSERT_EQ(names(orders), (std::vector<std::string>{"55cm", "56cm", "57cm", "58cm"}));
  const int crowns[] = {270, 275, 280, 285}, rises[] = {73, 74, 75, 76};
  for (int k = 0; k < 4; ++k) {
    const Measure& measure = orders[static_cast<std::size_t>(k)].order.measure;
    EXPECT_EQ(measure.head_girth, Length(550 + 10 * k, 1));
    EXPECT_EQ(measure.crown_diameter, Length(crowns[k], 1));
    EXPECT_EQ(measure.rise, Length(rises[k], 1));
  }
  EXPECT_EQ(orders[0].order.name, "beret, size 55 cm");
}

// The crown stands (crown - girth/pi)/2 beyond the head line, whatever the size.
TEST(SizedOrders, KeepTheOverhangWithoutACrownStep) {
  const double overhang = 280 - 570 / std::numbers::pi;
  for (const SizedOrder& one : sized("smaller = 3\nlarger = 3\nhead_step = \"7.5 mm\"\n")) {
    const Measure& measure = one.order.measure;
    EXPECT_NEAR(measure.crown_diameter->mm() - measure.head_girth->mm() / std::numbers::pi, overhang, 2e-6);
    EXPECT_EQ(measure.rise, Length(75, 1));
  }
}

TEST(SizedOrders, LeaveTheBaseExactlyAsItIs) {
  const auto orders =
      sized("smaller = 0\nlarger = 0\nhead_step = \"1 cm\"\n",
            "[measure]\nhat_size = \"US 7 1/8\"\ncrown_diameter = \"11 1/7 in\"\nrise = \"1/3 in\"\n");
  ASSERT_EQ(orders.size(), 1u);
  EXPECT_EQ(orders[0].size, "57cm");
  EXPECT_EQ(orders[0].order.measure.crown_diameter, Length(78 * 254, 70));
  EXPECT_EQ(orders[0].order.measure.rise, Length(254, 30));
  EXPECT_EQ(orders[0].order.measure.hat_size, "US 7 1/8");
}

// Published table (Wikipedia, "Hat", section "Hat size"): US 7 1/4 is 58 cm, UK 6 3/4 is 55 cm, FR 5 is 57
// cm.
TEST(SizedOrders, TakeTheGirthOfAHatSize) {
  const auto orders = sized(
      "hat_sizes = [\"US 7 1/4\", \"uk 6 3/4\", \"57.5 cm\", \"FR 5\"]\nhead_step = \"1 cm\"\ncrown_step = "
      "\"4 mm\"\n");
  ASSERT_EQ(names(orders), (std::vector<std::string>{"US-7-1-4", "UK-6-3-4", "EU-57-5", "FR-5"}));
  EXPECT_EQ(orders[0].order.measure.head_girth, Length(580, 1));
  EXPECT_EQ(orders[0].order.measure.crown_diameter, Length(284, 1));
  EXPECT_EQ(orders[0].order.measure.hat_size, "US 7 1/4");
  EXPECT_EQ(orders[0].order.name, "beret, size US 7 1/4");
  EXPECT_EQ(orders[1].order.measure.head_girth, Length(550, 1));
  EXPECT_EQ(orders[1].order.measure.crown_diameter, Length(272, 1));
  EXPECT_EQ(orders[2].order.measure.head_girth, Length(575, 1));
  EXPECT_EQ(orders[2].order.measure.crown_diameter, Length(282, 1));
  EXPECT_EQ(orders[3].order.measure.crown_diameter, Length(280, 1));
}

TEST(SizedOrders, HaveNamesThatCanNameFolders) {
  for (const char* sizes :
       {"larger = 20\nhead_step = \"1/16 in\"\n", "smaller = 20\nhead_step = \"1.001 mm\"\n",
        "hat_sizes = [\"US 7 1/16\", \"US 7 1/8\", \"EU 61\", \"UK 7\", \"FR 5 1/4\", \"EU 55.3\"]\n"}) {
    std::set<std::string> seen;
    for (const SizedOrder& one : sized(sizes)) {
      EXPECT_TRUE(is_size_name(one.size)) << one.size;
      EXPECT_TRUE(seen.insert(one.size).second) << one.size;
    }
  }
  EXPECT_TRUE(is_size_name("S"));
  EXPECT_TRUE(is_size_name("7 1-8_b-"));
  for (const char* bad : {"", ".", "..", ".S", "-S", " S", "S ", "a/b", "a\\b", "é", "a.b", "a\nb"})
    EXPECT_FALSE(is_size_name(bad)) << bad;
}

TEST(SizedOrders, OfAPadGrowWithTheHead) {
  const auto orders = sized("larger = 1\nhead_step = \"2 cm\"\nrise_step = \"2 mm\"\n",
                            "[form]\nkind = \"pad\"\n" + test::plain_block);
  ASSERT_EQ(orders.size(), 2u);
  EXPECT_EQ(orders[1].order.measure.rise, Length(77, 1));
}

// 614.2 mm is the 99th percentile of men's heads in ANSUR II (2012).
TEST(SizedOrders, WarnOfTheirOwnHeads) {
  const auto orders = sized("larger = 1\nhead_step = \"6 cm\"\n");
  ASSERT_EQ(orders.size(), 2u);
  EXPECT_TRUE(orders[0].order.warnings.empty());
  ASSERT_EQ(orders[1].order.warnings.size(), 1u);
  EXPECT_NE(orders[1].order.warnings[0].find("614.2"), std::string::npos);
}

TEST(SizedOrders, ShortenALongNameSoThatItStillFitsALabel) {
  const auto orders = sized("larger = 1\nhead_step = \"1 cm\"\n",
                            "name = \"" + std::string(118, 'x') + "é\"\n" + test::plain_block);
  for (const SizedOrder& one : orders) {
    EXPECT_LE(one.order.name.size(), 120u);
    EXPECT_NE(one.order.name.find(", size 5"), std::string::npos);
    EXPECT_TRUE(read_order_text(order_text(one.order), "a.toml").ok());
  }
}

// An order that no reader has looked at.
TEST(SizedOrders, RefuseToCountFromNothing) {
  Order order;
  order.sizes.emplace();
  const auto none = sized_orders(order);
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.fault().exit, ExitCode::order);
  order.measure.head_girth = order.measure.crown_diameter = Length(570, 1);
  EXPECT_FALSE(sized_orders(order).ok()) << "no step";
  order.sizes->hat_sizes = {"XL"};
  EXPECT_FALSE(sized_orders(order).ok()) << "no hat size";
}
