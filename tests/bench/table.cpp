#include "bench/table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "bench/work.h"

namespace crownwright::bench {
namespace {

constexpr std::array<const char*, 3> sizes{"S", "M", "L"};
constexpr std::array tempers{Temper::cold, Temper::warm, Temper::tuned};

template <class... Values>
std::string line(const char* form, Values... values) {
  std::array<char, 256> text{};
  std::snprintf(text.data(), text.size(), form, values...);
  return text.data();
}

// Not measured in this run: a dash, and no verdict.
std::string number(double value, int width, int places) {
  return std::isnan(value) ? line("%*s", width, "-") : line("%*.*f", width, places, value);
}
const char* at_most(double value, double goal) {
  return std::isnan(value) ? "-" : value <= goal ? "met" : "NOT MET";
}
const char* at_least(double value, double goal) {
  return std::isnan(value) ? "-" : value >= goal ? "met" : "NOT MET";
}

void print_times(const Figures& figures, std::ostream& out) {
  out << "\nCPU time of one pass, ms, medians (n rounds; wall in the last three columns)\n"
      << "candidate        temper       S    (n)       M    (n)       L    (n)    wall S    wall M    wall "
         "L\n";
  for (const char* candidate :
       {"order", "mesh", "page preview", "chain", "corefined", "grid", "proof", "plain test"}) {
    for (const Temper temper : tempers) {
      std::string row = line("%-16s %-6s", candidate, temper_name(temper));
      std::size_t rounds = 0;
      for (const char* size : sizes) {
        row += number(1e3 * figures.cpu(candidate, size, temper), 9, 2);
        row += line(" (%2zu)", figures.rounds(candidate, size, temper));
        rounds += figures.rounds(candidate, size, temper);
      }
      for (const char* size : sizes) row += number(1e3 * figures.wall(candidate, size, temper), 10, 2);
      if (rounds > 0) out << row << "\n";
    }
  }
}

void print_sizes(const Figures& figures, std::ostream& out) {
  out << "\ntriangles               S         M         L\n";
  for (const char* candidate : {"order", "chain", "corefined", "grid"}) {
    out << line("%-16s", candidate);
    for (const char* size : sizes) out << number(figures.triangles(candidate, size, Temper::cold), 10, 0);
    out << "\n";
  }
  out << "whole process, making cold: CPU ms (rusage)";
  for (const char* size : sizes) out << number(1e3 * figures.process_cpu("order", size, Temper::cold), 9, 1);
  out << "\n";
}

void print_ratio(const Figures& figures, const char* words, const char* above, const char* below, double goal,
                 bool least, std::ostream& out) {
  for (const Temper temper : tempers) {
    std::string row = line("%-34s %-6s", words, temper_name(temper));
    for (const char* size : sizes) {
      const double ratio = figures.cpu(above, size, temper) / figures.cpu(below, size, temper);
      const bool judged = goal > 0 && std::string(size) != "S";
      row += number(ratio, 9, 2) + line(" %-8s", !judged ? ""
                                                 : least ? at_least(ratio, goal)
                                                         : at_most(ratio, goal));
    }
    out << row << "\n";
  }
}

void print_ratios(const Figures& figures, std::ostream& out) {
  out << "\nratio of CPU medians                      temper        S                M                L\n";
  print_ratio(figures, "corefined / order     (goal >= 60)", "corefined", "order", 60, true, out);
  print_ratio(figures, "order / grid          (goal <= 6)", "order", "grid", 6, false, out);
  print_ratio(figures, "proof / order         (goal <= 3)", "proof", "order", 3, false, out);
  print_ratio(figures, "plain test / order    (no goal)", "plain test", "order", 0, false, out);
  print_ratio(figures, "chain / grid          (no goal)", "chain", "grid", 0, false, out);
}

double per_triangle(const Figures& figures, const char* size, Temper temper) {
  return figures.cpu("order", size, temper) / figures.triangles("order", size, temper);
}

void print_preview(const Figures& figures, const char* words, const char* preview, const char* whole,
                   std::ostream& out) {
  for (const Temper temper : tempers) {
    const double ratio = figures.cpu(preview, "preview", temper) / figures.cpu(whole, "M", temper);
    out << line("%-42s %-6s", words, temper_name(temper)) << number(ratio, 8, 3) << "  (goal < 0.25)  "
        << at_most(ratio, 0.25) << "\n";
  }
}

// Of the fine form of the same order, made and proved: what a page would wait for without previews.
void print_page_preview(const Figures& figures, std::ostream& out) {
  for (const Temper temper : tempers) {
    const double made = figures.cpu("order", "M", temper) + figures.cpu("proof", "M", temper);
    const double ratio = figures.cpu("page preview", "M", temper) / made;
    out << line("%-42s %-6s", "preview for the page / M made and proved", temper_name(temper))
        << number(ratio, 8, 3) << "  (no goal)\n";
  }
}

void print_growth(const Figures& figures, std::ostream& out) {
  out << "\ngrowth\n";
  for (const Temper temper : tempers) {
    const double s = per_triangle(figures, "S", temper), l = per_triangle(figures, "L", temper);
    out << line("making, us a triangle, %-6s", temper_name(temper)) << number(1e6 * s, 8, 3) << " (S)"
        << number(1e6 * l, 8, 3) << " (L)   L / S" << number(l / s, 6, 2) << "  (goal <= 1.3)  "
        << at_most(l / s, 1.3) << "\n";
  }
  print_preview(figures, "preview made / M made", "order", "order", out);
  print_preview(figures, "preview mesh in memory / M made", "mesh", "order", out);
  print_preview(figures, "preview mesh in memory / M mesh in memory", "mesh", "mesh", out);
  print_page_preview(figures, out);
}

void print_memory(const Figures& figures, std::ostream& out) {
  out << "\npeak memory of the cold process, MB, and bytes a triangle above 30 MB (goal <= 100)\n";
  for (const char* candidate : {"order", "proof"}) {
    std::string row = line("%-16s", std::string(candidate) == "order" ? "making" : "making + proof");
    for (const char* size : sizes) {
      const double peak = figures.peak(candidate, size, Temper::cold);
      const double bytes = (std::isnan(peak) ? peak : std::max(0.0, peak - 30e6)) /
                           figures.triangles(candidate, size, Temper::cold);
      row += line("  %s", size) + number(peak / 1e6, 7, 1) + number(bytes, 8, 1) +
             line(" %-7s", at_most(bytes, 100));
    }
    out << row << "\n";
  }
}

}  // namespace

void print_accuracy(const std::map<std::string, Accuracy>& accuracy, std::ostream& out) {
  out << "greatest distance of a facet to the true surface (45 samples each), in chord tolerances (goal for "
         "order: <= 1)\n"
      << "      tolerance  vents  sides  triangles     order           corefined  grid   tolerance of "
         "corefinement's shell\n";
  for (const auto& [size, a] : accuracy) {
    const double tolerance = work_named(size).tolerance;
    out << line("%-8s %6.3f %6zu %6d %10zu %9.3f %-8s", size.c_str(), tolerance, a.vents, a.bore_sides,
                a.triangles, a.made / tolerance, at_most(a.made / tolerance, 1));
    out << number(a.corefined / tolerance, 9, 3) << number(a.grid / tolerance, 9, 3)
        << number(a.shell_tolerance, 10, 5) << "\n";
  }
}

void print_table(const Figures& figures, std::ostream& out) {
  print_times(figures, out);
  print_sizes(figures, out);
  print_ratios(figures, out);
  print_growth(figures, out);
  print_memory(figures, out);
}

}  // namespace crownwright::bench
