#include "making/cut_cloth.h"

namespace crownwright::making {

meridian::BeretValues scaled(meridian::BeretValues v, double factor) {
  for (double* length : {&v.a, &v.b, &v.R, &v.t, &v.e_u, &v.e_l}) *length *= factor;
  return v;
}

Result<DiscRadii> cut_discs(const meridian::BeretValues& middle, double heat_shrink) {
  const meridian::BeretValues cut = scaled(middle, 1 / (1 - heat_shrink));
  const auto figures = meridian::solve_figures(cut);
  if (!figures) return figures.fault();
  return DiscRadii{figures->top_length, cut.b + figures->under_length, cut.b};
}

Result<pattern::Parallels> cut_parallels(const meridian::BeretValues& middle, double heat_shrink) {
  const auto crown = meridian::crown_chain(scaled(middle, 1 / (1 - heat_shrink)));
  if (!crown) return crown.fault();
  return pattern::Parallels::of(*crown);
}

}  // namespace crownwright::making
