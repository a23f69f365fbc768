// The turner's template of an order's form. What is drawn is checked in tests/drawings; here that it is the
// form's own outside.
#include "making/profile_files.h"

#include <gtest/gtest.h>

#include "drawings/read_drawing.h"
#include "making/orders.h"
#include "making/write.h"
#include "parts/stack.h"

namespace crownwright::making {
namespace {

std::vector<ExtraFile> profiles_of(const order::Order& order) {
  return profile_files(order, plan_solid(order, test::own_profiles()).value());
}

}  // namespace

TEST(ProfileFiles, AreTheOutsideOfEverySample) {
  for (const char* name :
       {"market-beret", "dish-pad", "table-pad", "winter-deep-block", "parade-narrow-edge"}) {
    SCOPED_TRACE(name);
    const order::Order order = test::sample(name);
    const solid::Solid solid = plan_solid(order, test::own_profiles()).value();
    const auto files = profile_files(order, solid);
    ASSERT_EQ(files.size(), 2u);
    EXPECT_EQ(files[0].ending, ".profile.svg");
    EXPECT_EQ(files[1].ending, ".profile.dxf");
    drawings::DrawingRules rules;
    rules.layer = "profile";
    const auto face = parts::outer_face(solid);
    for (const ExtraFile& file : files) {
      const auto lines = drawings::read_lines(file.bytes, file.ending, rules);
      ASSERT_TRUE(lines.ok()) << lines.fault().line();
      double length = 0;
      for (const auto& line : lines->open) length += pattern::length(line);
      EXPECT_EQ(lines->closed.size(), 0u);
      EXPECT_NEAR(length, meridian::length(face), 0.01) << file.ending;
    }
  }
}

TEST(ProfileFiles, BearTheirMarkAndAreTheSameAgain) {
  const order::Order order = test::sample("market-beret");
  const auto files = profiles_of(order), again = profiles_of(order);
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_NE(files[i].bytes.find("crownwright " + order_mark(order)), std::string::npos);
    EXPECT_EQ(files[i].bytes, again[i].bytes);
  }
}

// A pad has no head line; a block says head girth and rise as its form has them.
TEST(ProfileFiles, SayWhatTheFormHas) {
  const auto block = profiles_of(test::sample("market-beret")), pad = profiles_of(test::sample("table-pad"));
  EXPECT_NE(block[0].bytes.find("head line Ø"), std::string::npos);
  EXPECT_NE(block[0].bytes.find(">collar"), std::string::npos);
  EXPECT_EQ(pad[0].bytes.find("head line Ø"), std::string::npos);
  EXPECT_NE(pad[0].bytes.find("solid; drawn is the outside"), std::string::npos);
}

}  // namespace crownwright::making
