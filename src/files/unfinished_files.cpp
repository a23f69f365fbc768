#include "files/unfinished_files.h"

#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <climits>
#include <cstring>

namespace crownwright::files {
namespace {

// A handler may run between any two instructions of any thread, so a slot is published by one atomic store
// after its name is whole, and a name never moves while its slot is published.
enum State : int { free_slot, being_named, named };

struct Slot {
  std::atomic<int> state{free_slot};
  std::array<char, PATH_MAX> path{};
};
static_assert(std::atomic<int>::is_always_lock_free,
              "only lock-free atomics may be used in a signal handler");

std::array<Slot, 64> slots;

}  // namespace

void remove_unfinished_files() noexcept {
  const int saved = errno;
  for (Slot& slot : slots) {
    if (slot.state.load(std::memory_order_acquire) == named) ::unlink(slot.path.data());
  }
  errno = saved;
}

UnfinishedName::UnfinishedName(const std::string& path) noexcept {
  if (path.size() >= PATH_MAX) return;
  for (std::size_t i = 0; i < slots.size(); ++i) {
    int expected = free_slot;
    if (!slots[i].state.compare_exchange_strong(expected, being_named)) continue;
    std::memcpy(slots[i].path.data(), path.c_str(), path.size() + 1);
    slots[i].state.store(named, std::memory_order_release);
    slot_ = static_cast<int>(i);
    return;
  }
}

UnfinishedName::~UnfinishedName() {
  if (held()) slots[static_cast<std::size_t>(slot_)].state.store(free_slot, std::memory_order_release);
}

}  // namespace crownwright::files
