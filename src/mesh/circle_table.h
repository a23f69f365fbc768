#pragma once
// Cosines and sines of equal parts of a turn, made once for each count.

#include <map>
#include <vector>

namespace crownwright::mesh {

struct UnitPoint {
  double c = 1, s = 0;
};

class CircleTable {
 public:
  /// Entry k is at angle 2 pi k / count.
  const std::vector<UnitPoint>& of(int count);

 private:
  std::map<int, std::vector<UnitPoint>> tables_;
};

}  // namespace crownwright::mesh
