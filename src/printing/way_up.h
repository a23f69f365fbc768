#pragma once
// Which way up a part is best printed.

#include <optional>
#include <string>
#include <vector>

#include "printing/bed.h"

namespace crownwright::printing {

/// A face the part could stand on, by its outward normal in the part's own frame.
struct DownFace {
  std::string name;        ///< "foot down", "crown down", "joint 1 down"
  mesh::Point3 direction;  ///< of any length; points down when printed
};

/// Foot down (as the part stands) and crown down.
std::vector<DownFace> foot_and_crown();

/// The plane faces on which the part can be laid, foot and crown left out: at least `least_share` of the
/// whole area in one plane with all else on one side of it; at most 12, largest first, named "plane face 1",
/// ...
std::vector<DownFace> plane_faces(const mesh::TriangleMesh& mesh, double least_share = 0.005);

struct WayUp {
  std::string name;
  mesh::Placement
      placement;  ///< part's own frame to the bed: inside its margins, or at its corner if too large; z = 0
  double width = 0, depth = 0, height = 0;
  bool fits = false;
  bool stands = false;
  double overhang_area = 0;
  double first_layer_area = 0;
};

/// Each way judged, in the order of the faces. Foot down the placement is the part's own but for turn and
/// move. Precondition: closed mesh, directions not zero (else std::logic_error).
std::vector<WayUp> ways_up(const mesh::TriangleMesh& mesh, const std::vector<DownFace>& faces,
                           const Bed& bed);

/// Number of the one to take: that fits, then that stands, then with the least overhang (to 1 mm2), then with
/// the larger first layer, then the earlier. Nothing when none fits and stands.
std::optional<std::size_t> best_way_up(const std::vector<WayUp>& ways);

}  // namespace crownwright::printing
