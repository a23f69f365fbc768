#include "making/preview.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "making/draft.h"
#include "making/form_posts.h"
#include "making/marks_of.h"
#include "making/mill_job.h"
#include "making/stack_files.h"
#include "mesh/mesher.h"
#include "parts/posts.h"
#include "parts/sectors.h"
#include "parts/tiers.h"
#include "printing/way_up.h"
#include "workshop/printer.h"

namespace crownwright::making {
namespace {

using order::Order;
using workshop::ProfileFolder;

double tolerance_of(const Order& order) {
  return std::max(preview_tolerance, order.mesh.chord_tolerance.mm());
}

// ---- the form in one piece -------------------------------------------------------------------

// The whole form face by face takes ten times as long as row by row, so a preview shows posts as cylinders
// that end within the wall, and no engraving; both are tried, so that what is refused is refused here too.

// Highest point of the inner face at that radius; 0 where there is none.
double inner_height(const solid::Solid& solid, double r) {
  constexpr int steps = 64;
  double height = 0;
  for (const solid::Shell& shell : solid.shells)
    for (std::size_t i = 0; i < shell.walk.size(); ++i) {
      if (shell.roles[i] != solid::Role::inner) continue;
      const meridian::Segment& segment = shell.walk[i];
      meridian::Point last = segment.from();
      for (int k = 1; k <= steps; ++k) {
        const meridian::Point next = k == steps ? segment.to() : segment.at(segment.length() * k / steps);
        if (std::min(last.r, next.r) <= r && r <= std::max(last.r, next.r))
          height = std::max(height, std::max(last.z, next.z));
        last = next;
      }
    }
  return height;
}

void add_cylinder(const parts::Post& post, double low, double high, mesh::TriangleMesh& mesh) {
  constexpr std::uint32_t sides = 24;
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  for (const double z : {low, high})
    for (std::uint32_t k = 0; k < sides; ++k) {
      const double angle = 2 * std::numbers::pi * k / sides;
      mesh.vertices.push_back({static_cast<float>(post.x + post.radius * std::cos(angle)),
                               static_cast<float>(post.y + post.radius * std::sin(angle)),
                               static_cast<float>(z)});
    }
  for (std::uint32_t k = 0; k < sides; ++k) {
    const std::uint32_t a = first + k, b = first + (k + 1) % sides;
    mesh.triangles.push_back({a, b, b + sides});
    mesh.triangles.push_back({a, b + sides, a + sides});
    if (k == 0 || k + 1 == sides) continue;
    mesh.triangles.push_back({first, b, a});
    mesh.triangles.push_back({first + sides, a + sides, b + sides});
  }
}

Result<Done> check_extras(const Order& order, const solid::Solid& solid,
                          const std::vector<parts::Post>& posts) {
  const auto marks = order.puzzle ? Result(std::optional<parts::Marks>()) : marks_of(order, solid, {});
  if (!marks) return marks.fault();
  return posts.empty() ? Result(Done{}) : parts::check_posts(solid, posts);
}

Result<mesh::TriangleMesh> preview_mesh(const Order& order, const solid::Solid& solid,
                                        const std::vector<parts::Post>& posts) {
  auto built = mesh::build_mesh(solid, tolerance_of(order));
  if (!built) return built.fault();
  const double foot = order.form.floor ? order.form.floor->mm() / 2 : 0;
  for (const parts::Post& post : posts) {
    const double top = inner_height(solid, std::hypot(post.x, post.y)) + solid.wall / 2;
    add_cylinder(post, foot, top, built->mesh);
  }
  return std::move(built->mesh);
}

mesh::TriangleMesh together(const std::vector<parts::Part>& pieces) {
  mesh::TriangleMesh all;
  for (const parts::Part& piece : pieces) {
    const auto first = static_cast<std::uint32_t>(all.vertices.size());
    all.vertices.insert(all.vertices.end(), piece.mesh.vertices.begin(), piece.mesh.vertices.end());
    for (const mesh::Triangle& t : piece.mesh.triangles)
      all.triangles.push_back({first + t[0], first + t[1], first + t[2]});
  }
  return all;
}

// Of a closed mesh: the tetrahedra that its triangles make with the origin.
double volume_within(const mesh::TriangleMesh& mesh) {
  double six_times = 0;
  for (const mesh::Triangle& t : mesh.triangles) {
    const mesh::Vertex &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    const auto product = [](float u, float v) { return static_cast<double>(u) * static_cast<double>(v); };
    six_times += a.x * (product(b.y, c.z) - product(b.z, c.y)) +
                 a.y * (product(b.z, c.x) - product(b.x, c.z)) +
                 a.z * (product(b.x, c.y) - product(b.y, c.x));
  }
  return six_times / 6;
}

// As it will be made, engraving and all.
Result<mesh::TriangleMesh> true_mesh(const Order& order, const solid::Solid& solid,
                                     const std::vector<parts::Post>& posts) {
  const auto marks = marks_of(order, solid, {});
  if (!marks) return marks.fault();
  auto part = parts::form_with_posts(solid, posts, tolerance_of(order) / 2, marks->value_or(parts::Marks{}));
  if (!part) return part.fault();
  return std::move(part->mesh);
}

// ---- the bed ---------------------------------------------------------------------------------

Result<std::optional<printing::Bed>> preview_bed(const Order& order, const ProfileFolder& profiles) {
  using Found = std::optional<printing::Bed>;
  const auto bed_of_sides = [](const Length& width, const Length& depth, const Length& height) {
    printing::Bed bed;
    bed.width = width.mm();
    bed.depth = depth.mm();
    bed.height = height.mm();
    return Found(bed);
  };
  if (order.print.bed)
    return bed_of_sides(order.print.bed->width, order.print.bed->depth, order.print.bed->height);
  if (order.print.printer.empty()) return Found();
  const auto printer = workshop::find_printer(profiles, order.print.printer);
  if (!printer) return printer.fault();
  return bed_of_sides(printer->width.value, printer->depth.value, printer->height.value);
}

bool lies_on(const printing::Bed& bed, const mesh::TriangleMesh& mesh) {
  const auto ways = printing::ways_up(mesh, printing::foot_and_crown(), bed);
  return std::any_of(ways.begin(), ways.end(), [](const printing::WayUp& way) { return way.fits; });
}

bool stays_whole(const Preview& preview) {
  const bool comes_apart = preview.released && !preview.released->pieces.empty();
  return !comes_apart && preview.bed_plan.sectors * preview.bed_plan.tiers == 1;
}

// ---- verdicts --------------------------------------------------------------------------------

Result<Done> judge_release(const ProfileFolder& profiles, Preview& preview) {
  if (!preview.fit) return Done{};
  const auto limits = cloth_limits(preview.order, profiles);
  if (!limits) return limits.fault();
  ReleasedQuestion question;
  question.opening = preview.fit->opening;
  question.cloth_known = limits->has_value();
  question.stretch = *limits ? (*limits)->stretch : 0;
  question.tolerance = tolerance_of(preview.order);
  auto released = release_of(preview.order, preview.planned.solved, preview.planned.solid, question);
  if (!released) return released.fault();
  preview.released = *std::move(released);
  return Done{};
}

bool is_puzzle(const Preview& preview) { return preview.released && preview.released->pieces.size() > 2; }

// What is made, in its place: the form, or what it comes apart into.
Result<Done> show_made(const std::vector<parts::Post>& posts, Preview& preview) {
  const solid::Solid& solid = preview.planned.solid;
  preview.volume = preview.figures.volume;
  preview.shown = solid;
  if (!preview.released || preview.released->pieces.empty()) {
    auto mesh = preview_mesh(preview.order, solid, posts);
    if (!mesh) return mesh.fault();
    preview.mesh = *std::move(mesh);
    return Done{};
  }
  preview.mesh = together(preview.released->pieces);
  preview.volume = volume_within(preview.mesh);
  if (!is_puzzle(preview)) return Done{};
  auto massive = massive_block(preview.order, preview.planned);
  if (!massive) return massive.fault();
  preview.shown = *std::move(massive);
  return Done{};
}

// As making/form.cpp: the pieces of a puzzle have walls and ribs of their own, and a milled form is massive.
Result<Done> judge_press(const ProfileFolder& profiles, const std::vector<parts::Post>& posts,
                         Preview& preview) {
  if (!is_puzzle(preview) && !preview.order.mill) {
    const meridian::BeretValues& v = preview.planned.solved.form;
    const bool axis_taken = axis_is_taken(preview.order, preview.planned.solid, preview.bed_plan.sectors);
    const auto judged = judge_crown(preview.order, {v.a, v.t, v.e_u, post_spots(posts), axis_taken}, profiles,
                                    preview.pressed);
    if (!judged) return judged.fault();
  }
  const int vents = preview.released ? preview.released->vents : preview.vents.count;
  const double each = preview.vents.count > 0 ? preview.vents.open_area / preview.vents.count : 0;
  judge_vents(preview.order, vents * each, preview.pressed);
  return Done{};
}

void gather(const std::vector<std::string>& more, std::vector<std::string>& all) {
  all.insert(all.end(), more.begin(), more.end());
}

void gather_warnings(Preview& preview) {
  preview.warnings = preview.order.warnings;
  gather(planned_warnings(preview.order, preview.planned), preview.warnings);
  if (preview.fit) gather(preview.fit->warnings, preview.warnings);
  if (preview.released) gather(preview.released->warnings, preview.warnings);
  gather(preview.pressed.warnings, preview.warnings);
  if (preview.mill) gather(preview.mill->plan.warnings, preview.warnings);
}

// What is asked beside the form, in the order in which make_form tries it.
Result<Done> plan_beside(const ProfileFolder& profiles, Preview& preview) {
  const Order& order = preview.order;
  const PlannedForm& planned = preview.planned;
  if (order.draft) {
    auto pieces = draft_pieces(order, planned.solved);
    if (!pieces) return pieces.fault();
    preview.pieces = *std::move(pieces);
  }
  if (order.stack) {
    auto stack = plan_stack(order, planned.solid);
    if (!stack) return stack.fault();
    preview.stack = *std::move(stack);
  }
  auto mill = plan_mill(order, planned.solid, profiles);
  if (!mill) return mill.fault();
  preview.mill = *std::move(mill);
  auto fit = fit_of(order, planned.solved, planned.solid, profiles);
  if (!fit) return fit.fault();
  preview.fit = *std::move(fit);
  auto pressed = pressed_of(order, planned.solved.allowances.cloth_thickness, profiles);
  if (!pressed) return pressed.fault();
  preview.pressed = *std::move(pressed);
  return Done{};
}

Result<Done> plan_bed(const ProfileFolder& profiles, Preview& preview) {
  const auto bed = preview_bed(preview.order, profiles);
  if (!bed) return bed.fault();
  preview.bed = *bed;
  const auto plan = bed_plan_of(preview.order, preview.planned.solid, profiles);
  if (!plan) return plan.fault();
  preview.bed_plan = *plan;
  return Done{};
}

// ---- parts -----------------------------------------------------------------------------------

Result<std::vector<parts::Part>> bed_parts(const Preview& preview) {
  const Order& order = preview.order;
  const solid::Solid& solid = preview.planned.solid;
  parts::SplitPlan plan;
  plan.sectors = preview.bed_plan.sectors;
  plan.dowel = order.print.dowel.mm();
  plan.dowel_clearance = order.print.dowel_clearance.mm();
  plan.glue_gap = order.print.glue_gap.mm();
  if (preview.bed_plan.tiers > 1) {
    auto cuts = parts::level_cuts(solid, preview.bed_plan.tiers, preview.bed->height, plan);
    if (!cuts) return cuts.fault();
    plan.level_cuts = *std::move(cuts);
  }
  const auto marks = marks_of(order, solid, {plan.sectors, 0});
  if (!marks) return marks.fault();
  const parts::Extras extras{marks->value_or(parts::Marks{}), form_posts(order, solid, plan.sectors)};
  auto split = parts::split_form(solid, plan, tolerance_of(order), extras);
  if (!split) return split.fault();
  std::vector<parts::Part> bodies;
  for (parts::SplitPart& one : split->parts) bodies.push_back(std::move(one.part));
  return bodies;
}

mesh::Point3 unit_vector(const mesh::Point3& p) {
  const double length = std::hypot(p.x, p.y, p.z);
  return length > 0 ? mesh::Point3{p.x / length, p.y / length, p.z / length} : mesh::Point3{0, 0, 1};
}

mesh::Point3 box_middle(const mesh::TriangleMesh& mesh) {
  const mesh::Box box = mesh::box_of(mesh);
  return {(box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2, (box.low.z + box.high.z) / 2};
}

// Away from the form's middle: parts about the axis go up or down, the others outwards, too.
mesh::Point3 way_out(const mesh::TriangleMesh& part, const mesh::Box& form) {
  const mesh::Point3 middle = box_middle(part);
  const double height = form.high.z - form.low.z, width = form.high.x - form.low.x;
  const double off = middle.z - (form.high.z + form.low.z) / 2;
  const bool aside = std::hypot(middle.x, middle.y) > width / 50;
  const bool level = std::abs(off) < height / 5;
  const double rise = aside && level ? 0 : off < 0 ? -1 : 1;
  if (!aside) return {0, 0, rise};
  const mesh::Point3 outwards = unit_vector({middle.x, middle.y, 0});
  return unit_vector({outwards.x, outwards.y, rise});
}

// A key stands in the middle of its puzzle, through the whole form: it is drawn down, as it leaves.
mesh::Point3 way_out(const parts::Part& part, const mesh::Box& form) {
  if (part.name == "key" || part.name == "ring") return {0, 0, -1};
  return way_out(part.mesh, form);
}

Result<PreviewPart> whole_part(const Preview& preview) {
  const Order& order = preview.order;
  const auto posts = form_posts(order, preview.planned.solid, 1);
  if (posts.empty() && !order.marks) return PreviewPart{"form", preview.mesh, {0, 0, 1}, 1};
  auto mesh = true_mesh(order, preview.planned.solid, posts);
  if (!mesh) return mesh.fault();
  return PreviewPart{"form", *std::move(mesh), {0, 0, 1}, 1};
}

}  // namespace

Result<Preview> make_preview(const Order& order, const ProfileFolder& profiles) {
  auto planned = planned_form(order, profiles);
  if (!planned) return planned.fault();
  Preview preview;
  preview.order = order;
  preview.planned = *std::move(planned);
  preview.figures = planned_figures(order, preview.planned);
  preview.vents = planned_vents(preview.planned.solid);
  if (const auto done = plan_beside(profiles, preview); !done) return done.fault();
  if (const auto done = plan_bed(profiles, preview); !done) return done.fault();
  const auto posts = form_posts(order, preview.planned.solid, preview.bed_plan.sectors);
  if (const auto done = check_extras(order, preview.planned.solid, posts); !done) return done.fault();
  if (const auto done = judge_release(profiles, preview); !done) return done.fault();
  if (const auto done = show_made(posts, preview); !done) return done.fault();
  auto material = planned_material(order, preview.volume, profiles);
  if (!material) return material.fault();
  preview.material = *std::move(material);
  if (preview.bed && stays_whole(preview)) preview.fits_bed = lies_on(*preview.bed, preview.mesh);
  if (const auto done = judge_press(profiles, posts, preview); !done) return done.fault();
  gather_warnings(preview);
  return preview;
}

Result<std::vector<PreviewPart>> preview_parts(const Preview& preview) {
  Result<std::vector<parts::Part>> bodies(std::vector<parts::Part>{});
  if (stays_whole(preview)) {
    auto whole = whole_part(preview);
    if (!whole) return whole.fault();
    return std::vector<PreviewPart>{*std::move(whole)};
  }
  if (preview.released && !preview.released->pieces.empty()) {
    bodies = preview.released->pieces;
  } else {
    bodies = bed_parts(preview);
  }
  if (!bodies) return bodies.fault();
  const mesh::Box form = mesh::box_of(preview.mesh);
  std::vector<PreviewPart> all;
  for (parts::Part& body : *bodies) {
    const int number = static_cast<int>(all.size()) + 1;  // pieces come in the order of taking out
    const mesh::Point3 out = way_out(body, form);
    all.push_back({body.name, std::move(body.mesh), out, number});
  }
  return all;
}

}  // namespace crownwright::making
