#include "files/whole_file.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>

#include "files/temp_folder.h"

namespace crownwright::files {
namespace {

using test::content_of;
using test::TempFolder;

// The C library's calls, of which one of a kind or the Nth of all fails. (A table of functions cannot carry
// state.)
struct Failing {
  static inline int calls_left = -1;  // the call that finds 0 here fails
  static inline int error = 0;
  static inline bool fired = false;
  static inline bool renamed = false;

  static bool fails() {
    if (calls_left-- != 0) return false;
    fired = true;
    errno = error;
    return true;
  }
  static int open(const char* p, int f, mode_t m) { return fails() ? -1 : libc_calls().open(p, f, m); }
  static ssize_t write(int f, const void* b, size_t n) { return fails() ? -1 : libc_calls().write(f, b, n); }
  static int fsync(int f) { return fails() ? -1 : libc_calls().fsync(f); }
  static int close(int f) {
    const int result = libc_calls().close(f);  // a failing close has closed the file
    return fails() ? -1 : result;
  }
  static int rename(const char* a, const char* b) {
    if (fails()) return -1;
    renamed = true;
    return libc_calls().rename(a, b);
  }
  static int rename_new(const char* a, const char* b) {
    if (fails()) return -1;
    renamed = true;
    return libc_calls().rename_new(a, b);
  }
  static int mkdir(const char* p, mode_t m) { return fails() ? -1 : libc_calls().mkdir(p, m); }
  static void from(int nth, int with) {
    calls_left = nth - 1;
    error = with;
    fired = renamed = false;
  }
};
constexpr SystemCalls failing{Failing::open,   Failing::write,      Failing::fsync, Failing::close,
                              Failing::rename, Failing::rename_new, ::unlink,       Failing::mkdir};

const std::string big(700'000, 'x');  // three blocks

TEST(WholeFile, WritesAllBytesAndLeavesNothingElse) {
  const TempFolder folder;
  Result<std::unique_ptr<WholeFile>> file = WholeFile::create(folder.file("a"));
  ASSERT_TRUE(file) << file.fault().line();
  for (int i = 0; i < 1000; ++i) (*file)->append("0123456789");
  (*file)->append(big);
  (*file)->append("end");
  EXPECT_FALSE(std::filesystem::exists(folder.file("a"))) << "it must not be there before it is whole";
  ASSERT_TRUE((*file)->finish());
  std::string expected;
  for (int i = 0; i < 1000; ++i) expected += "0123456789";
  EXPECT_EQ(content_of(folder.file("a")), expected + big + "end");
  EXPECT_EQ(folder.entries(), 1u);
}

TEST(WholeFile, ModeIsThatOfAnyNewFile) {
  const TempFolder folder;
  const mode_t before = ::umask(027);
  ASSERT_TRUE(write_whole(folder.file("a"), "x"));
  ::umask(before);
  struct stat there {};
  ASSERT_EQ(::stat(folder.file("a").c_str(), &there), 0);
  EXPECT_EQ(there.st_mode & 0777u, 0640u);
}

TEST(WholeFile, UnfinishedIsThrownAway) {
  const TempFolder folder;
  {
    auto file = WholeFile::create(folder.file("a"));
    ASSERT_TRUE(file);
    (*file)->append(big);
    EXPECT_EQ(folder.entries(), 1u);
  }
  EXPECT_EQ(folder.entries(), 0u);
}

TEST(WholeFile, ReplacesOnlyWhatItMay) {
  const TempFolder folder;
  const std::string path = folder.put("a", "foreign");
  const auto ours = [](const std::string&) { return true; };
  const auto not_ours = [](const std::string&) { return false; };
  const Result<Done> never = write_whole(path, "new", {Replace::never, ours});
  ASSERT_FALSE(never);
  EXPECT_EQ(never.fault().exit, ExitCode::file);
  EXPECT_EQ(never.fault().line(),
            path + ": is there already and was not made from this order; --force replaces it");
  EXPECT_FALSE(write_whole(path, "new", {Replace::same_order, not_ours}));
  EXPECT_FALSE(write_whole(path, "new", {Replace::same_order}));
  EXPECT_EQ(content_of(path), "foreign");
  ASSERT_TRUE(write_whole(path, "same", {Replace::same_order, ours}));
  EXPECT_EQ(content_of(path), "same");
  ASSERT_TRUE(write_whole(path, "forced", {Replace::force}));
  EXPECT_EQ(content_of(path), "forced");
  EXPECT_EQ(folder.entries(), 1u);
}

TEST(WholeFile, FileThatAppearsMeanwhileIsKept) {
  const TempFolder folder;
  auto file = WholeFile::create(folder.file("a"));
  ASSERT_TRUE(file);
  folder.put("a", "someone else's");
  const Result<Done> done = (*file)->finish();
  ASSERT_FALSE(done);
  EXPECT_EQ(done.fault().line(), folder.file("a") + ": cannot be put in place: File exists");
  EXPECT_EQ(content_of(folder.file("a")), "someone else's");
  EXPECT_EQ(folder.entries(), 1u);
}

TEST(WholeFile, LinksFoldersPipesAndDevicesAreNeverWrittenOver) {
  const TempFolder folder;
  const std::string target = folder.put("target", "kept");
  ASSERT_EQ(::symlink(target.c_str(), folder.file("link").c_str()), 0);
  ASSERT_EQ(::symlink("loop", folder.file("loop").c_str()), 0);
  ASSERT_EQ(::mkdir(folder.file("folder").c_str(), 0777), 0);
  ASSERT_EQ(::mkfifo(folder.file("pipe").c_str(), 0666), 0);
  const std::pair<const char*, const char*> cases[] = {{"link", "is a symbolic link"},
                                                       {"loop", "is a symbolic link"},
                                                       {"folder", "is a folder"},
                                                       {"pipe", "is a pipe"}};
  for (const auto& [name, why] : cases) {
    const Result<Done> done = write_whole(folder.file(name), "new", {Replace::force});
    ASSERT_FALSE(done) << name;
    EXPECT_EQ(done.fault().what, std::string(why) + " and is not written over");
    EXPECT_EQ(done.fault().exit, ExitCode::file);
  }
  const Result<Done> device = write_whole("/dev/null", "new", {Replace::force});
  ASSERT_FALSE(device);
  EXPECT_EQ(device.fault().what, "is a device and is not written over");
  EXPECT_EQ(content_of(target), "kept");
  EXPECT_EQ(folder.entries(), 5u);
}

TEST(WholeFile, ImpossiblePathsAreNamed) {
  const TempFolder folder;
  folder.put("file", "x");
  ASSERT_EQ(::symlink("loop", folder.file("loop").c_str()), 0);
  const std::pair<std::string, const char*> cases[] = {
      {folder.file("missing/a"), "No such file or directory"},
      {folder.file("file/a"), "Not a directory"},
      {folder.file("loop/a"), "Too many levels of symbolic links"},
      {folder.file(std::string(300, 'n')), "File name too long"},
      {folder.file("file/"), "is not the name of a file"},
      {std::string(), "is not the name of a file"},
      {folder.file(std::string("a\0b", 3)), "is not the name of a file"}};
  for (const auto& [path, why] : cases) {
    const Result<Done> done = write_whole(path, "new");
    ASSERT_FALSE(done) << path;
    EXPECT_EQ(done.fault().where, path);
    EXPECT_EQ(done.fault().exit, ExitCode::file);
    EXPECT_NE(done.fault().what.find(why), std::string::npos) << done.fault().line();
  }
  EXPECT_EQ(folder.entries(), 2u);
}

// Every call fails once, in turn: after each the fault is clear, the old file is whole, nothing else lies
// there.
void every_call_fails_once(int error, const std::string& text, bool old_file) {
  for (int nth = 1; nth < 100; ++nth) {
    SCOPED_TRACE("call " + std::to_string(nth) + " of error " + text);
    const TempFolder folder;
    const std::string path = folder.file("a");
    if (old_file) folder.put("a", "old");
    Failing::from(nth, error);
    WriteRules rules{Replace::force};
    rules.calls = &failing;
    const Result<Done> done = write_whole(path, big + big, rules);
    if (!Failing::fired) {
      EXPECT_TRUE(done);
      EXPECT_GT(nth, 7) << "open, writes, sync, close, rename, and the folder's open, sync and close";
      return;
    }
    if (!Failing::renamed) {
      ASSERT_FALSE(done);
      EXPECT_EQ(done.fault().where, path);
      EXPECT_NE(done.fault().line().find(": " + text), std::string::npos) << done.fault().line();
    }
    EXPECT_EQ(content_of(path), Failing::renamed ? big + big : old_file ? "old" : "");
    EXPECT_EQ(folder.entries(), Failing::renamed || old_file ? 1u : 0u);
  }
  FAIL() << "never came to an end";
}

TEST(WholeFile, EveryCallFailsOnce) {
  for (const bool old_file : {true, false}) {
    every_call_fails_once(ENOSPC, "No space left on device", old_file);
    every_call_fails_once(EIO, "Input/output error", old_file);
    every_call_fails_once(EDQUOT, "Disk quota exceeded", old_file);
    every_call_fails_once(EACCES, "Permission denied", old_file);
    every_call_fails_once(EROFS, "Read-only file system", old_file);
  }
}

TEST(WholeFile, FolderThatCannotBeSyncedIsSaid) {
  const TempFolder folder;
  WriteRules rules;
  rules.calls = &failing;
  // open, write, sync, close, rename, open the folder, sync it: the seventh.
  Failing::from(7, EIO);
  const Result<Done> done = write_whole(folder.file("a"), "new", rules);
  ASSERT_FALSE(done);
  EXPECT_NE(done.fault().what.find("is in place, but"), std::string::npos) << done.fault().line();
  EXPECT_EQ(content_of(folder.file("a")), "new");
}

// A disk that takes seven bytes at a time and is interrupted at every other call.
struct Slow {
  static inline int calls = 0;
  static ssize_t write(int f, const void* b, size_t n) {
    if (++calls % 2 == 0) return errno = EINTR, -1;
    return libc_calls().write(f, b, std::min<size_t>(n, 7));
  }
};

TEST(WholeFile, ShortAndInterruptedWritesLoseNothing) {
  const TempFolder folder;
  SystemCalls slow = libc_calls();
  slow.write = Slow::write;
  WriteRules rules;
  rules.calls = &slow;
  std::string text;
  for (int i = 0; i < 3000; ++i) text += std::to_string(i) + " ";
  ASSERT_TRUE(write_whole(folder.file("a"), text, rules));
  EXPECT_EQ(content_of(folder.file("a")), text);
  EXPECT_GT(Slow::calls, 1000);
}

// A real limit of the system, in a process of its own: the file may not grow past 4096 bytes.
TEST(WholeFile, FullDiskLeavesTheOldFile) {
  const TempFolder folder;
  const std::string path = folder.put("a", "old");
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{4096, 4096};
    ::setrlimit(RLIMIT_FSIZE, &small);
    const Result<Done> done = write_whole(path, big, {Replace::force});
    ::_exit(!done && done.fault().line() == path + ": cannot be written: File too large" ? 42 : 1);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 42);
  EXPECT_EQ(content_of(path), "old");
  EXPECT_EQ(folder.entries(), 1u);
}

void clean_up_and_end(int) {
  remove_unfinished_files();
  ::_exit(130);
}

TEST(WholeFile, InterruptLeavesNothing) {
  const TempFolder folder;
  folder.put("kept", "old");
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGTERM, clean_up_and_end);
    auto first = WholeFile::create(folder.file("a"));
    auto second = WholeFile::create(folder.file("kept"), {Replace::force});
    (*first)->append(big);
    (*second)->append(big);
    if (folder.entries() == 3) ::raise(SIGTERM);
    ::_exit(1);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 130);
  EXPECT_EQ(folder.entries(), 1u);
  EXPECT_EQ(content_of(folder.file("kept")), "old");
}

TEST(UnfinishedName, ListHoldsSixtyFourAndGivesPlacesBack) {
  std::vector<std::unique_ptr<UnfinishedName>> names;
  for (int i = 0; i < 64; ++i)
    names.push_back(std::make_unique<UnfinishedName>("/nowhere/" + std::to_string(i)));
  for (const auto& name : names) EXPECT_TRUE(name->held());
  EXPECT_FALSE(UnfinishedName("/nowhere/more").held());
  names.pop_back();
  EXPECT_TRUE(UnfinishedName("/nowhere/more").held());
  EXPECT_FALSE(UnfinishedName(std::string(5000, 'x')).held());
}

TEST(EnsureFolder, MakesWhatIsMissing) {
  const TempFolder folder;
  ASSERT_TRUE(ensure_folder(folder.file("a/b//c")));
  ASSERT_TRUE(ensure_folder(folder.file("a/b/c/")));
  EXPECT_TRUE(std::filesystem::is_directory(folder.file("a/b/c")));
  EXPECT_TRUE(ensure_folder("."));
  EXPECT_TRUE(ensure_folder("/"));
}

TEST(EnsureFolder, SaysWhatIsInTheWay) {
  const TempFolder folder;
  folder.put("file", "x");
  const Result<Done> over = ensure_folder(folder.file("file"));
  ASSERT_FALSE(over);
  EXPECT_EQ(over.fault().line(),
            folder.file("file") + ": is not a folder, so no folder can be made of that name");
  const Result<Done> below = ensure_folder(folder.file("file/sub"));
  ASSERT_FALSE(below);
  EXPECT_EQ(below.fault().where, folder.file("file"));
  EXPECT_EQ(below.fault().exit, ExitCode::file);
  EXPECT_FALSE(ensure_folder(""));
  Failing::from(1, EACCES);
  const Result<Done> denied = ensure_folder(folder.file("new"), failing);
  ASSERT_FALSE(denied);
  EXPECT_EQ(denied.fault().line(), folder.file("new") + ": cannot be made a folder: Permission denied");
}

TEST(FolderOf, IsThePartBeforeTheLastSlash) {
  EXPECT_EQ(folder_of("a.b/c.stl"), "a.b");
  EXPECT_EQ(folder_of("c.stl"), ".");
  EXPECT_EQ(folder_of("/c.stl"), "/");
  EXPECT_EQ(folder_of("/a/b/c"), "/a/b");
}

}  // namespace
}  // namespace crownwright::files
