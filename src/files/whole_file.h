#pragma once
// Files appear whole or not at all: written beside their place under a name of their own, synced, then
// renamed. Until finish() has returned well, whatever stood at the path stands there unchanged.

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "files/byte_sink.h"
#include "files/system_calls.h"
#include "files/unfinished_files.h"

namespace crownwright::files {

/// What may be written over. A link, folder, device or pipe at the path never is.
enum class Replace {
  never,       ///< nothing: a file at the path is a fault
  same_order,  ///< a file that `is_ours` knows
  force,       ///< any ordinary file
};

struct WriteRules {
  Replace replace = Replace::never;
  /// Asked with the path when a file is there and `replace` is same_order; an empty function knows none.
  std::function<bool(const std::string& path)> is_ours{};
  /// What `--force` is called where the person can say it; ends up in the fault.
  std::string way_out = "--force replaces it";
  const SystemCalls* calls = &libc_calls();
};

class WholeFile : public ByteSink {
 public:
  /// Opens a new file (mode 0666 less the umask) in the folder of `path`. Faults (exit 4) name `path` and say
  /// why: something there that may not be replaced, no such folder, no right to write.
  static Result<std::unique_ptr<WholeFile>> create(const std::string& path, WriteRules rules = {});

  /// Throws the unfinished file away.
  ~WholeFile() override;

  /// Writes what is left, syncs, renames, syncs the folder. The fault is the first that happened since
  /// create(); the unfinished file is gone then. One case differs: when only the folder's sync fails the new
  /// file is in place, and the fault says so. Precondition: called once.
  Result<Done> finish();

 private:
  WholeFile(std::string path, bool replaces, const SystemCalls& calls);
  Result<Done> open_beside();
  void drain(std::span<const std::byte> bytes) override;
  void fail(const std::string& what, int error);
  void close_file();
  void discard();
  void rename_into_place();
  Result<Done> sync_folder();

  std::string path_, unfinished_path_;
  bool replaces_;
  const SystemCalls& calls_;
  std::optional<UnfinishedName> unfinished_;
  std::optional<Fault> fault_;
  int file_ = -1;
};

/// A small file in one go.
Result<Done> write_whole(const std::string& path, std::string_view content, WriteRules rules = {});

/// Creates the folder and those above it that are missing. A folder that is there is fine. Faults: exit 4,
/// naming the part of the path that failed.
Result<Done> ensure_folder(const std::string& path, const SystemCalls& calls = libc_calls());

/// "a.b/c.stl" -> "a.b"; "c.stl" -> "."; "/c.stl" -> "/".
std::string folder_of(const std::string& path);

}  // namespace crownwright::files
