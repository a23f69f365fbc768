#include "files/system_calls.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

namespace crownwright::files {
namespace {

int open_file(const char* path, int flags, mode_t mode) { return ::open(path, flags, mode); }

int rename_new(const char* from, const char* to) {
  const int result = ::renameat2(AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE);
  if (result != 0 && (errno == EINVAL || errno == ENOSYS)) return ::rename(from, to);
  return result;
}

}  // namespace

const SystemCalls& libc_calls() {
  static constexpr SystemCalls calls{open_file, ::write,    ::fsync,  ::close,
                                     ::rename,  rename_new, ::unlink, ::mkdir};
  return calls;
}

}  // namespace crownwright::files
