// Any bytes as a program in RS274/NGC: strokes whose numbers are finite and whose arcs are arcs, or a fault
// that names its line. A short program is cut on a small map too.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/printable.h"
#include "simulation/ngc_reader.h"
#include "simulation/simulate.h"

namespace {

using namespace crownwright;
using simulation::Motion;
using simulation::Stroke;

void expect(bool holds) {
  if (!holds) std::abort();
}

void expect_plain_fault(const Fault& fault) {
  expect(fault.exit == ExitCode::order && fault.where.starts_with("fuzz.ngc:") && !fault.allowed.empty());
  const std::string line = fault.line();
  expect(is_utf8(line) && line.find('\n') == std::string::npos);
}

void expect_sound(const Stroke& stroke) {
  for (const double value : {stroke.x, stroke.y, stroke.z, stroke.cx, stroke.cy, stroke.turn, stroke.feed})
    expect(std::isfinite(value));
  const bool arc = stroke.motion == Motion::clockwise || stroke.motion == Motion::counterclockwise;
  expect(arc == (stroke.turn != 0) && std::abs(stroke.turn) <= 6.2831853072);
  expect(stroke.motion == Motion::rapid ? stroke.feed == 0 : stroke.feed > 0);
  expect(stroke.line > 0);
}

void cut_it(const simulation::Program& program) {
  using meridian::Segment;
  simulation::Bench bench;
  bench.stock = {-10, -10, 10, 10, 8};
  bench.target = {Segment::line({0, 7}, {5, 7}), Segment::line({5, 7}, {5, 0})};
  bench.trench = 9;
  const auto found = simulate(bench, {{program, "fuzz.ngc", {}}}, {}, 0.5);
  if (!found) return expect(found.fault().exit == ExitCode::impossible);
  expect(std::isfinite(found->gouge_max) && found->gouge_max >= 0 && std::isfinite(found->rest_max));
  expect(std::isfinite(found->cutting_mm + found->air_mm) && found->deepest_plunge >= 0);
  for (const std::string& sentence : broken_limits(*found, {}, true)) expect(!sentence.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto program = simulation::read_program(text, "fuzz.ngc");
  if (!program) return expect_plain_fault(program.fault()), 0;
  double way = 0, x = 0, y = 0;
  for (const Stroke& stroke : program->strokes) {
    expect_sound(stroke);
    way += std::abs(stroke.x - x) + std::abs(stroke.y - y) +
           10 * std::hypot(stroke.x - stroke.cx, stroke.y - stroke.cy);
    x = stroke.x;
    y = stroke.y;
  }
  // Ways of kilometres are sound and take their time.
  if (way < 20'000) cut_it(*program);
  return 0;
}
