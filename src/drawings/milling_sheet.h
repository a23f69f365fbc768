#pragma once
// Drawings for the milling bench: the glue-up sheet, the drilling template, the picture of path and result.
// All take plain figures; nothing is computed about milling here.
//
// Millimetres. Seen from above x runs to the centre front (angle 0, the machine's X), y to its left; angles
// are counter-clockwise. All is drawn in greys, told apart by weight, dashes, hatching and words. Same
// figures, same bytes. Texts may hold anything: control characters and broken UTF-8 are written as \xNN, what
// is too long is wrapped or cut short. Figures must be finite.

#include <string>
#include <vector>

#include "drawings/paper.h"
#include "meridian/chain.h"

namespace crownwright::drawings {

struct GlueSlab {
  std::string name;            ///< "tier 1"
  double bottom = 0, top = 0;  ///< form z
  bool flipped = false;        ///< milled upside down
};
struct GlueDowel {
  double x = 0, y = 0, diameter = 0;  ///< seen from above in the form's place
  double bottom = 0, top = 0;
};
/// The form's section to scale with its slabs, glue lines and dowels, dimensions; the view
/// from above with the dowels (their angles and radii in words); the list of pieces to saw with their sizes
/// and how each lies on the machine; the steps of gluing; the notes. A glue line that the cutter meets is
/// marked; what it asks for, and the cautions against dust and cutter, are the notes' to say. The sheet adds
/// those of saw and glue alone. Where the cutter meets glue
/// lines the sheets are taken to be glued into one lump first (the uppermost may stand above the form; one
/// slab with such glue lines is drawn as its sheets); without, each piece is cut and then glued.
struct GlueUp {
  std::string title;
  meridian::Chain outer;        ///< pole to foot
  std::vector<GlueSlab> slabs;  ///< from the tip
  std::vector<GlueDowel> dowels;
  double sheet = 0, side_x = 0, side_y = 0;
  int sheets = 0;
  std::vector<double> glue_lines_met;  ///< form z of glue lines that the cutter meets
  std::vector<std::string> notes;      ///< sentences, wrapped: warnings and cautions
};
/// As many pages as it takes.
std::string glue_up_pdf(const GlueUp& sheet, Paper paper);
/// On one sheet 210 mm wide and as high as it must be; groups "section", "sawn", "dowels", "glue-lines",
/// "outline", "plan", "dowel-marks"; words as text.
std::string glue_up_svg(const GlueUp& sheet);

/// Ring of vents that are drilled by hand.
struct VentMarks {
  double along = 0;   ///< from the tip along the surface, mm
  double radius = 0;  ///< of the ring, mm
  int count = 0;
  double apart = 0;  ///< along the girth from one to the next, mm
  double first = 0;  ///< angle of the first, degrees from the centre front
  double tilt = 0;  ///< degrees between drill and upright, its upper end away from the axis; > 90: from below
  int places = 0;   ///< even places round the ring, `apart` from each other, where more than holes: those at
                    ///< seams are left out; 0: as many as holes
};
/// At true size: a strip that is laid from the tip down over the crown, with a mark at each ring, and one
/// table of rings (count, distance apart round the girth, tilt); tiled over pages where longer than one, with
/// a control square of 50 mm. `holes`: flat plan of holes in a level face, x and y, for dowel holes made by
/// hand.
struct DrillTemplate {
  std::string title;
  double vent_diameter = 0;
  std::vector<VentMarks> rings;
  struct Hole {
    double x = 0, y = 0;  ///< as seen by who looks at the face: x to the right, to the centre front, y up
    double diameter = 0, depth = 0;  ///< depth 0: through
  };
  std::string face;  ///< "tier 1, seen from its wide face"
  double face_radius = 0;
  std::vector<Hole> holes;
  std::vector<std::string> notes;
};
/// Throws std::logic_error for a strip or a face of more than 400 pages.
std::string drill_template_pdf(const DrillTemplate& plan, Paper paper);

/// Path from above and from the side on the left, the result on the right: each cell's deviation as light and
/// dark with a scale of figures (readable in grey print), what is cut too deep hatched or ringed.
struct CutPicture {
  std::string title, subtitle;
  meridian::Chain target;                         ///< piece coordinates
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0, z1 = 0;  ///< stock
  struct At {
    double x = 0, y = 0, z = 0;
  };
  struct Line {
    std::vector<At> points;
    bool rapid = false;
    int program = 0;  ///< 0, 1, ...: told apart by stroke
  };
  std::vector<Line> lines;
  std::vector<std::string> programs;  ///< their names, for the legend
  int columns = 0, rows = 0;          ///< of the cells from (x0, y0)
  const std::vector<float>* deviation = nullptr;
  double scallop = 0.05;
  double gouge = 0.02;      ///< deepest cut into the form that passes
  double rest_more = 0.01;  ///< what may stand beyond the scallop
};
/// 1782 x 1260 pixels, A4 lying at six pixels a millimetre. Without a map the path alone. Throws
/// std::logic_error for a map that has not columns * rows cells or no stock to lie on.
std::string cut_picture_png(const CutPicture& picture);

}  // namespace crownwright::drawings
