#include "making/outer_face.h"

namespace crownwright::making {
namespace {

bool is_outer(solid::Role role) {
  switch (role) {
    case solid::Role::crown:
    case solid::Role::collar:
    case solid::Role::groove:
    case solid::Role::flange:
    case solid::Role::foot:  // its broken edge; what lies further in widens no hull
      return true;
    default:
      return false;
  }
}

}  // namespace

meridian::Chain outer_face(const solid::Solid& solid) {
  meridian::Chain outer;
  const solid::Shell& shell = solid.shells.front();
  for (std::size_t i = 0; i < shell.walk.size(); ++i)
    if (is_outer(shell.roles[i])) outer.push_back(shell.walk[i]);
  return outer;
}

}  // namespace crownwright::making
