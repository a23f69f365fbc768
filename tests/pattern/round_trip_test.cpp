// Form -> panel -> form, in memory. The forms are random berets of the ordinary range; what comes back is
// compared with what was drafted, so every check's value comes from the random form itself.
#include <gtest/gtest.h>

#include <charconv>
#include <chrono>
#include <cmath>
#include <random>
#include <string>

#include "drawn.h"
#include "pattern/read.h"
#include "pattern/solve.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;
using test::uniform;

const int forms = test::light() ? 60 : 1000;

int number_after(const std::string& line, const std::string& words) {
  const auto at = line.find(words);
  int value = 0;
  if (at != std::string::npos)
    std::from_chars(line.data() + at + words.size(), line.data() + line.size(), value);
  return value;
}

/// The refusal names the least count; that one can be drafted, none below it can.
void expect_least_count(const Parallels& crown, LengthAlong along, const Fault& fault) {
  EXPECT_EQ(fault.exit, ExitCode::impossible);
  const int least = number_after(fault.line(), "the least panel count that works is ");
  ASSERT_GE(least, 4) << fault.line();
  EXPECT_TRUE(draft_panel(crown, {least, along, 0.001}).ok()) << fault.line();
  for (int fewer = 3; fewer < least; ++fewer)
    EXPECT_FALSE(draft_panel(crown, {fewer, along, 0.001}).ok()) << fewer << ": " << fault.line();
}

void expect_same(const BeretValues& drafted, const BeretValues& read) {
  EXPECT_NEAR(2 * read.a, 2 * drafted.a, 0.1) << "crown diameter";
  EXPECT_NEAR(2 * test::pi * read.b, 2 * test::pi * drafted.b, 0.1) << "head girth";
  EXPECT_NEAR(read.R, drafted.R, 0.5) << "rise";
  EXPECT_NEAR(read.t, drafted.t, 0.5) << "dome";
  const auto was = meridian::solve_figures(drafted), is = meridian::solve_figures(read);
  ASSERT_TRUE(was.ok() && is.ok());
  EXPECT_NEAR(is->top_length, was->top_length, 0.1);
  EXPECT_NEAR(is->under_length, was->under_length, 0.1);
}

std::string in_words(const BeretValues& v, int panels, LengthAlong along) {
  return "a " + std::to_string(v.a) + " b " + std::to_string(v.b) + " R " + std::to_string(v.R) + " t " +
         std::to_string(v.t) + " e " + std::to_string(v.e_u) + ", " + std::to_string(panels) +
         " panels, law " + std::to_string(static_cast<int>(along));
}

TEST(RoundTrip, AFormComesBackFromItsPanel) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int drafted = 0;
  for (int i = 0; i < forms; ++i) {
    const BeretValues form = test::ordinary_beret(random);
    // Every fifth where the law often has no panel.
    const auto along = i % 5 == 0 ? LengthAlong::seam : static_cast<LengthAlong>(random() % 3);
    const int panels = i % 5 == 0 ? 4 : 4 + static_cast<int>(random() % 21);
    SCOPED_TRACE(in_words(form, panels, along));
    FitQuestion question;
    question.along = along;
    question.dome = std::max(0.0, form.t + uniform(random, -1, 1));
    const Parallels crown = test::parallels_of(form);
    const auto net = draft_panel(crown, {panels, along, 0.001});
    if (!net) {
      expect_least_count(crown, along, net.fault());
      continue;
    }
    ++drafted;
    const auto fit = fit_panel(test::outline_of(*net), question);
    ASSERT_TRUE(fit.ok()) << fit.fault().line();
    expect_same(form, fit->values);
  }
  // Both ways must have been gone.
  EXPECT_GT(drafted, forms / 2);
  EXPECT_LT(drafted, forms);
}

}  // namespace
}  // namespace crownwright::pattern
