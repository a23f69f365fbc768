#include "press/limit.h"

#include <vector>

namespace crownwright::press {
namespace {

using workshop::Certainty;
using workshop::Graded;
using workshop::MaterialKind;
using workshop::MaterialProfile;

void add_limit(std::vector<HeatLimit>& limits, const std::optional<Graded>& figure, const char* measure) {
  if (figure) limits.push_back({figure->value, measure, figure->source, figure->certainty});
}

void add_bending(std::vector<HeatLimit>& limits, const MaterialProfile& material) {
  if (material.hdt) {
    add_limit(limits, material.hdt, "HDT at 0.45 MPa");
  } else {
    add_limit(limits, material.vicat, "Vicat softening, no HDT is known");
  }
}

// Every figure that counts for this kind of material. Without a kind none can be chosen.
std::vector<HeatLimit> counting_limits(const MaterialProfile& material) {
  std::vector<HeatLimit> limits;
  if (!material.kind) return limits;
  switch (*material.kind) {
    case MaterialKind::amorphous:
      add_limit(limits, material.tg, "glass transition");
      add_bending(limits, material);
      break;
    case MaterialKind::semi_crystalline:
    case MaterialKind::elastomer:
      add_bending(limits, material);
      break;
    case MaterialKind::foam:
    case MaterialKind::board:
    case MaterialKind::wood:
      add_limit(limits, material.heat_limit, "limit of use");
      break;
  }
  return limits;
}

void keep_lower(std::optional<HeatLimit>& kept, const HeatLimit& limit) {
  if (!kept || limit.celsius < kept->celsius) kept = limit;
}

}  // namespace

HeatLimits heat_limits(const MaterialProfile& material) {
  HeatLimits found;
  for (const HeatLimit& limit : counting_limits(material)) {
    keep_lower(found.lowest, limit);
    if (limit.certainty == Certainty::published) keep_lower(found.published, limit);
  }
  return found;
}

}  // namespace crownwright::press
