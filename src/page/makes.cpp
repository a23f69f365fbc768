#include "page/makes.h"

#include <algorithm>

#include "making/write.h"

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

void add_mill(const Preview& preview, std::vector<MadeKind>& kinds) {
  if (!preview.mill) return;
  kinds.push_back({".glue-up.a4.pdf", "how the stock is glued up, on A4"});
  kinds.push_back({".glue-up.letter.pdf", "how the stock is glued up, on Letter"});
}

}  // namespace

std::vector<MadeKind> kinds_made(const Preview& preview) {
  std::vector<MadeKind> kinds;
  add_meshes(preview, kinds);
  add_drawings(preview, kinds);
  add_mill(preview, kinds);
  kinds.push_back({".report.json", "every figure, for other programs"});
  return kinds;
}

}  // namespace crownwright::page
