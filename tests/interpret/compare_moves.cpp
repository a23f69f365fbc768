// Compares the moves that an RS274/NGC interpreter makes of a program with those of our own reader.
//   compare_moves PROGRAM.ngc CANONICAL
// CANONICAL holds the interpreter's calls as the rs274 program of Debian's linuxcnc-uspace prints them (batch
// mode, four decimals), millimetres. Says the first difference and exits with 1.

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include "simulation/ngc_reader.h"

using namespace crownwright;
using simulation::Motion;
using simulation::Stroke;

namespace {

constexpr double agreement = 0.00006;  // mm: half of the last decimal printed, and the sixth place's noise

struct Call {
  std::string name;
  std::vector<double> figures;
};

// "   18 N..... STRAIGHT_FEED(10.0000, 0.0000, 1.0000, 0.0000, 0.0000, 0.0000)"
std::vector<Call> calls_in(std::istream& in) {
  std::vector<Call> calls;
  for (std::string line; std::getline(in, line);) {
    const std::size_t open = line.find('('), blank = line.rfind(' ', open);
    if (open == std::string::npos || blank == std::string::npos) continue;
    Call call{line.substr(blank + 1, open - blank - 1), {}};
    for (const char* at = line.c_str() + open; *at == '(' || *at == ',';) {
      char* end = nullptr;
      const double figure = std::strtod(at + 1, &end);
      if (end == at + 1) break;
      call.figures.push_back(figure);
      at = end;
    }
    calls.push_back(call);
  }
  return calls;
}

struct Compared {
  std::size_t moves = 0;
  double greatest = 0;
  std::string fault;
};

class Comparison {
 public:
  explicit Comparison(const std::vector<Stroke>& strokes) : strokes_(strokes) {}

  Compared with(const std::vector<Call>& calls) {
    bool ended = false;
    for (const Call& call : calls) {
      if (call.name == "SET_FEED_RATE") feed_ = call.figures.at(0);
      if (call.name == "PROGRAM_END") ended = true;
      if (call.name != "STRAIGHT_TRAVERSE" && call.name != "STRAIGHT_FEED" && call.name != "ARC_FEED")
        continue;
      if (compared_.moves == strokes_.size()) return fault("a move that our reader does not know");
      take(call, strokes_[compared_.moves]);
      if (!compared_.fault.empty()) return compared_;
      ++compared_.moves;
    }
    if (!ended) return fault("the interpreter did not come to the end");
    if (compared_.moves < strokes_.size()) return fault("a move that the interpreter does not make");
    return compared_;
  }

 private:
  void take(const Call& call, const Stroke& stroke) {
    const std::string wanted = stroke.motion == Motion::rapid  ? "STRAIGHT_TRAVERSE"
                               : stroke.motion == Motion::feed ? "STRAIGHT_FEED"
                                                               : "ARC_FEED";
    if (call.name != wanted) return void(fault("another kind of move: " + call.name));
    if (stroke.motion != Motion::rapid) agree(feed_, stroke.feed, "feed");
    if (wanted != "ARC_FEED") {
      agree(call.figures.at(0), stroke.x, "x");
      agree(call.figures.at(1), stroke.y, "y");
      return agree(call.figures.at(2), stroke.z, "z");
    }
    agree(call.figures.at(0), stroke.x, "x");
    agree(call.figures.at(1), stroke.y, "y");
    agree(call.figures.at(2), stroke.cx, "the centre's x");
    agree(call.figures.at(3), stroke.cy, "the centre's y");
    agree(call.figures.at(4), stroke.motion == Motion::counterclockwise ? 1 : -1, "the sense");
    agree(call.figures.at(5), stroke.z, "z");
  }

  void agree(double theirs, double ours, const std::string& what) {
    compared_.greatest = std::max(compared_.greatest, std::abs(theirs - ours));
    if (std::abs(theirs - ours) <= agreement) return;
    fault(what + " is " + std::to_string(theirs) + " there and " + std::to_string(ours) + " here");
  }

  const Compared& fault(const std::string& what) {
    if (!compared_.fault.empty()) return compared_;
    const std::string line =
        compared_.moves < strokes_.size() ? std::to_string(strokes_[compared_.moves].line) : "the end";
    compared_.fault = "line " + line + ": " + what;
    return compared_;
  }

  const std::vector<Stroke>& strokes_;
  Compared compared_;
  double feed_ = 0;
};

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::cerr << "usage: compare_moves PROGRAM.ngc CANONICAL\n";
    return 2;
  }
  std::ifstream program_file(words[1], std::ios::binary), canonical(words[2]);
  const std::string text{std::istreambuf_iterator<char>(program_file), {}};
  const auto program = simulation::read_program(text, words[1]);
  if (!program) {
    std::cerr << program.fault().line() << "\n";
    return 1;
  }
  const Compared compared = Comparison(program->strokes).with(calls_in(canonical));
  if (!compared.fault.empty()) {
    std::cerr << words[1] << ": " << compared.fault << "\n";
    return 1;
  }
  std::cout << words[1] << ": " << compared.moves << " moves, at most " << compared.greatest << " mm apart\n";
  return compared.moves > 0 ? 0 : 1;
}
