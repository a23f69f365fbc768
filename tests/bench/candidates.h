#pragma once
// What is timed. prepare() comes before each pass and is not timed.

#include <cstddef>
#include <memory>
#include <string>

#include "bench/work.h"

namespace crownwright::bench {

class Candidate {
 public:
  virtual ~Candidate() = default;
  virtual void prepare() {}
  virtual void pass() = 0;
  virtual std::size_t triangles() const = 0;
};

struct CandidateInput {
  Work work;
  double shell_tolerance = 0;       ///< of the shell that corefinement gets
  std::size_t plain_triangles = 0;  ///< of the plain grid
  std::string path;                 ///< STL to write
};

/// - "order": an order in memory to its STL on disk, proof apart
/// - "mesh": an order in memory to its mesh in memory
/// - "page preview": an order in memory to all that the page shows while its figures change, proof apart
/// - "chain": the same from the three-arc meridian
/// - "corefined": shell and cylinders in memory to the STL on disk
/// - "grid": plain grid to disk
/// - "proof": the proof of a made mesh
/// - "plain test": CGAL's test of the same mesh for crossing facets
/// Throws std::logic_error for another name.
std::unique_ptr<Candidate> make_candidate(const std::string& name, const CandidateInput& input);

}  // namespace crownwright::bench
