#include "files/whole_file.h"

#include <fcntl.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>

#include "files/system_fault.h"

// Why the steps stand in this order: a rename is atomic but says nothing about the bytes, so they are synced
// before it; the name itself lives in the folder, so that is synced after it. Without the first a power cut
// can leave an empty file under the good name; without the second, the old one.

namespace crownwright::files {
namespace {

std::string kind_of(mode_t mode) {
  if (S_ISDIR(mode)) return "a folder";
  if (S_ISLNK(mode)) return "a symbolic link";
  if (S_ISFIFO(mode)) return "a pipe";
  if (S_ISSOCK(mode)) return "a socket";
  return "a device";
}

// True when an ordinary file stands at the path and may go; false when nothing stands there.
Result<bool> may_replace(const std::string& path, const WriteRules& rules) {
  struct stat there {};
  if (::lstat(path.c_str(), &there) != 0) {
    if (errno == ENOENT) return false;
    return system_fault(path, "cannot be written", errno);
  }
  if (!S_ISREG(there.st_mode))
    return file_fault(path, "is " + kind_of(there.st_mode) + " and is not written over",
                      "give the name of an ordinary or a new file");
  if (rules.replace == Replace::force) return true;
  if (rules.replace == Replace::same_order && rules.is_ours && rules.is_ours(path)) return true;
  return file_fault(path, "is there already and was not made from this order", rules.way_out);
}

// 64 random bits: no other run, in whatever container, uses the same name. The name is never part of a file.
std::string unfinished_name(const std::string& folder) {
  std::uint64_t bits = 0;
  if (::getrandom(&bits, sizeof bits, 0) != sizeof bits) bits = static_cast<std::uint64_t>(::getpid());
  std::string name = folder == "/" ? "/.crownwright-" : folder + "/.crownwright-";
  constexpr std::string_view digits = "0123456789abcdef";
  for (int i = 0; i < 16; ++i, bits >>= 4) name += digits[bits & 15];
  return name + ".part";
}

bool is_folder(const std::string& path) {
  struct stat there {};
  return ::stat(path.c_str(), &there) == 0 && S_ISDIR(there.st_mode);
}

}  // namespace

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

WholeFile::WholeFile(std::string path, bool replaces, const SystemCalls& calls)
    : path_(std::move(path)), replaces_(replaces), calls_(calls) {}

WholeFile::~WholeFile() { discard(); }

Result<std::unique_ptr<WholeFile>> WholeFile::create(const std::string& path, WriteRules rules) {
  if (path.empty() || path.back() == '/' || path.find('\0') != std::string::npos)
    return file_fault(path, "is not the name of a file");
  const Result<bool> replaces = may_replace(path, rules);
  if (!replaces) return replaces.fault();
  const bool over = *replaces || rules.replace == Replace::force;
  std::unique_ptr<WholeFile> file(new WholeFile(path, over, *rules.calls));
  if (const Result<Done> opened = file->open_beside(); !opened) return opened.fault();
  return file;
}

Result<Done> WholeFile::open_beside() {
  constexpr int flags = O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW;
  for (int attempt = 0; attempt < 4; ++attempt) {
    unfinished_path_ = unfinished_name(folder_of(path_));
    // Listed before it exists, so that no instant is left in which an interrupt would leave it behind.
    unfinished_.emplace(unfinished_path_);
    if (!unfinished_->held())
      return file_fault(path_, "cannot be written: too many files at once or too long a path");
    file_ = calls_.open(unfinished_path_.c_str(), flags, 0666);
    if (file_ >= 0) return Done{};
    const int error = errno;
    unfinished_.reset();
    if (error != EEXIST && error != EINTR) return system_fault(path_, "cannot be written", error);
  }
  return file_fault(path_, "cannot be written: no free name beside it");
}

void WholeFile::fail(const std::string& what, int error) {
  if (!fault_) fault_ = system_fault(path_, what, error);
}

void WholeFile::drain(std::span<const std::byte> bytes) {
  while (!fault_ && !bytes.empty()) {
    const ssize_t written = calls_.write(file_, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return fail("cannot be written", errno);
    if (written == 0) return fail("cannot be written", ENOSPC);
    bytes = bytes.subspan(static_cast<std::size_t>(written));
  }
}

void WholeFile::close_file() {
  if (file_ < 0) return;
  const int file = std::exchange(file_, -1);
  // EINTR: Linux has closed it all the same.
  if (calls_.close(file) != 0 && errno != EINTR) fail("cannot be written", errno);
}

void WholeFile::discard() {
  close_file();
  if (!unfinished_) return;
  calls_.unlink(unfinished_path_.c_str());
  unfinished_.reset();
}

void WholeFile::rename_into_place() {
  const auto rename = replaces_ ? calls_.rename : calls_.rename_new;
  if (rename(unfinished_path_.c_str(), path_.c_str()) != 0) return fail("cannot be put in place", errno);
  unfinished_.reset();
}

Result<Done> WholeFile::sync_folder() {
  const int folder = calls_.open(folder_of(path_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);
  if (folder < 0) return Done{};  // A folder one may write but not read cannot be synced by anyone.
  const int error = calls_.fsync(folder) == 0 ? 0 : errno;
  calls_.close(folder);
  // EINVAL, ENOTSUP: this file system has no such thing.
  if (error == 0 || error == EINVAL || error == ENOTSUP) return Done{};
  return system_fault(path_, "is in place, but the disk does not confirm that its name will last", error);
}

Result<Done> WholeFile::finish() {
  if (!unfinished_) throw std::logic_error("a file was finished twice");
  drain_block();
  if (!fault_ && calls_.fsync(file_) != 0) fail("cannot be written", errno);
  close_file();
  if (!fault_) rename_into_place();
  if (!fault_) return sync_folder();
  discard();
  return *fault_;
}

Result<Done> write_whole(const std::string& path, std::string_view content, WriteRules rules) {
  Result<std::unique_ptr<WholeFile>> file = WholeFile::create(path, std::move(rules));
  if (!file) return file.fault();
  (*file)->append(content);
  return (*file)->finish();
}

Result<Done> ensure_folder(const std::string& path, const SystemCalls& calls) {
  if (path.empty() || path.find('\0') != std::string::npos)
    return file_fault(path, "is not the name of a folder");
  for (std::size_t end = 0; end < path.size();) {
    end = std::min(path.find('/', end + 1), path.size());
    const std::string part = path.substr(0, end);
    if (is_folder(part) || calls.mkdir(part.c_str(), 0777) == 0) continue;
    const int error = errno;
    if (is_folder(part)) continue;  // Another run made it meanwhile.
    if (error == EEXIST) return file_fault(part, "is not a folder, so no folder can be made of that name");
    return system_fault(part, "cannot be made a folder", error);
  }
  return Done{};
}

}  // namespace crownwright::files
