#include "measurements/heads.h"

#include <array>
#include <cmath>
#include <string_view>

namespace crownwright::measurements {
namespace {

constexpr double kNewbornGirl3rd = 316.5;  // mm, WHO 2007
constexpr double kMan99th = 614.2;         // mm, ANSUR II

struct Head {
  double girth;  // mm
  std::string_view whose;
};

// WHO medians rounded to millimetres (boys and girls lie 6 to 12 mm apart), then ANSUR II.
constexpr std::array kHeads = {
    Head{339, "a newborn girl's median"},       Head{345, "a newborn boy's median"},
    Head{422, "a girl's median at 6 months"},   Head{433, "a boy's median at 6 months"},
    Head{449, "a girl's median at 1 year"},     Head{461, "a boy's median at 1 year"},
    Head{472, "a girl's median at 2 years"},    Head{483, "a boy's median at 2 years"},
    Head{499, "a girl's median at 5 years"},    Head{507, "a boy's median at 5 years"},
    Head{532, "adult women's 5th percentile"},  Head{548, "adult men's 5th percentile"},
    Head{560, "adult women's 50th percentile"}, Head{574, "adult men's 50th percentile"},
    Head{597, "adult women's 95th percentile"}, Head{601, "adult men's 95th percentile"},
};

}  // namespace

std::optional<std::string> head_warning(const Length& girth) {
  const std::string head = "head girth " + to_text(girth);
  if (girth.mm() < kNewbornGirl3rd) {
    return head + " is smaller than the heads of 97 in 100 newborn girls (" +
           number_text(kNewbornGirl3rd, 1) + " mm, WHO Child Growth Standards)";
  }
  if (girth.mm() > kMan99th) {
    return head + " is larger than the heads of 99 in 100 men (" + number_text(kMan99th, 1) +
           " mm, ANSUR II)";
  }
  return std::nullopt;
}

std::string describe_head(const Length& girth) {
  const Head* nearest = &kHeads[0];
  for (const Head& head : kHeads) {
    if (std::abs(head.girth - girth.mm()) < std::abs(nearest->girth - girth.mm())) nearest = &head;
  }
  return "nearest to " + std::string(nearest->whose) + ", " + number_text(nearest->girth) + " mm";
}

}  // namespace crownwright::measurements
