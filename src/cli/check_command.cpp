#include "cli/check_command.h"

#include <memory>
#include <vector>

#include "base/length.h"
#include "cli/progress.h"
#include "cli/shared_options.h"
#include "files/mesh_reader.h"
#include "files/threemf_reader.h"
#include "proof/any_mesh.h"
#include "report/check_report.h"

namespace crownwright::cli {
namespace {

struct CheckOptions {
  std::string file;
  OutputOptions output;
};

// Only the solid parts of a package are proved: supports and surfaces need not be closed in 3MF.
proof::Verdict verdict_of(const files::ThreemfBody& body) {
  proof::Verdict verdict;
  if (!body.mesh.triangles.empty()) verdict = proof::prove_any(body.mesh);
  if (body.loose > 0)
    verdict.checks.push_back({"supports and surfaces", true,
                              count_text(body.loose) + " facets, not proved: 3MF does not ask it of them"});
  return verdict;
}

void append(const mesh::TriangleMesh& more, mesh::TriangleMesh& all) {
  const auto first = static_cast<std::uint32_t>(all.vertices.size());
  all.vertices.insert(all.vertices.end(), more.vertices.begin(), more.vertices.end());
  for (const mesh::Triangle& t : more.triangles)
    all.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
}

// Each body is proved once, in its own place, and stands for every item that places it.
Result<report::CheckedFile> checked_threemf(const std::string& file) {
  const auto package = files::read_threemf(file);
  if (!package) return package.fault();
  std::vector<proof::Verdict> verdicts;
  for (const files::ThreemfBody& body : package->bodies) verdicts.push_back(verdict_of(body));
  std::vector<report::CheckedItem> items;
  mesh::TriangleMesh all;
  for (const files::ThreemfItem& item : package->items) {
    const mesh::TriangleMesh placed = files::placed_body(*package, item);
    const bool is_alone = package->items.size() == package->bodies.size();
    const std::string number = is_alone ? "" : " (item " + count_text(items.size() + 1) + ")";
    items.push_back({package->bodies[item.body].name + number, placed.triangles.size(),
                     placed.vertices.size(), verdicts[item.body], proof::extent_of(placed)});
    append(placed, all);
  }
  return report::checked_package(file, std::move(items), proof::extent_of(all));
}

Result<report::CheckedFile> checked_file(const CheckOptions& options) {
  const Progress progress("checking " + options.file, !options.output.quiet && progress_is_seen());
  if (files::is_threemf(options.file)) return checked_threemf(options.file);
  const auto mesh = files::read_mesh(options.file);
  if (!mesh) return mesh.fault();
  return report::CheckedFile{options.file,
                             mesh->triangles.size(),
                             mesh->vertices.size(),
                             proof::prove_any(*mesh),
                             proof::extent_of(*mesh),
                             {}};
}

int run_check(const CheckOptions& options) {
  const auto checked = checked_file(options);
  if (!checked) return fail(checked.fault());
  if (!options.output.quiet) {
    const auto printed = print(options.output.json ? report::check_json(*checked)
                                                   : report::check_text(*checked, options.output.paint()));
    if (!printed) return fail(printed.fault());
  }
  if (checked->verdict.passed()) return 0;
  return fail(
      {ExitCode::proof, options.file, "the proof failed, " + report::first_failure(checked->verdict), ""});
}

constexpr char kCheckFooter[] =
    "Proves that a mesh bounds a solid: closed, every edge used once each way, no two facets\n"
    "crossing, facing outward. Reads STL, OBJ, PLY, OFF, 3MF and glTF. A 3MF package is also\n"
    "judged by the rules of its own specification, and every item of it is proved.\n"
    "Examples:\n"
    "  crownwright check out/market/market.stl\n"
    "  crownwright check scan.ply --json";

}  // namespace

void add_check_command(CommandLine& line) {
  auto options = std::make_shared<CheckOptions>();
  Command command = line.add("check", "Prove a mesh file of any origin");
  command.word("FILE", options->file, "Mesh file");
  add_output_options(command, options->output);
  command.footer(kCheckFooter).runs([options] { return run_check(*options); });
}

}  // namespace crownwright::cli
