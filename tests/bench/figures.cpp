#include "bench/figures.h"

#include <algorithm>
#include <cmath>

namespace crownwright::bench {
namespace {
std::string key_of(const std::string& candidate, const std::string& work, Temper temper) {
  return candidate + "/" + work + "/" + temper_name(temper);
}
}  // namespace

double median(std::vector<double> values) {
  if (values.empty()) return NAN;
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

void Figures::add(const Task& task, const Measured& measured) {
  all_[key_of(task.candidate, task.work, task.temper)].push_back(measured);
}

template <class Read>
double Figures::middle(const std::string& candidate, const std::string& work, Temper temper,
                       Read read) const {
  std::vector<double> values;
  const auto found = all_.find(key_of(candidate, work, temper));
  if (found == all_.end()) return NAN;
  for (const Measured& measured : found->second) values.push_back(read(measured));
  return median(std::move(values));
}

double Figures::cpu(const std::string& candidate, const std::string& work, Temper temper) const {
  return middle(candidate, work, temper, [](const Measured& m) { return m.cpu; });
}
double Figures::wall(const std::string& candidate, const std::string& work, Temper temper) const {
  return middle(candidate, work, temper, [](const Measured& m) { return m.wall; });
}
double Figures::process_cpu(const std::string& candidate, const std::string& work, Temper temper) const {
  return middle(candidate, work, temper, [](const Measured& m) { return m.process_cpu; });
}
double Figures::peak(const std::string& candidate, const std::string& work, Temper temper) const {
  return middle(candidate, work, temper, [](const Measured& m) { return m.peak; });
}
double Figures::triangles(const std::string& candidate, const std::string& work, Temper temper) const {
  return middle(candidate, work, temper, [](const Measured& m) { return double(m.triangles); });
}
std::size_t Figures::rounds(const std::string& candidate, const std::string& work, Temper temper) const {
  const auto found = all_.find(key_of(candidate, work, temper));
  return found == all_.end() ? 0 : found->second.size();
}

}  // namespace crownwright::bench
