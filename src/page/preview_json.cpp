#include "page/preview_json.h"

#include <algorithm>
#include <bit>
#include <span>

#include "drawings/fit_chart.h"
#include "page/base64.h"
#include "page/makes.h"
#include "page/verdicts.h"

namespace crownwright::page {
namespace {

using making::Preview;

static_assert(std::endian::native == std::endian::little, "meshes are sent as this machine keeps them");

constexpr int mm_decimals = 4;

std::string mm_json(double value) { return json_number(value, mm_decimals); }
std::string point_json(const meridian::Point& p) { return json_list({mm_json(p.r), mm_json(p.z)}); }

bool shows_pad(const Preview& preview) { return preview.order.form.kind == order::FormKind::pad; }

std::string figures_json(const Preview& preview) {
  const making::FormFigures& figures = preview.figures;
  JsonFields fields = {
      {"crown_diameter", mm_json(figures.crown_diameter)},
      {"rise", mm_json(figures.rise)},
      {"dome", mm_json(figures.dome)},
      {"edge_radius", mm_json(figures.edge_radius)},
      {"top_length", mm_json(figures.top_length)},
      {"meridian_length", mm_json(figures.meridian_length)},
      {"cloth_thickness", mm_json(figures.cloth_thickness)},
      {"volume_mm3", json_number(preview.volume, 1)},
      {"mass_g", json_number(preview.material.mass, 1)},
      {"vents", std::to_string(preview.released ? preview.released->vents : preview.vents.count)}};
  if (figures.head_girth) {
    fields.emplace_back("head_girth", mm_json(*figures.head_girth));
    fields.emplace_back("under_edge_radius", mm_json(figures.under_edge_radius));
    fields.emplace_back("collar", mm_json(preview.order.form.collar.mm()));
  }
  if (figures.under_length) fields.emplace_back("under_length", mm_json(*figures.under_length));
  if (preview.shown.wall > 0) fields.emplace_back("wall", mm_json(preview.shown.wall));
  return json_object(fields);
}

std::string segment_json(const meridian::Segment& segment, solid::Role role) {
  JsonFields fields = {{"kind", segment.is_arc() ? "\"arc\"" : "\"line\""},
                       {"from", point_json(segment.from())},
                       {"to", point_json(segment.to())}};
  if (segment.is_arc()) {
    fields.emplace_back("centre", point_json(segment.centre()));
    fields.emplace_back("radius", mm_json(segment.radius()));
    fields.emplace_back("turn", json_number(segment.turn(), 9));
  }
  fields.emplace_back("role", json_text(solid::role_name(role)));
  return json_object(fields);
}

std::string meridian_json(const solid::Solid& solid) {
  std::vector<std::string> segments;
  const solid::Shell& shell = solid.shells.front();
  for (std::size_t i = 0; i < shell.walk.size(); ++i)
    segments.push_back(segment_json(shell.walk[i], shell.roles[i]));
  return json_list(segments);
}

std::string in_quotes(const std::string& plain) { return std::string(1, '"').append(plain).append(1, '"'); }

JsonFields mesh_fields(const mesh::TriangleMesh& mesh) {
  return {{"positions", in_quotes(base64(std::as_bytes(std::span(mesh.vertices))))},
          {"indices", in_quotes(base64(std::as_bytes(std::span(mesh.triangles))))},
          {"triangles", std::to_string(mesh.triangles.size())}};
}

std::string part_json(const making::PreviewPart& part) {
  JsonFields fields = {{"name", json_text(part.name)}};
  for (auto& field : mesh_fields(part.mesh)) fields.push_back(std::move(field));
  fields.emplace_back(
      "out", json_list({json_number(part.out.x, 6), json_number(part.out.y, 6), json_number(part.out.z, 6)}));
  fields.emplace_back("step", std::to_string(part.step));
  return json_object(fields);
}

std::string tries_json(const std::vector<Try>& tries) {
  std::vector<std::string> items;
  for (const Try& one : tries) {
    JsonFields order;
    for (const auto& [key, value] : one.order)
      order.emplace_back(key, value == "true" ? value : json_text(value));
    items.push_back(json_object({{"words", json_text(one.words)}, {"order", json_object(order)}}));
  }
  return json_list(items);
}

std::string chart_json(const Preview& preview) {
  if (!preview.fit->crown) return "null";
  const making::CrownFit& crown = *preview.fit->crown;
  const std::string panels =
      crown.net ? std::to_string(crown.net->panels) + " panels" : std::string("disc and ring");
  const std::string subtitle = panels + (crown.drafted ? " as drafted" : "") + ", " +
                               preview.order.cloth.name + ": " + fit::verdict_words(crown.report.verdict);
  return json_text(drawings::fit_chart_svg(crown.report, crown.limits, {preview.order.name, subtitle}));
}

std::string fit_json_of(const Preview& preview, bool inches) {
  if (!preview.fit) return "null";
  const FitWords words = fit_words(preview, inches);
  return json_object({{"verdict", json_text(words.tone ? tone_word(*words.tone) : "none")},
                      {"words", json_text(words.words)},
                      {"chart_svg", chart_json(preview)},
                      {"try", tries_json(words.tries)}});
}

std::string verdicts_json(const std::vector<Verdict>& verdicts) {
  std::vector<std::string> items;
  for (const Verdict& verdict : verdicts)
    items.push_back(json_object({{"about", json_text(verdict.about)},
                                 {"tone", json_text(tone_word(verdict.tone))},
                                 {"words", json_text(verdict.words)},
                                 {"try", tries_json(verdict.tries)}}));
  return json_list(items);
}

bool is_among(const std::string& words, const std::vector<std::string>& all) {
  return std::find(all.begin(), all.end(), words) != all.end();
}

// What heat, steam and press warn of is what their verdicts say.
std::vector<std::string> left_to_warn(const Preview& preview, const std::vector<Verdict>& verdicts) {
  const bool steam_judged =
      std::any_of(verdicts.begin(), verdicts.end(), [](const Verdict& one) { return one.about == "steam"; });
  std::vector<std::string> left;
  for (const std::string& words : preview.warnings) {
    const bool of_steam = is_among(words, preview.pressed.steam.warnings);
    if (!is_among(words, preview.pressed.warnings) || (of_steam && !steam_judged)) left.push_back(words);
  }
  return left;
}

std::string makes_json(const Preview& preview) {
  std::vector<std::string> items;
  for (const MadeKind& kind : kinds_made(preview))
    items.push_back(json_object({{"ending", json_text(kind.ending)}, {"what", json_text(kind.what)}}));
  return json_list(items);
}

}  // namespace

Result<JsonFields> preview_fields(const Preview& preview, View view, bool inches) {
  const solid::Solid& solid = preview.shown;
  JsonFields fields = {{"name", json_text(preview.order.name)},
                       {"kind", shows_pad(preview) ? "\"pad\"" : "\"block\""},
                       {"figures", figures_json(preview)},
                       {"meridian", meridian_json(solid)},
                       {"head_line", solid.has_head_line ? point_json(solid.head_line) : "null"}};
  if (view == View::form) {
    fields.emplace_back("mesh", json_object(mesh_fields(preview.mesh)));
  } else {
    const auto parts = making::preview_parts(preview);
    if (!parts) return parts.fault();
    std::vector<std::string> items;
    for (const making::PreviewPart& part : *parts) items.push_back(part_json(part));
    fields.emplace_back("parts", json_list(items));
  }
  const std::vector<Verdict> verdicts = verdicts_of(preview, inches);
  fields.emplace_back("fit", fit_json_of(preview, inches));
  fields.emplace_back("verdicts", verdicts_json(verdicts));
  fields.emplace_back("warnings", json_texts(left_to_warn(preview, verdicts)));
  fields.emplace_back("makes", makes_json(preview));
  return fields;
}

}  // namespace crownwright::page
