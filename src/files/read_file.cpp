#include "files/read_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

#include "base/length.h"
#include "files/system_fault.h"

namespace crownwright::files {
namespace {

class OpenFile {
 public:
  // O_NONBLOCK: opening a pipe without a writer must not wait.
  explicit OpenFile(const std::string& path)
      : file_(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY)) {}
  ~OpenFile() {
    if (file_ >= 0) ::close(file_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  int get() const { return file_; }

 private:
  int file_;
};

Result<std::uint64_t> ordinary_size(const OpenFile& file, const std::string& path) {
  struct stat there {};
  if (::fstat(file.get(), &there) != 0) return system_fault(path, "cannot be read", errno);
  if (S_ISDIR(there.st_mode)) return file_fault(path, "is a folder", "give the name of a file");
  if (!S_ISREG(there.st_mode))
    return file_fault(path, "is not an ordinary file", "pipes and devices are not read");
  return static_cast<std::uint64_t>(there.st_size);
}

Result<Bytes> read_bytes(const OpenFile& file, const std::string& path, std::size_t size) {
  auto data = std::make_unique_for_overwrite<std::byte[]>(std::max<std::size_t>(size, 1));
  for (std::size_t done = 0; done < size;) {
    const ssize_t got = ::read(file.get(), data.get() + done, size - done);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return system_fault(path, "cannot be read", errno);
    if (got == 0) return file_fault(path, "became shorter while it was read");
    done += static_cast<std::size_t>(got);
  }
  return Bytes(std::move(data), size);
}

std::string megabytes(std::uint64_t bytes) {
  return number_text(static_cast<double>(bytes) / 1e6, 1) + " MB";
}

Result<Bytes> read(const std::string& path, std::uint64_t most, bool longer_is_fine) {
  if (path.find('\0') != std::string::npos) return file_fault(path, "is not the name of a file");
  const OpenFile file(path);
  if (file.get() < 0) return system_fault(path, "cannot be opened", errno);
  const Result<std::uint64_t> size = ordinary_size(file, path);
  if (!size) return size.fault();
  if (*size > most && !longer_is_fine)
    return file_fault(path, "is " + megabytes(*size) + " long", "at most " + megabytes(most) + " are read");
  return read_bytes(file, path, static_cast<std::size_t>(std::min(*size, most)));
}

}  // namespace

Result<Bytes> read_whole(const std::string& path, std::uint64_t most) { return read(path, most, false); }
Result<Bytes> read_start(const std::string& path, std::uint64_t most) { return read(path, most, true); }

}  // namespace crownwright::files
