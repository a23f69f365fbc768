#pragma once
// Where writers put their bytes: one block of memory that is drained when full. A writer never asks whether
// a byte went well; the first fault is kept by the sink and handed out at its end.

#include <cstddef>
#include <cstring>
#include <memory>
#include <span>
#include <string_view>
#include <vector>

namespace crownwright::files {

class ByteSink {
 public:
  /// 256 KiB: few write calls (42 for 216,000 facets), and the block stays in a core's own cache.
  static constexpr std::size_t block_size = 256 * 1024;

  ByteSink() : block_(std::make_unique_for_overwrite<std::byte[]>(block_size)) {}
  virtual ~ByteSink() = default;
  ByteSink(const ByteSink&) = delete;
  ByteSink& operator=(const ByteSink&) = delete;

  void append(std::span<const std::byte> bytes) {
    if (bytes.size() > block_size) return append_directly(bytes);
    std::memcpy(room(bytes.size()).data(), bytes.data(), bytes.size());
    used(bytes.size());
  }
  void append(std::string_view text) { append(std::as_bytes(std::span(text.data(), text.size()))); }

  /// All free memory of the block, at least `least` bytes of it (precondition: least <= block_size).
  /// Fill it from the front and tell with used().
  std::span<std::byte> room(std::size_t least) {
    if (block_size - filled_ < least) drain_block();
    return {block_.get() + filled_, block_size - filled_};
  }
  void used(std::size_t bytes) { filled_ += bytes; }

 protected:
  void drain_block() {
    drain({block_.get(), filled_});
    filled_ = 0;
  }
  /// Takes the bytes on; keeps its fault for later.
  virtual void drain(std::span<const std::byte> bytes) = 0;

 private:
  void append_directly(std::span<const std::byte> bytes) {
    drain_block();
    drain(bytes);
  }

  std::unique_ptr<std::byte[]> block_;
  std::size_t filled_ = 0;
};

/// A file in memory.
class MemorySink : public ByteSink {
 public:
  std::vector<std::byte> take() {
    drain_block();
    return std::move(bytes_);
  }

 private:
  void drain(std::span<const std::byte> bytes) override {
    bytes_.insert(bytes_.end(), bytes.begin(), bytes.end());
  }
  std::vector<std::byte> bytes_;
};

}  // namespace crownwright::files
