#pragma once
// The calls that put bytes on a disk, as a table, so that a test can make the Nth of them fail.

#include <sys/types.h>

namespace crownwright::files {

/// Each entry behaves as the POSIX call of its name: -1 and errno on failure.
struct SystemCalls {
  int (*open)(const char* path, int flags, mode_t mode);
  ssize_t (*write)(int file, const void* bytes, size_t count);
  int (*fsync)(int file);
  int (*close)(int file);
  int (*rename)(const char* from, const char* to);
  /// As rename, but EEXIST when `to` is there. File systems that cannot do it fall back to rename.
  int (*rename_new)(const char* from, const char* to);
  int (*unlink)(const char* path);
  int (*mkdir)(const char* path, mode_t mode);
};

/// The C library's own.
const SystemCalls& libc_calls();

}  // namespace crownwright::files
