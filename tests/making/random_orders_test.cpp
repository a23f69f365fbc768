// Random orders over the whole legal range of every key: each is made, with its proof, or refused with what
// is allowed; nothing in between. What is made measures what was ordered, judged as error / tolerance <= 1.
//   CW_ORDERS   how many (default 2,000; 150 under the address sanitizer)
//   CW_SEED     other orders
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <mutex>
#include <numbers>
#include <optional>
#include <set>
#include <thread>

#include "files/temp_folder.h"
#include "making/form.h"
#include "making/orders.h"
#include "meridian/beret.h"
#include "mesh/density.h"
#include "support/light.h"
#include "support/random_order.h"
#include "support/seed.h"

namespace crownwright::making {
namespace {

using test::WrittenOrder;

using std::numbers::pi;

struct Scale {
  int orders;
  double usual_facets, large_facets;
  double most_too_large;  ///< the share of orders that may be left out as too large
};
constexpr Scale kFull{2000, 150'000, 1'500'000, 0.03};
/// More orders are too large when so few facets are allowed.
constexpr Scale kLight{150, 20'000, 100'000, 0.15};
const Scale& scale() { return test::light() ? kLight : kFull; }
/// One order in this many may be as large as large_facets, one in ten times as many larger.
constexpr std::uint64_t kLargeEvery = 40;

int order_count() {
  const char* given = std::getenv("CW_ORDERS");
  if (given == nullptr) return scale().orders;
  int count = 0;
  const std::string_view text(given);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
  if (error != std::errc() || end != text.data() + text.size() || count < 1)
    throw std::runtime_error("CW_ORDERS is not a whole number above 0: " + std::string(text));
  return count;
}

/// What a mesh of this solid takes, roughly: twice the patches of the greatest allowed steps, and what
/// surrounds the vents.
double facets_expected(const solid::Solid& solid, double tolerance) {
  double sum = 0;
  const double budget = mesh::chord_budget(tolerance);
  for (const solid::Shell& shell : solid.shells) {
    for (const meridian::Segment& segment : shell.walk) {
      for (int k = 0; k < 8; ++k) {
        const double local = segment.length() * (k + 0.5) / 8;
        const mesh::Steps steps = mesh::steps_at(segment, local, budget);
        const double r = segment.at(local).r, length = segment.length() / 8;
        sum += 2 * std::max(1.0 / 8, length / steps.along) * std::max(6.0, 2 * pi * r / steps.across);
      }
    }
  }
  const double sides = std::max(8.0, pi / std::acos(1 - std::min(0.5, budget / solid.vent.mouth())));
  return sum + solid.vent_count() * 16 * sides;
}

/// Coarser until the mesh is of a size that many orders can have; nothing when even 0.5 mm does not do.
bool made_small(order::Order& order, WrittenOrder& written, double facets) {
  const auto solid = plan_solid(order, test::own_profiles());
  if (!solid) return true;
  double tolerance = order.mesh.chord_tolerance.mm();
  while (facets_expected(*solid, tolerance) > facets && tolerance < 0.5)
    tolerance = std::min(0.5, 1.5 * tolerance);
  if (tolerance != order.mesh.chord_tolerance.mm()) {
    order.mesh.chord_tolerance = Length::from_mm(tolerance);
    written["mesh.chord_tolerance"] = "\"" + number_text(tolerance, 6) + " mm\"";
  }
  return facets_expected(*solid, tolerance) <= 4 * facets;
}

// ---- what was tried ------------------------------------------------------------------------------

const char* const kCorners[] = {"edge tighter than the wall",
                                "sharp edge",
                                "flat tip",
                                "huge dome",
                                "one vent",
                                "2,000 vents or more",
                                "vents that nearly touch",
                                "tolerance 0.002 mm",
                                "no collar",
                                "groove as deep as it is half wide",
                                "collar without a spare tenth",
                                "flange",
                                "floor with socket",
                                "floor without socket",
                                "solid block",
                                "solid with socket",
                                "flat pad",
                                "pad on a dish",
                                "pad with vents",
                                "dish from a mesh",
                                "panel lengths",
                                "3 panels",
                                "48 panels",
                                "child's head",
                                "head beyond all",
                                "before steam",
                                "at the cloth's middle",
                                "round foot edge",
                                "chamfered rim"};

void add_corners(const Form& form, std::set<std::string>& corners) {
  const order::Order& o = form.order;
  const bool pad = o.form.kind == order::FormKind::pad, solid = !o.form.wall;
  const auto mark = [&](bool is, const char* name) {
    if (is) corners.insert(name);
  };
  const FormFigures& f = form.figures;
  mark(!pad && !solid && f.edge_radius < o.form.wall->mm(), "edge tighter than the wall");
  mark(f.edge_radius == 0, "sharp edge");
  mark(f.dome == 0, "flat tip");
  mark(f.dome > 0.2 * f.crown_diameter, "huge dome");
  mark(form.vents.count == 1, "one vent");
  mark(form.vents.count >= 2000, "2,000 vents or more");
  mark(form.vents.count > 1 && o.vents->spacing.mm() - o.vents->diameter.mm() - 2 * o.vents->rim.mm() < 0.41,
       "vents that nearly touch");
  mark(o.mesh.chord_tolerance.mm() < 0.0021, "tolerance 0.002 mm");
  mark(!pad && o.form.collar.mm() == 0, "no collar");
  mark(o.form.groove_width && o.form.groove_depth->mm() > o.form.groove_width->mm() / 2 - 0.001,
       "groove as deep as it is half wide");
  double need = 0;
  if (o.form.groove_width) need += 1 + o.form.groove_width->mm();
  need += o.form.flange_width ? o.form.flange_thickness->mm() : o.form.foot_edge_size.mm();
  mark((o.form.groove_width || o.form.flange_width) && o.form.collar.mm() < need + 0.1,
       "collar without a spare tenth");
  mark(o.form.flange_width.has_value(), "flange");
  mark(o.form.floor && o.form.socket, "floor with socket");
  mark(o.form.floor && !o.form.socket, "floor without socket");
  mark(!pad && solid, "solid block");
  mark(!pad && solid && o.form.socket, "solid with socket");
  mark(pad && !o.dish, "flat pad");
  mark(pad && o.dish, "pad on a dish");
  mark(pad && form.vents.count > 0, "pad with vents");
  mark(pad && o.dish && !o.dish->file.empty(), "dish from a mesh");
  mark(o.panel_lengths.has_value(), "panel lengths");
  mark(form.vents.count > 0 && o.pattern.panels == 3, "3 panels");
  mark(form.vents.count > 0 && o.pattern.panels == 48, "48 panels");
  mark(!pad && o.measure.head_girth->mm() < 500, "child's head");
  mark(!pad && o.measure.head_girth->mm() > 660, "head beyond all");
  mark(o.measure.before_steam && f.heat_shrink > 0, "before steam");
  mark(o.measure.taken_at == order::TakenAt::cloth_middle && f.moved_inward > 0, "at the cloth's middle");
  mark(o.form.foot_edge == order::FootEdge::round && o.form.foot_edge_size.mm() > 0 && o.form.collar.mm() > 0,
       "round foot edge");
  mark(form.vents.count > 0 && o.vents->rim_style == order::RimStyle::chamfer && o.vents->rim.mm() > 0,
       "chamfered rim");
}

/// Patterns that are drawn already and runs of sizes replace the figures that these orders are about. A drawn
/// pattern must go with itself to be more than a refusal; round trips of drafted ones are tried at random in
/// tests/pattern, the words of an order in tests/order. A run of sizes is the same form with other figures.
const char* const kTriedElsewhere[] = {"pattern.kind",
                                       "pattern.includes_allowance",
                                       "pattern.stations",
                                       "pattern.file",
                                       "pattern.layer",
                                       "pattern.fold",
                                       "pattern.drawing_unit",
                                       "pattern.top_diameter",
                                       "pattern.ring_diameter",
                                       "pattern.ring_opening",
                                       "sizes.list",
                                       "sizes.hat_sizes",
                                       "sizes.smaller",
                                       "sizes.larger",
                                       "sizes.head_step",
                                       "sizes.crown_step",
                                       "sizes.rise_step",
                                       "print.printer"};

// What is milled has random orders of its own: milled_test.cpp.
bool is_tried_elsewhere(const std::string& path) {
  if (path.starts_with("mill.")) return true;
  return std::find(std::begin(kTriedElsewhere), std::end(kTriedElsewhere), path) != std::end(kTriedElsewhere);
}

struct Tally {
  int made = 0, refused_as_order = 0, impossible = 0, too_large = 0;
  std::map<std::string, int> corners;
  std::map<std::string, int> keys;
  std::size_t facets = 0;
  double slowest = 0;
  std::string slowest_order;
  std::map<std::string, double> worst;  ///< error / tolerance
};

/// How far the edge of a vent at the tip lies below the tip: the tip itself is cut away with it.
double tip_cut_away(const Form& form) {
  const FormFigures& f = form.figures;
  if (!form.solid.pole_vent || f.dome == 0) return 0;
  const double a = f.crown_diameter / 2, angle = meridian::tip_angle(a, f.dome, f.edge_radius);
  const double radius = (a - f.edge_radius * (1 - std::sin(angle))) / std::sin(angle),
               mouth = form.solid.vent.mouth();
  return radius - std::sqrt(radius * radius - mouth * mouth);
}

/// What is wrong with the form of an order; empty when nothing is.
std::string complaint(const Form& form, std::map<std::string, double>& worst) {
  std::string text;
  const auto judge = [&](const std::string& name, double measured, double ordered, double tolerance) {
    const double ratio = std::abs(measured - ordered) / tolerance;
    worst[name] = std::max(worst[name], ratio);
    if (!(ratio <= 1))
      text += name + " measures " + number_text(measured, 6) + " mm of " + number_text(ordered, 6) + "; ";
  };
  const order::Order& o = form.order;
  const double tolerance = o.mesh.chord_tolerance.mm();
  const proof::Readings& r = form.proven.readings();
  // Straight from the order: what shrinks and what the cloth takes off.
  const bool pad = o.form.kind == order::FormKind::pad;
  const double keep = 1 - form.figures.heat_shrink, d = form.figures.moved_inward;
  judge("crown diameter", r.crown_diameter, o.measure.crown_diameter->mm() * keep - 2 * d, 2 * tolerance);
  if (!pad)
    judge("head girth", r.head_girth.value_or(0), o.measure.head_girth->mm() * keep - 2 * pi * d,
          2 * pi * tolerance);
  const double cut = tip_cut_away(form);
  judge("rise", r.rise + cut, form.figures.rise, tolerance);
  if (pad || (o.measure.rise && d == 0))
    judge("ordered rise", r.rise + cut, o.measure.rise->mm() * (pad ? 1 : keep), tolerance);
  if (!pad && o.form.wall) judge("wall", r.wall_min.value_or(0), o.form.wall->mm(), tolerance);
  judge("chord", r.chord_error_max, 0, tolerance);
  if (!form.proven.verdict().passed()) text += "the verdict is not passed; ";
  return text;
}

class Trials {
 public:
  Trials(int count, std::string folder) : count_(count), folder_(std::move(folder)) {}

  void run() {
    const auto work = [this] {
      for (int i; (i = next_++) < count_;) try_one(static_cast<std::uint64_t>(i));
    };
    std::thread second(work);
    work();
    second.join();
  }
  const Tally& tally() const { return tally_; }

 private:
  void fail(const std::string& what, const WrittenOrder& written) {
    const std::lock_guard lock(mutex_);
    ADD_FAILURE() << what << "\nKeep it as a case in tests/cases/forms:\n" << test::toml_of(written);
  }

  void try_one(std::uint64_t index) {
    WrittenOrder written = test::OrderMaker(test::seed(), index).make();
    try {
      try_order(index, written);
    } catch (const std::exception& e) {
      fail(std::string("an exception came out: ") + e.what(), written);
    }
  }

  void try_order(std::uint64_t index, WrittenOrder& written) {
    auto order = order::read_order_text(test::toml_of(written), folder_ + "/random.toml");
    if (!order) return refused(order.fault(), written);
    const double facets = index % kLargeEvery == 0 ? scale().large_facets : scale().usual_facets;
    if (!made_small(*order, written, facets) && index % (10 * kLargeEvery) != 0) {
      const std::lock_guard lock(mutex_);
      ++tally_.too_large;
      return;
    }
    const auto start = std::chrono::steady_clock::now();
    const auto form = make_form(*order, test::own_profiles());
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    if (form) {
      made(*form, written, seconds);
    } else {
      refused(form.fault(), written);
    }
  }

  void refused(const Fault& fault, const WrittenOrder& written) {
    const bool is_order = fault.exit == ExitCode::order;
    if (!is_order && fault.exit != ExitCode::impossible)
      return fail("neither made nor refused: " + fault.line(), written);
    if (fault.what.empty() || fault.allowed.empty())
      return fail("refused without saying what is allowed: " + fault.line(), written);
    const std::lock_guard lock(mutex_);
    ++(is_order ? tally_.refused_as_order : tally_.impossible);
  }

  void made(const Form& form, const WrittenOrder& written, double seconds) {
    std::map<std::string, double> worst;
    if (const std::string wrong = complaint(form, worst); !wrong.empty()) fail(wrong, written);
    std::set<std::string> corners;
    add_corners(form, corners);
    const std::lock_guard lock(mutex_);
    ++tally_.made;
    tally_.facets += form.proven.mesh().triangles.size();
    for (const auto& corner : corners) ++tally_.corners[corner];
    for (const auto& [key, value] : written) ++tally_.keys[key];
    for (const auto& [name, ratio] : worst) tally_.worst[name] = std::max(tally_.worst[name], ratio);
    if (seconds > tally_.slowest) {
      tally_.slowest = seconds;
      tally_.slowest_order = test::toml_of(written);
    }
  }

  int count_;
  std::string folder_;
  std::atomic<int> next_ = 0;
  std::mutex mutex_;
  Tally tally_;
};

/// An ASCII STL of a bowl z = 20 (r / 160)^2 with 36 x 8 facets a side.
std::string bowl() {
  std::string text = "solid bowl\n";
  const auto corner = [&](int ring, int k) {
    const double r = 20.0 * ring, angle = 2 * pi * k / 36;
    text += "vertex " + number_text(r * std::cos(angle), 5) + " " + number_text(r * std::sin(angle), 5) +
            " " + number_text(20 * r * r / (160.0 * 160), 5) + "\n";
  };
  const auto facet = [&](std::pair<int, int> a, std::pair<int, int> b, std::pair<int, int> c) {
    text += "facet normal 0 0 0\nouter loop\n";
    for (const auto& [ring, k] : {a, b, c}) corner(ring, k);
    text += "endloop\nendfacet\n";
  };
  for (int k = 0; k < 36; ++k) {
    facet({0, 0}, {1, k}, {1, k + 1});
    for (int ring = 1; ring < 8; ++ring) {
      facet({ring, k}, {ring + 1, k}, {ring + 1, k + 1});
      facet({ring, k}, {ring + 1, k + 1}, {ring, k + 1});
    }
  }
  return text + "endsolid bowl\n";
}

void print(const Tally& t) {
  std::cout << t.made << " made, " << t.impossible << " refused as impossible, " << t.refused_as_order
            << " refused as orders, " << t.too_large << " left out as too large; " << t.facets
            << " facets; slowest " << number_text(t.slowest) << " s:\n"
            << t.slowest_order << "worst error / tolerance:";
  for (const auto& [name, ratio] : t.worst) std::cout << " " << name << " " << number_text(ratio, 3);
  std::cout << "\nmade with";
  for (const char* corner : kCorners) {
    const auto at = t.corners.find(corner);
    std::cout << " " << corner << " " << (at == t.corners.end() ? 0 : at->second) << ",";
  }
  std::cout << "\n";
}

TEST(RandomOrders, AreProvedOrRefusedWithWhatIsAllowed) {
  SCOPED_TRACE(test::seed_note());
  const int count = order_count();
  std::cout << count << " random orders; " << test::seed_note() << "\n";
  const test::TempFolder folder;
  folder.put("dish.stl", bowl());
  Trials trials(count, folder.path());
  trials.run();
  const Tally& t = trials.tally();
  print(t);
  EXPECT_GE(t.made, 0.4 * count);
  EXPECT_LE(t.too_large, scale().most_too_large * count);
  if (count < 2000) return;
  for (const char* corner : kCorners) {
    const auto at = t.corners.find(corner);
    EXPECT_GE(at == t.corners.end() ? 0 : at->second, 3) << corner;
  }
  for (const order::Key& key : order::all_keys())
    EXPECT_NE(t.keys.contains(key.path()), is_tried_elsewhere(key.path())) << key.path();
}

// ---- orders that once failed ----------------------------------------------------------------------

TEST(NamedForms, AreProvedOrRefusedWithWhatIsAllowed) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(CW_TEST_DIR "/cases/forms"))
    paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  EXPECT_GE(paths.size(), 5u);
  for (const auto& path : paths) {
    SCOPED_TRACE(path.filename().string());
    const auto order = order::read_order_file(path.string());
    ASSERT_TRUE(order) << order.fault().line();
    const auto form = make_form(*order, test::own_profiles());
    std::map<std::string, double> worst;
    if (form) {
      EXPECT_EQ(complaint(*form, worst), "");
    } else {
      EXPECT_EQ(form.fault().exit, ExitCode::impossible) << form.fault().line();
      EXPECT_FALSE(form.fault().allowed.empty());
    }
  }
}

}  // namespace
}  // namespace crownwright::making
