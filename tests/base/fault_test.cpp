#include "base/fault.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "base/result.h"

namespace crownwright {
namespace {

TEST(Fault, PutsItsPartsOnOneLine) {
  EXPECT_EQ(order_fault("market.toml:7:15: measure.rise", "is negative", "1 mm to 300 mm").line(),
            "market.toml:7:15: measure.rise: is negative; 1 mm to 300 mm");
  EXPECT_EQ(order_fault({}, "is negative").line(), "is negative");
  EXPECT_EQ(order_fault("here", "is negative").line(), "here: is negative");
  EXPECT_EQ(impossible_fault("too low", "rise 40 mm").line(), "too low; rise 40 mm");
}

TEST(Fault, CannotWriteToTheTerminal) {
  EXPECT_EQ(file_fault("evil\n\x1B[2J.stl", "cannot be read").line(),
            "evil\\x0a\\x1b[2J.stl: cannot be read");
}

TEST(Fault, TakesContextInFrontAsItRises) {
  const Fault fault = order_fault({}, "has no unit").within("measure.rise").within("market.toml");
  EXPECT_EQ(fault.line(), "market.toml: measure.rise: has no unit");
  EXPECT_EQ(fault.exit, ExitCode::order);
}

// The numbers are a promise to scripts.
TEST(Fault, CarriesTheExitCodeOfItsKind) {
  EXPECT_EQ(static_cast<int>(order_fault({}, "x").exit), 2);
  EXPECT_EQ(static_cast<int>(impossible_fault("x", "y").exit), 3);
  EXPECT_EQ(static_cast<int>(file_fault("x", "y").exit), 4);
  EXPECT_EQ(static_cast<int>(Fault{}.exit), 1);
  EXPECT_EQ(static_cast<int>(ExitCode::done), 0);
  EXPECT_EQ(static_cast<int>(ExitCode::proof), 5);
  EXPECT_EQ(static_cast<int>(ExitCode::interrupted), 130);
}

TEST(Result, HoldsOneOrTheOtherAndSaysSoWhenMisread) {
  const Result<int> good = 7;
  const Result<int> bad = order_fault("here", "is wrong");
  ASSERT_TRUE(good.ok());
  ASSERT_FALSE(bad);
  EXPECT_EQ(*good, 7);
  EXPECT_EQ(bad.fault().line(), "here: is wrong");
  EXPECT_THROW(static_cast<void>(good.fault()), std::logic_error);
  EXPECT_THROW(static_cast<void>(bad.value()), std::logic_error);
}

}  // namespace
}  // namespace crownwright
