#pragma once
// The table at the end of a run: medians, their ratios, and which goals they meet. Plain ASCII.

#include <map>
#include <ostream>
#include <string>

#include "bench/figures.h"

namespace crownwright::bench {

void print_accuracy(const std::map<std::string, Accuracy>& accuracy, std::ostream& out);
void print_table(const Figures& figures, std::ostream& out);

}  // namespace crownwright::bench
