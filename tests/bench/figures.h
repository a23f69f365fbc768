#pragma once
// All that was measured, by candidate, work and temper.

#include <map>
#include <string>
#include <vector>

#include "bench/child.h"

namespace crownwright::bench {

/// Middle of the values (of an even number, the mean of the two in the middle); NaN without any.
double median(std::vector<double> values);

class Figures {
 public:
  void add(const Task& task, const Measured& measured);
  double cpu(const std::string& candidate, const std::string& work, Temper temper) const;
  double wall(const std::string& candidate, const std::string& work, Temper temper) const;
  double process_cpu(const std::string& candidate, const std::string& work, Temper temper) const;
  double peak(const std::string& candidate, const std::string& work, Temper temper) const;
  double triangles(const std::string& candidate, const std::string& work, Temper temper) const;
  std::size_t rounds(const std::string& candidate, const std::string& work, Temper temper) const;

 private:
  template <class Read>
  double middle(const std::string& candidate, const std::string& work, Temper temper, Read read) const;
  std::map<std::string, std::vector<Measured>> all_;
};

/// Distances to the true surface, mm, and what the comparisons were given.
struct Accuracy {
  std::size_t vents = 0, triangles = 0;
  int bore_sides = 0;
  double made = 0, corefined = 0, grid = 0;
  double shell_tolerance = 0;
};

}  // namespace crownwright::bench
