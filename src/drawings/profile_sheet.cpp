#include "drawings/profile_sheet.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/sheet.h"

namespace crownwright::drawings {
namespace {

using meridian::Point;
using meridian::Segment;
using pattern::Vec2;

constexpr double station_step = 10;  // mm of height
constexpr double words_size = 3;
constexpr double small_words = 2.6;
constexpr double first_row = 14, row_step = 10;        // mm below the foot
constexpr double first_column = 24, column_step = 12;  // mm beyond the widest place

std::string diameter(double radius) { return std::string("Ø ").append(number_text(2 * radius, 1)); }

/// The figures of a profile, found on it.
struct ProfileFigures {
  double height = 0, widest = 0, widest_at = 0, foot = 0;
  std::optional<double> head_line, head;
};

ProfileFigures figures_of(const ProfilePlan& plan) {
  ProfileFigures f;
  const auto look = [&](Point p) {
    f.height = std::max(f.height, p.z);
    if (p.r > f.widest + 1e-9) f.widest = p.r, f.widest_at = p.z;
    if (std::abs(p.z) < 1e-9) f.foot = std::max(f.foot, p.r);
  };
  for (const Segment& segment : plan.face) {
    look(segment.from());
    look(segment.to());
    // An arc's widest place, where it has one within.
    if (segment.is_arc())
      look(segment.at(segment.nearest({segment.centre().r + segment.radius(), segment.centre().z})));
  }
  f.head_line = plan.head_line;
  if (f.head_line) f.head = profile_radius(plan.face, *f.head_line);
  return f;
}

class ProfileSheetMaker {
 public:
  explicit ProfileSheetMaker(const ProfilePlan& plan) : plan_(plan), f_(figures_of(plan)) {}

  ProfileSheet make() {
    axis();
    stations();
    diameters();
    heights();
    for (const Segment& segment : plan_.face) {
      if (segment.is_arc()) arc_radius(segment);
    }
    title();
    bounds();
    return std::move(sheet_);
  }

 private:
  void line(Vec2 from, Vec2 to, ProfileStroke stroke = ProfileStroke::dimension) {
    sheet_.lines.push_back({from, to, stroke});
  }
  void words(Vec2 at, const std::string& text, WordsFrom from = WordsFrom::start, double size = words_size,
             bool upright = false, bool bold = false) {
    sheet_.words.push_back({at, size, from, upright, bold, text});
  }
  // An oblique stroke at the end of a dimension line.
  void tick(Vec2 at) { line(at - Vec2{1, 1}, at + Vec2{1, 1}); }

  void axis() { line({0, -4}, {0, f_.height + 8}, ProfileStroke::axis); }

  // A level line every 10 mm from the axis to the profile, and beside the axis its height, radius and
  // diameter.
  void stations() {
    constexpr double height_at = -42, radius_at = -24, diameter_at = -4;
    words({height_at, f_.height + 6}, "height", WordsFrom::end, small_words);
    words({radius_at, f_.height + 6}, "radius", WordsFrom::end, small_words);
    words({diameter_at, f_.height + 6}, "diameter", WordsFrom::end, small_words);
    for (int k = 0; k * station_step < f_.height - 1e-9; ++k) {
      const double z = k * station_step, r = profile_radius(plan_.face, z);
      if (k > 0) line({0, z}, {r, z}, ProfileStroke::station);
      if (f_.height - z < 3.2) continue;  // no room below the head of the table
      words({height_at, z}, number_text(z, 1), WordsFrom::end);
      words({radius_at, z}, number_text(r, 2), WordsFrom::end);
      words({diameter_at, z}, number_text(2 * r, 1), WordsFrom::end);
    }
  }

  // From the axis outwards, one below the other.
  void diameters() {
    double y = -first_row;
    const auto row = [&](double r, double from_z, const std::string& says) {
      line({0, y}, {r, y});
      tick({r, y});
      line({r, from_z - 1}, {r, y - 2});
      words({r / 2, y + 2.4}, says, WordsFrom::middle);
      y -= row_step;
    };
    if (f_.head)
      row(*f_.head, 0,
          std::string("head line ")
              .append(diameter(*f_.head))
              .append(", girth ")
              .append(number_text(2 * pi * *f_.head, 1)));
    if (f_.foot > 0 && (!f_.head || std::abs(f_.foot - *f_.head) > 0.05))
      row(f_.foot, 0, std::string("foot ").append(diameter(f_.foot)));
    row(f_.widest, f_.widest_at,
        std::string("crown ")
            .append(diameter(f_.widest))
            .append(", radius ")
            .append(number_text(f_.widest, 2)));
    line({0, -5}, {0, y + row_step - 2});
    below_ = y;
  }

  // Beside the profile, from the inmost out.
  void heights() {
    double x = f_.widest + first_column;
    const auto span = [&](double from, double to, const std::string& name) {
      line({x, from}, {x, to});
      tick({x, from});
      tick({x, to});
      const std::string full = std::string(name).append(" ").append(number_text(to - from, 2));
      const bool fits = text_width(full, words_size, false) < to - from - 3;
      if (fits)
        words({x - 2.4, (from + to) / 2}, full, WordsFrom::middle, words_size, true);
      else
        words({x - 2, (from + to) / 2}, full, WordsFrom::end);
    };
    const auto reach = [&](double from_x, double z) { line({from_x, z}, {x + 2, z}); };
    if (f_.head_line) {
      if (*f_.head_line > 0) span(0, *f_.head_line, "collar");
      span(*f_.head_line, f_.height, "rise");
      reach(*f_.head + 2, *f_.head_line);
      x += column_step;
    }
    if (f_.widest_at > 0) {
      span(0, f_.widest_at, "widest");
      reach(f_.widest + 2, f_.widest_at);
      x += column_step;
    }
    span(0, f_.height, "height");
    reach(f_.foot + 2, 0);
    reach(3, f_.height);
    right_ = x + 6;
  }

  // On a short line square to the arc's middle, outside.
  void arc_radius(const Segment& arc) {
    const Point on = arc.at(arc.length() / 2), out = arc.normal_at(arc.length() / 2);
    const Vec2 at{on.r, on.z}, normal{out.r, out.z};
    const Vec2 end = at + 7 * normal;
    line(at, end);
    const bool steep = std::abs(normal.y) > 0.9;
    words(end + Vec2{steep ? 0 : std::copysign(1.2, normal.x), std::copysign(steep ? 2.2 : 0.5, normal.y)},
          std::string("R ").append(number_text(arc.radius(), 2)),
          steep          ? WordsFrom::middle
          : normal.x < 0 ? WordsFrom::end
                         : WordsFrom::start);
  }

  void title() {
    double y = below_ - 6;
    words({left, y}, plan_.title, WordsFrom::start, 5, false, true);
    std::string what = "Half profile at true size (1:1), millimetres; turned about the axis.";
    if (!plan_.wall.empty())
      what.append(" As ordered: ").append(plan_.wall).append("; drawn is the outside.");
    for (const std::string& text :
         {what,
          std::string(
              "Stations every 10 mm from the foot: set the calipers to the diameters beside the axis."),
          std::string("R is the radius of an arc. Lines and arcs meet at the ends drawn."),
          std::string("Lathe: face shield, no gloves, no loose sleeves or hair; let glue harden fully. Dust: "
                      "mask and "
                      "extraction."),
          std::string("Go by the data sheets of the lathe, the wood or board, and the glue.")}) {
      y -= 5;
      words({left, y}, text, WordsFrom::start, small_words);
    }
    scale({left, y - 10});
  }

  // 100 mm to hold a ruler against.
  void scale(Vec2 at) {
    line(at, at + Vec2{100, 0});
    for (int i = 0; i <= 10; ++i) line(at + Vec2{10.0 * i, 0}, at + Vec2{10.0 * i, i % 5 == 0 ? 4.0 : 2.0});
    words(at + Vec2{104, 0.5}, "100 mm: print at 100 % and measure", WordsFrom::start, small_words);
    below_ = at.y;
  }

  void bounds() {
    sheet_.low = {left - 2, below_ - 4};
    sheet_.high = {right_, f_.height + 14};
    for (const ProfileWords& one : sheet_.words) {
      if (one.upright) continue;
      const double width = text_width(one.text, one.size, one.bold);
      const double start = one.from == WordsFrom::start ? one.at.x
                           : one.from == WordsFrom::end ? one.at.x - width
                                                        : one.at.x - width / 2;
      sheet_.low.x = std::min(sheet_.low.x, start);
      sheet_.high.x = std::max(sheet_.high.x, start + width);
    }
  }

  static constexpr double left = -58;
  const ProfilePlan& plan_;
  ProfileFigures f_;
  ProfileSheet sheet_;
  double below_ = 0, right_ = 0;
};

}  // namespace

ProfileSheet profile_sheet(const ProfilePlan& plan) { return ProfileSheetMaker(plan).make(); }

}  // namespace crownwright::drawings
