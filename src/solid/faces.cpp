#include "solid/faces.h"

#include <algorithm>

namespace crownwright::solid {

meridian::Chain with_roles(const Solid& solid, std::initializer_list<Role> roles) {
  meridian::Chain chain;
  for (const Shell& shell : solid.shells)
    for (std::size_t i = 0; i < shell.walk.size(); ++i)
      if (std::find(roles.begin(), roles.end(), shell.roles[i]) != roles.end())
        chain.push_back(shell.walk[i]);
  return chain;
}

meridian::Extent extent_of(const Solid& solid) {
  meridian::Chain all;
  for (const Shell& shell : solid.shells) all.insert(all.end(), shell.walk.begin(), shell.walk.end());
  return meridian::extent_of(all);
}

}  // namespace crownwright::solid
