// The child's side of reader_child.cpp.

#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <cstring>
#include <new>
#include <string>
#include <string_view>
#include <vector>

#include "files/assimp_scene.h"
#include "files/child_message.h"
#include "files/mesh_reader.h"

namespace crownwright::files {
namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool address_space_is_ours = false;  // AddressSanitizer reserves terabytes of it
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
constexpr bool address_space_is_ours = false;
#else
constexpr bool address_space_is_ours = true;
#endif
#else
constexpr bool address_space_is_ours = true;
#endif

struct Work {
  std::string path;
  std::uint64_t memory = 0, cpu_seconds = 0, bytes = 0, facets = 0;
};

bool read_number(std::string_view text, std::uint64_t& value) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size();
}

bool read_work(int argc, const char* const* argv, Work& work) {
  if (argc != 7) return false;
  work.path = argv[2];
  return read_number(argv[3], work.memory) && read_number(argv[4], work.cpu_seconds) &&
         read_number(argv[5], work.bytes) && read_number(argv[6], work.facets);
}

void limit(__rlimit_resource what, std::uint64_t soft, std::uint64_t hard) {
  const rlimit value{soft, hard};
  if (::setrlimit(what, &value) != 0) ::_exit(3);
}

void fence_in(const Work& work) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // whatever ends the parent ends the child
  limit(RLIMIT_CORE, 0, 0);
  limit(RLIMIT_FSIZE, 0, 0);
  limit(RLIMIT_CPU, work.cpu_seconds, work.cpu_seconds + 2);
  if (address_space_is_ours) limit(RLIMIT_AS, work.memory, work.memory);
}

Fault out_of_memory(const Work& work) {
  return file_fault(work.path, "cannot be read: its reader needs more than " +
                                   std::to_string(work.memory / 1'000'000) + " MB of memory");
}

Result<mesh::TriangleMesh> read(const Work& work) {
  try {
    const ReadLimits limits{work.bytes, static_cast<std::uint32_t>(work.facets)};
    if (const Result<Bytes> whole = read_whole(work.path, limits.bytes); !whole) return whole.fault();
    return read_with_assimp(work.path, limits);
  } catch (const std::bad_alloc&) {
    return out_of_memory(work);
  } catch (const std::exception& error) {
    return file_fault(work.path, std::string("cannot be understood: ") + error.what());
  }
}

bool say(std::span<const std::byte> message) {
  while (!message.empty()) {
    const ssize_t written = ::write(STDOUT_FILENO, message.data(), message.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    message = message.subspan(static_cast<std::size_t>(written));
  }
  return true;
}

// With no memory left even an exception may find no way out, and Assimp swallows those that do; so the last
// words are made ready beforehand and said where the memory ends.
std::vector<std::byte> last_words;

void end_out_of_memory() { ::_exit(say(last_words) ? 0 : 1); }

}  // namespace

std::optional<int> run_as_reader_child(int argc, const char* const* argv) {
  if (argc < 2 || std::strcmp(argv[1], "--read-mesh-child") != 0) return std::nullopt;
  Work work;
  if (!read_work(argc, argv, work)) return 2;
  last_words = child_message(out_of_memory(work));
  std::set_new_handler(end_out_of_memory);
  fence_in(work);
  return say(child_message(read(work))) ? 0 : 1;
}

}  // namespace crownwright::files
