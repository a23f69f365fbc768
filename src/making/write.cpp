#include "making/write.h"

#include <cstdint>
#include <span>

#include "files/maker_mark.h"
#include "files/mesh_writer.h"
#include "files/read_file.h"
#include "files/whole_file.h"
#include "making/part_files.h"
#include "order/saver.h"

namespace crownwright::making {
namespace {

files::MeshKind kind_of(order::MeshFormat format, bool ascii) {
  switch (format) {
    case order::MeshFormat::stl:
      return ascii ? files::MeshKind::stl_ascii : files::MeshKind::stl;
    case order::MeshFormat::obj:
      return files::MeshKind::obj;
    case order::MeshFormat::ply:
      return ascii ? files::MeshKind::ply_ascii : files::MeshKind::ply;
  }
  return files::MeshKind::stl;
}

// A file stands where only this order's files stand (its own stem, in its own folder); that it bears our mark
// shows that nobody else put it there. An order that was changed since may replace what it made before.
files::WriteRules rules_for_mesh(bool force) {
  files::WriteRules rules;
  rules.replace = force ? files::Replace::force : files::Replace::same_order;
  rules.is_ours = [](const std::string& path) { return files::mark_of(path).has_value(); };
  return rules;
}

files::WriteRules rules_for_report(bool force) {
  files::WriteRules rules = rules_for_mesh(force);
  rules.is_ours = bears_report_mark;
  return rules;
}

files::WriteRules rules_for_extra(bool force) {
  files::WriteRules rules = rules_for_mesh(force);
  rules.is_ours = bears_extra_mark;
  return rules;
}

std::string place_of(const WriteOptions& options, const std::string& ending) {
  return options.into + "/" + options.stem + "/" + options.stem + ending;
}

}  // namespace

std::string mesh_ending(order::MeshFormat format) {
  switch (format) {
    case order::MeshFormat::stl:
      return ".stl";
    case order::MeshFormat::obj:
      return ".obj";
    case order::MeshFormat::ply:
      return ".ply";
  }
  return ".stl";
}

bool bears_report_mark(const std::string& path) {
  const auto start = files::read_start(path, 64 * 1024);
  return start && start->text().find("\"made_by\": \"crownwright") != std::string_view::npos;
}

Result<std::vector<std::string>> write_extras(const WriteOptions& options) {
  if (const auto made = files::ensure_folder(options.into + "/" + options.stem); !made) return made.fault();
  std::vector<std::string> paths;
  for (const ExtraFile& extra : options.extras) {
    paths.push_back(place_of(options, extra.ending));
    const auto done = files::write_whole(paths.back(), extra.bytes, rules_for_extra(options.force));
    if (!done) return done.fault();
  }
  return paths;
}

std::string order_mark(const order::Order& order) {
  // FNV-1a, 64 bits: a name tag, not a seal.
  std::uint64_t hash = 14695981039346656037u;
  for (const char c : order::order_text(order))
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211u;
  constexpr char digits[] = "0123456789abcdef";
  std::string text = "order ";
  for (int shift = 60; shift >= 0; shift -= 4) text += digits[hash >> shift & 15];
  return text;
}

Result<std::vector<std::string>> write_form(
    const Form& form, const WriteOptions& options,
    const std::function<std::string(const std::vector<std::string>&)>& report) {
  if (const auto made = files::ensure_folder(options.into + "/" + options.stem); !made) return made.fault();
  std::vector<std::string> paths;
  for (const order::MeshFormat format : form.order.mesh.formats)
    paths.push_back(place_of(options, mesh_ending(format)));
  for (const std::string& ending : part_endings(form)) paths.push_back(place_of(options, ending));
  for (const ExtraFile& extra : options.extras) paths.push_back(place_of(options, extra.ending));
  paths.push_back(place_of(options, ".report.json"));
  // The report is begun first and finished last: if its place is taken nothing else is touched.
  auto report_file = files::WholeFile::create(paths.back(), rules_for_report(options.force));
  if (!report_file) return report_file.fault();
  const std::string text = report(paths);
  (*report_file)->append(std::as_bytes(std::span(text)));
  for (std::size_t k = 0; k < form.order.mesh.formats.size(); ++k) {
    const auto kind = kind_of(form.order.mesh.formats[k], form.order.mesh.ascii);
    const auto done =
        files::write_mesh(form.proven, paths[k], kind, order_mark(form.order), rules_for_mesh(options.force));
    if (!done) return done.fault();
  }
  const auto parts = write_part_files(form, place_of(options, ""), rules_for_mesh(options.force));
  if (!parts) return parts.fault();
  if (const auto done = write_extras(options); !done) return done.fault();
  if (const auto done = (*report_file)->finish(); !done) return done.fault();
  return paths;
}

}  // namespace crownwright::making
