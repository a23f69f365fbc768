#include "page/makes.h"

#include <algorithm>

#include "making/write.h"
#include "report/work_sheet.h"

namespace crownwright::page {
namespace {

using making::Preview;

void add_meshes(const Preview& preview, std::vector<MadeKind>& kinds) {
  for (const order::MeshFormat format : preview.order.mesh.formats) {
    const std::string what =
        format == order::MeshFormat::stl ? "the form for a printer" : "the form as a mesh";
    kinds.push_back({making::mesh_ending(format), what});
  }
  kinds.push_back({".3mf", "the form on its bed for a printer"});
  kinds.push_back({".glb", "the form to look at"});
}

void add_drawings(const Preview& preview, std::vector<MadeKind>& kinds) {
  kinds.push_back({".profile.svg", "the turner's template"});
  kinds.push_back({".profile.dxf", "the turner's template for a machine"});
  if (!preview.pieces.empty()) {
    const std::string piece = preview.order.form.kind == order::FormKind::pad ? ".cover" : ".panel";
    kinds.push_back({piece + ".a4.pdf", "the pattern pieces to print on A4"});
    kinds.push_back({piece + ".letter.pdf", "the pattern pieces to print on Letter"});
    kinds.push_back({piece + ".sheet.pdf", "the pattern pieces on one large sheet"});
    kinds.push_back({piece + ".svg", "the pattern pieces as a drawing"});
    kinds.push_back({piece + ".dxf", "the pattern pieces for a cutter"});
  }
  if (preview.stack) {
    kinds.push_back({".stack.a4.pdf", "the sheets to cut out, on A4"});
    kinds.push_back({".stack.letter.pdf", "the sheets to cut out, on Letter"});
    kinds.push_back({".stack.svg", "the sheets to cut out, as a drawing"});
  }
  if (preview.fit && preview.fit->crown) {
    kinds.push_back({".fit.svg", "the fit chart"});
    kinds.push_back({".fit.png", "the fit chart as a picture"});
  }
}

void add_sheet(const Preview& preview, std::vector<MadeKind>& kinds) {
  const std::string paper = report::is_written_in_inches(preview.order) ? ".letter" : ".a4";
  kinds.push_back({".sheet" + paper + ".pdf", "the work sheet for the wall"});
  kinds.push_back({".sheet.html", "the work sheet to read on a screen"});
  kinds.push_back({".picture.png", "a picture of the form"});
}

void add_programs(const milling::Setup& setup, const milling::Job& job, std::vector<MadeKind>& kinds) {
  const std::string part = setup.name.empty() ? std::string() : std::string(".").append(setup.name);
  const std::string of = setup.name.empty() ? std::string() : std::string(" of ").append(setup.name);
  kinds.push_back({part + ".rough.ngc", "the roughing program" + of});
  kinds.push_back({part + ".finish.ngc", "the finishing program" + of});
  if (job.drill && !setup.holes.empty()) kinds.push_back({part + ".drill.ngc", "the drilling program" + of});
  kinds.push_back({part + ".mill.png", "a picture of the cut" + of});
}

void add_mill(const Preview& preview, std::vector<MadeKind>& kinds) {
  if (!preview.mill) return;
  for (const milling::Setup& setup : preview.mill->plan.setups) add_programs(setup, preview.mill->job, kinds);
  kinds.push_back({".glue-up.a4.pdf", "how the stock is glued up, on A4"});
  kinds.push_back({".glue-up.letter.pdf", "how the stock is glued up, on Letter"});
  kinds.push_back({".glue-up.svg", "how the stock is glued up, as a drawing"});
}

}  // namespace

std::vector<MadeKind> kinds_made(const Preview& preview) {
  std::vector<MadeKind> kinds;
  add_meshes(preview, kinds);
  add_sheet(preview, kinds);
  add_drawings(preview, kinds);
  add_mill(preview, kinds);
  kinds.push_back({".report.json", "every figure, for other programs"});
  return kinds;
}

}  // namespace crownwright::page
