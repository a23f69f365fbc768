#include "fit/nearest.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "meridian/trials.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::fit {
namespace {

using meridian::BeretValues;
using pattern::LengthAlong;
using pattern::Parallels;

constexpr auto shared = LengthAlong::shared;

std::optional<FitReport> said(bool passes) {
  FitReport report;
  report.verdict = passes ? Verdict::after_steam : Verdict::no;
  return report;
}

/// Judges each form against its own draft.
auto own_draft(const ClothLimits& limits) {
  return [limits](const BeretValues& v, int panels, LengthAlong along) -> std::optional<FitReport> {
    const auto chain = meridian::crown_chain(v);
    if (!chain) return std::nullopt;
    const Parallels crown = Parallels::of(*chain);
    auto net = pattern::draft_panel(crown, {panels, along, 0.01});
    if (!net) return std::nullopt;
    return judge({crown, crown, *net, limits, {}});
  };
}

/// Judges each form against one round top with its ring.
auto given_discs(const Parallels& cloth, const ClothLimits& limits) {
  return [cloth, limits](const BeretValues& v, int, LengthAlong) -> std::optional<FitReport> {
    const auto chain = meridian::crown_chain(v);
    if (!chain) return std::nullopt;
    return judge({Parallels::of(*chain), cloth, {}, limits, {}});
  };
}

bool passes(const NearestQuestion& q, const BeretValues& v, int panels, LengthAlong along) {
  const auto report = q.judge(v, panels, along);
  return report && report->verdict != Verdict::no;
}

BeretValues changed(const NearestQuestion& q, const Change& change, double by = 0) {
  BeretValues v = q.values;
  if (change.what == "edge radius") v.e_u = v.e_l = change.to + by;
  if (change.what == "dome") v.t = change.to + by;
  return v;
}

int panels_of(const NearestQuestion& q, const Change& change) {
  return change.what == "panels" ? static_cast<int>(change.to) : q.panels;
}

LengthAlong along_of(const NearestQuestion& q, const Change& change) {
  return change.what == "length along" ? static_cast<LengthAlong>(static_cast<int>(change.to)) : q.along;
}

const Change* find(const std::vector<Change>& changes, const std::string& what, bool smaller) {
  for (const Change& change : changes)
    if (change.what == what && (change.to < change.from) == smaller) return &change;
  return nullptr;
}

TEST(Nearest, RoundsToThePassingSide) {
  const BeretValues v{140, 90.7, 75, 6.02, 20.04, 20.04};
  const auto in_bands = [](const BeretValues& w, int, LengthAlong) {
    EXPECT_EQ(w.a, 140) << "crown diameter and head girth are held";
    EXPECT_EQ(w.b, 90.7);
    const bool edge = w.e_u <= 12.37 || w.e_u >= 33.31;
    return said(edge || w.t >= 9.11 || w.t <= 1.234);
  };
  const auto changes = nearest_changes({v, 0, shared, false, in_bands});
  ASSERT_EQ(changes.size(), 3u);
  EXPECT_EQ(changes[0].to, 12.3);
  EXPECT_EQ(changes[0].from, 20.04);
  EXPECT_EQ(changes[0].says, "an edge radius of 12.3 mm at most");
  EXPECT_EQ(changes[1].to, 33.4);
  EXPECT_EQ(changes[1].says, "an edge radius of 33.4 mm at least");
  EXPECT_EQ(changes[2].to, 9.2);
  EXPECT_EQ(changes[2].says, "a dome of 9.2 mm at least");
  EXPECT_EQ(changes[2].verdict, Verdict::after_steam);
  EXPECT_FALSE(changes[2].new_pattern);
}

TEST(Nearest, OffersTheDomeOnTheNearerSideAndAValueJustBelow) {
  const BeretValues v{140, 90.7, 75, 6, 20, 20};
  const auto judge = [](const BeretValues& w, int, LengthAlong) { return said(w.t <= 5.95 || w.t >= 9); };
  const auto changes = nearest_changes({v, 0, shared, false, judge});
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_EQ(changes[0].to, 5.9);
  EXPECT_EQ(changes[0].says, "a dome of 5.9 mm at most");
}

// Steps are wider than this band; the worst strain shows the way into it.
TEST(Nearest, FindsANarrowBandByItsDip) {
  const BeretValues v{140, 90.7, 75, 6, 20, 20};
  for (const double middle : {3.05, 4.15, 7.25, 9.35, 12.05}) {
    const auto judge = [middle](const BeretValues& w, int, LengthAlong) {
      FitReport report;
      report.worst.value = -0.1 * std::abs(w.e_u - middle) - 0.033;
      report.worst.limit = -0.05;
      report.verdict = report.worst.value < -0.05 ? Verdict::no : Verdict::as_sewn;
      return std::optional(report);
    };
    const auto changes = nearest_changes({v, 0, shared, false, judge});
    const Change* edge = find(changes, "edge radius", true);
    ASSERT_NE(edge, nullptr) << middle;
    EXPECT_LE(edge->to, middle + 0.17) << "the band's end towards the present value";
    EXPECT_GT(edge->to + 0.1, middle + 0.17);
  }
}

TEST(Nearest, NothingWhenItPassesOrNothingDoes) {
  const BeretValues v{140, 90.7, 75, 6, 20, 20};
  int asked = 0;
  const auto always = [&](const BeretValues&, int, LengthAlong) { return ++asked, said(true); };
  EXPECT_TRUE(nearest_changes({v, 8, shared, true, always}).empty());
  EXPECT_EQ(asked, 1);
  const auto never = [&](const BeretValues&, int, LengthAlong) -> std::optional<FitReport> {
    return ++asked % 2 ? said(false) : std::nullopt;
  };
  EXPECT_TRUE(nearest_changes({v, 3, shared, true, never}).empty());
  EXPECT_LE(asked, 201) << "at most 200 judgements";
}

TEST(Nearest, AnUnderEdgeApartKeepsItsDistance) {
  const BeretValues v{140, 90.7, 75, 6, 20, 14};
  const auto judge = [](const BeretValues& w, int, LengthAlong) {
    EXPECT_NEAR(w.e_l, std::max(0.0, w.e_u - 6), 1e-9);
    return said(w.e_l <= 8.05);
  };
  const auto changes = nearest_changes({v, 0, shared, false, judge});
  ASSERT_GE(changes.size(), 1u);
  EXPECT_EQ(changes[0].to, 14);
}

TEST(Nearest, PanelCountsAndLawsOnlyForDraftedPatterns) {
  const BeretValues v{140, 90.7, 75, 6, 20, 20};
  const auto judge = [](const BeretValues&, int n, LengthAlong along) {
    return said(n == 11 || n > 13 || along == LengthAlong::seam);
  };
  EXPECT_TRUE(nearest_changes({v, 8, shared, false, judge}).empty());
  const auto changes = nearest_changes({v, 8, shared, true, judge});
  ASSERT_EQ(changes.size(), 2u);
  EXPECT_EQ(changes[0].says, "11 panels");
  EXPECT_EQ(changes[1].what, "length along");
  EXPECT_EQ(changes[1].to, static_cast<double>(LengthAlong::seam));
  EXPECT_TRUE(changes[1].new_pattern);
}

// A round top of 142.855 mm was cut for an edge of 5 mm; its cloth shrinks 2 %, which that edge just asks for
// (0.571 e / (a + 0.571 e), see fit_test.cpp); the form ordered has 20.
TEST(Nearest, ARoundTopNamesTheEdgeItWasCutFor) {
  const BeretValues cut{140, 90.7, 75, 0, 5, 5}, ordered{140, 90.7, 75, 0, 20, 20};
  const double top = meridian::top_length(140, 0, 5),
               under = meridian::solve_figures(cut).value().under_length;
  const NearestQuestion question{ordered, 0, shared, false,
                                 given_discs(Parallels::of_discs(top, top, top - under), {1, 0, 0.02, 0})};
  const auto changes = nearest_changes(question);
  const Change* edge = find(changes, "edge radius", true);
  ASSERT_NE(edge, nullptr);
  EXPECT_TRUE(passes(question, changed(question, *edge), 0, shared));
  EXPECT_FALSE(passes(question, changed(question, *edge, 0.1), 0, shared));
  EXPECT_GE(edge->to, 5) << "the edge it was cut for passes";
}

/// Judges each form against panels cut for another one.
auto given_panels(const BeretValues& cut, int panels, const ClothLimits& limits) {
  const Parallels cloth = Parallels::of(meridian::crown_chain(cut).value());
  const auto net = pattern::draft_panel(cloth, {panels, shared, 0.01}).value();
  return [=](const BeretValues& v, int, LengthAlong) -> std::optional<FitReport> {
    const auto chain = meridian::crown_chain(v);
    if (!chain) return std::nullopt;
    return judge({Parallels::of(*chain), cloth, net, limits, {}});
  };
}

/// A form that can be made and drafted, with a fair edge.
BeretValues random_form(std::mt19937_64& random, int panels) {
  for (;;) {
    const double a = meridian::uniform(random, 110, 160), e = meridian::uniform(random, 8, 35);
    const BeretValues v{a,
                        meridian::uniform(random, 0.55, 0.75) * a,
                        meridian::uniform(random, 45, 90),
                        meridian::uniform(random, 0, 15),
                        e,
                        e};
    const auto chain = meridian::crown_chain(v);
    if (chain && pattern::draft_panel(Parallels::of(*chain), {panels, shared, 0.01})) return v;
  }
}

void expect_sharp(const NearestQuestion& question, const Change& change) {
  const int n = panels_of(question, change);
  const LengthAlong along = along_of(question, change);
  const auto report = question.judge(changed(question, change), n, along);
  ASSERT_TRUE(report.has_value()) << change.says;
  EXPECT_EQ(report->verdict, change.verdict) << change.says;
  EXPECT_NE(report->verdict, Verdict::no) << change.says;
  EXPECT_EQ(change.new_pattern, question.drafted);
  if (change.what == "edge radius" || change.what == "dome") {
    const double back = change.to < change.from ? 0.1 : -0.1;
    EXPECT_FALSE(passes(question, changed(question, change, back), n, along)) << change.says;
  }
  if (change.what == "panels") {
    for (int fewer = question.panels; fewer < n; ++fewer)
      EXPECT_FALSE(passes(question, question.values, fewer, along)) << change.says;
  }
}

const int random_trials = test::light() ? 30 : 60;

// Whatever is offered passes, and one tenth (or one panel) nearer to what was ordered does not.
TEST(Nearest, EveryOfferOfRandomFormsIsSharp) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int tried = 0, lengths = 0, counts = 0;
  while (tried < random_trials) {
    const int panels = 6 + static_cast<int>(random() % 8);
    const BeretValues v = random_form(random, panels);
    const bool drafted = random() % 2 == 0;
    BeretValues cut = v;
    cut.e_u = cut.e_l = v.e_u + meridian::uniform(random, -6, 6);
    // Limits that a form like it just does not meet.
    const ClothLimits plenty{1, 1, 0, 2};
    if (!drafted &&
        (!meridian::crown_chain(cut) ||
         !pattern::draft_panel(Parallels::of(*meridian::crown_chain(cut)), {panels, shared, 0.01})))
      continue;
    NearestQuestion question{v, panels, shared, drafted, {}};
    const auto judge_by = [&](const ClothLimits& limits) {
      if (drafted)
        question.judge = own_draft(limits);
      else
        question.judge = given_panels(cut, panels, limits);
    };
    judge_by(plenty);
    const double worst = std::abs(question.judge(v, panels, shared)->worst.value);
    judge_by(
        {worst * meridian::uniform(random, 0.9, 1.1), worst * meridian::uniform(random, 0.9, 0.999), 0, 2});
    if (passes(question, v, panels, shared)) continue;
    ++tried;
    int asked = 0;
    NearestQuestion counted = question;
    counted.judge = [&](const auto& w, int n, LengthAlong along) {
      return ++asked, question.judge(w, n, along);
    };
    const auto changes = nearest_changes(counted);
    EXPECT_LE(asked, 200);
    for (const Change& change : changes) {
      expect_sharp(question, change);
      ++(change.what == "panels" ? counts : lengths);
    }
  }
  EXPECT_GT(lengths, random_trials / 2) << "the trials hardly offer an edge or dome";
  EXPECT_GT(counts, random_trials / 6);
}

}  // namespace
}  // namespace crownwright::fit
