#include "parts/anatomy.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "support/form_table.h"
#include "support/random_number.h"

namespace crownwright::parts {
namespace {

// The even-odd rule on a fine polygon of the same walk; points nearer to it than 0.05 mm are not asked about.
TEST(Anatomy, IsWithinAgreesWithAFinePolygon) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (const auto& form : test::all_forms()) {
    SCOPED_TRACE(form.name);
    std::vector<const meridian::Chain*> chains;
    for (const auto& shell : form.solid.shells) chains.push_back(&shell.walk);
    for (int trial = 0; trial < 200; ++trial) {
      const meridian::Point p{test::uniform(random, 0, 160), test::uniform(random, -5, 150)};
      bool inside = false, near = false;
      for (const auto* chain : chains) {
        near = near || meridian::distance_to(*chain, p) < 0.05;
        for (const auto& segment : *chain) {
          const int parts = segment.is_arc() ? 300 : 1;
          for (int i = 0; i < parts; ++i) {
            const auto a = segment.at(segment.length() * i / parts),
                       b = segment.at(segment.length() * (i + 1) / parts);
            if ((a.z > p.z) != (b.z > p.z) && a.r + (p.z - a.z) / (b.z - a.z) * (b.r - a.r) > p.r)
              inside = !inside;
          }
        }
      }
      if (near) continue;
      EXPECT_EQ(is_within(chains, p), inside) << p.r << " " << p.z;
    }
  }
}

// With its pole vent closed again a form has the volume (Pappus) it had before the vent was laid.
TEST(Anatomy, PoleVentIsUndone) {
  int count = 0;
  for (const auto& form : test::all_forms()) {
    const auto vented = test::vented(form.solid, test::vents(40));
    if (!vented.pole_vent) continue;
    ++count;
    SCOPED_TRACE(form.name);
    const auto plain = without_pole_vent(vented);
    EXPECT_EQ(plain.shells.size(), form.solid.shells.size());
    EXPECT_NEAR(solid::unpierced_volume(plain), solid::unpierced_volume(form.solid), 1e-3);
    EXPECT_GT(std::abs(solid::unpierced_volume(vented) - solid::unpierced_volume(form.solid)), 1);
    EXPECT_EQ(plain.shells.front().walk.front().from().r, 0);
    EXPECT_EQ(plain.shells.back().walk.back().to().r, 0);
  }
  EXPECT_GT(count, 5);
}

// A thickened inner face is the inner face of the same block with that wall.
TEST(Anatomy, ThickenedInnerFaceIsThatOfAThickerWall) {
  for (const double wall : {6.0, 9.0, 11.0}) {
    const auto ordered = take_apart(solid::build_block(test::plain_block(test::worked_case())).value());
    const auto thick = thickened_inner(ordered, 4, wall).value();
    const auto wanted = take_apart(solid::build_block(test::plain_block(test::worked_case(), wall)).value());
    for (const auto& segment : thick) {
      for (int i = 0; i <= 20; ++i)
        EXPECT_LT(meridian::distance_to(*wanted.inner, segment.at(segment.length() * i / 20)), 1e-6);
    }
  }
}

}  // namespace
}  // namespace crownwright::parts
