#include "making/part_files.h"

#include <set>

#include "drawings/picture.h"
#include "files/glb_writer.h"
#include "files/mesh_writer.h"
#include "files/threemf_writer.h"
#include "making/write.h"

namespace crownwright::making {
namespace {

/// mm between two beds where all stand in one row.
constexpr double bed_gap = 20;

bool is_in_parts(const Form& form) { return form.printed.parts.front().proven.has_value(); }

const proof::Proven& proven_of(const Form& form, const PrintedPart& part) {
  return part.proven ? *part.proven : form.proven;
}

std::string plate_ending(std::size_t plate) { return ".plate-" + std::to_string(plate + 1) + ".3mf"; }

mesh::Placement in_row(const Printed& printed, const PrintedPart& part) {
  if (!printed.bed) return part.on_bed;
  const double along = static_cast<double>(part.plate) * (printed.bed->width + bed_gap);
  return part.on_bed.then(mesh::moved(along, 0, 0));
}

/// The parts of one bed where they lie on it, or of all beds in a row.
class Scene {
 public:
  explicit Scene(const Form& form) : form_(form) {}

  void add(const PrintedPart& part, const mesh::Placement& place) {
    const proof::Proven& proven = proven_of(form_, part);
    package_.items.push_back({package_.parts.size(), place});
    package_.parts.emplace_back(part.name, proven);
    pictured_.push_back({&proven.mesh(), place});
  }

  Result<Done> write(const std::string& path, const std::string& title, const files::WriteRules& rules) {
    package_.notes = {title, order_mark(form_.order), CROWNWRIGHT_VERSION, licence()};
    package_.thumbnail_png = drawings::picture_png(pictured_);
    return files::write_threemf(package_, path, rules);
  }

 private:
  std::optional<std::string> licence() const {
    const std::string& words = form_.order.print.licence;
    return words.empty() ? std::nullopt : std::optional(words);
  }
  const Form& form_;
  files::ThreemfPackage package_;
  std::vector<drawings::PicturedMesh> pictured_;
};

Result<Done> write_all_beds(const Form& form, const std::string& path, const files::WriteRules& rules) {
  Scene scene(form);
  for (const PrintedPart& part : form.printed.parts) scene.add(part, in_row(form.printed, part));
  return scene.write(path, form.order.name, rules);
}

Result<Done> write_bed(const Form& form, std::size_t plate, const std::string& path,
                       const files::WriteRules& rules) {
  Scene scene(form);
  for (const PrintedPart& part : form.printed.parts)
    if (part.plate == plate) scene.add(part, part.on_bed);
  const std::string title =
      form.order.name + ", bed " + std::to_string(plate + 1) + " of " + std::to_string(form.printed.plates);
  return scene.write(path, title, rules);
}

Result<Done> write_to_look_at(const Form& form, const std::string& path, const files::WriteRules& rules) {
  std::vector<files::GlbPart> parts;
  for (const PrintedPart& part : form.printed.parts)
    parts.emplace_back(part.name, proven_of(form, part), part.to_form);
  return files::write_glb(parts, path, order_mark(form.order), rules);
}

Result<Done> write_each_part(const Form& form, const std::string& base, const files::WriteRules& rules) {
  for (std::size_t k = 0; k < form.printed.parts.size(); ++k) {
    const auto done = files::write_mesh(*form.printed.parts[k].proven, base + part_ending(form, k),
                                        files::MeshKind::stl, order_mark(form.order), rules);
    if (!done) return done.fault();
  }
  return Done{};
}

}  // namespace

std::string part_ending(const Form& form, std::size_t part) {
  if (is_in_parts(form)) return ".part-" + std::to_string(part + 1) + ".stl";
  return mesh_ending(form.order.mesh.formats.front());
}

std::vector<std::string> part_endings(const Form& form) {
  std::vector<std::string> endings;
  if (is_in_parts(form)) {
    for (std::size_t k = 0; k < form.printed.parts.size(); ++k) endings.push_back(part_ending(form, k));
  }
  endings.push_back(".3mf");
  for (std::size_t plate = 0; form.printed.plates > 1 && plate < form.printed.plates; ++plate)
    endings.push_back(plate_ending(plate));
  endings.push_back(".glb");
  return endings;
}

Result<Done> write_part_files(const Form& form, const std::string& base, const files::WriteRules& rules) {
  if (is_in_parts(form)) {
    if (const auto done = write_each_part(form, base, rules); !done) return done.fault();
  }
  if (const auto done = write_all_beds(form, base + ".3mf", rules); !done) return done.fault();
  for (std::size_t plate = 0; form.printed.plates > 1 && plate < form.printed.plates; ++plate) {
    const auto done = write_bed(form, plate, base + plate_ending(plate), rules);
    if (!done) return done.fault();
  }
  return write_to_look_at(form, base + ".glb", rules);
}

}  // namespace crownwright::making
