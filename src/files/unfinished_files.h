#pragma once
// The names of files that are being written, so that an interrupted run leaves none of them behind.

#include <string>

namespace crownwright::files {

/// Unlinks every file whose writing has begun and not ended. Safe to call from a signal handler
/// (SIGINT, SIGTERM); the program must end after it.
void remove_unfinished_files() noexcept;

/// Holds one name in the list from construction to destruction. `held()` is false when the list
/// (64 names) is full or the name is longer than PATH_MAX.
class UnfinishedName {
 public:
  explicit UnfinishedName(const std::string& path) noexcept;
  ~UnfinishedName();
  UnfinishedName(const UnfinishedName&) = delete;
  UnfinishedName& operator=(const UnfinishedName&) = delete;
  bool held() const { return slot_ >= 0; }

 private:
  int slot_ = -1;
};

}  // namespace crownwright::files
