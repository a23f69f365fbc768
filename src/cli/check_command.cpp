#include "cli/check_command.h"

#include <memory>

#include "cli/progress.h"
#include "cli/shared_options.h"
#include "files/mesh_reader.h"
#include "proof/any_mesh.h"
#include "report/check_report.h"

namespace crownwright::cli {
namespace {

struct CheckOptions {
  std::string file;
  OutputOptions output;
};

Result<report::CheckedFile> checked_file(const CheckOptions& options) {
  const Progress progress("checking " + options.file, !options.output.quiet && progress_is_seen());
  const auto mesh = files::read_mesh(options.file);
  if (!mesh) return mesh.fault();
  return report::CheckedFile{options.file, mesh->triangles.size(), mesh->vertices.size(),
                             proof::prove_any(*mesh), proof::extent_of(*mesh)};
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
    "crossing, facing outward. Reads STL, OBJ, PLY, OFF, 3MF and glTF.\n"
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
