#pragma once
// A ZIP archive in memory, read with suspicion (libzip). Nothing of it is ever unpacked to disk.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright::files {

/// What an archive may hold. Chosen: a package of ours has five entries; a part of a million facets unpacks
/// to 80 MB.
struct ZipLimits {
  std::uint64_t entries = 1000;
  std::uint64_t unpacked = 400'000'000;  ///< bytes, all entries together
};

class ZipReader {
 public:
  /// Looks through the whole archive without unpacking it. Faults (exit 4, naming `where`): not a ZIP archive
  /// or cut short, beyond a limit (so a "zip bomb" costs nothing), a name that leaves the archive or stands
  /// twice (ASCII letters of either case count as the same, as in the Open Packaging Conventions), an entry
  /// that is encrypted or packed by anything but deflate. `bytes` must outlive the reader.
  static Result<ZipReader> open(std::span<const std::byte> bytes, const std::string& where,
                                const ZipLimits& limits = {});
  ~ZipReader();
  ZipReader(ZipReader&&) noexcept;
  ZipReader& operator=(ZipReader&&) noexcept;

  /// As they stand in the archive, folders left out.
  const std::vector<std::string>& names() const;

  /// The entry of that name, ASCII letters of either case; none when there is none.
  std::optional<std::size_t> find(std::string_view name) const;

  /// Unpacked; at most as many bytes as the archive's directory says. Faults: damaged (checksum), longer or
  /// shorter than it says. Precondition: entry < names().size().
  Result<std::string> read(std::size_t entry) const;

 private:
  struct Archive;
  explicit ZipReader(std::unique_ptr<Archive> archive);
  std::unique_ptr<Archive> archive_;
};

}  // namespace crownwright::files
