#include "files/threemf_writer.h"

#include "files/maker_mark.h"

namespace crownwright::files {
namespace {

ThreemfContents contents_of(const ThreemfPackage& package) {
  ThreemfContents contents;
  for (const ThreemfPart& part : package.parts) contents.parts.push_back(part.named_mesh());
  contents.items = package.items;
  contents.notes = package.notes;
  contents.thumbnail_png = package.thumbnail_png;
  return contents;
}

}  // namespace

// The empty owner makes a pointer that owns nothing.
ThreemfPart::ThreemfPart(std::string name, const proof::Proven& proven)
    : mesh_{std::move(name),
            std::shared_ptr<const mesh::TriangleMesh>(std::shared_ptr<void>(), &proven.mesh())} {}

Result<Done> write_threemf(const ThreemfPackage& package, const std::string& path, WriteRules rules) {
  const std::string& mark = package.notes.mark;
  if (!rules.is_ours) rules.is_ours = [&mark](const std::string& there) { return mark_of(there) == mark; };
  const std::vector<std::byte> bytes = threemf_bytes(contents_of(package));
  Result<std::unique_ptr<WholeFile>> file = WholeFile::create(path, std::move(rules));
  if (!file) return file.fault();
  (*file)->append(bytes);
  return (*file)->finish();
}

}  // namespace crownwright::files
