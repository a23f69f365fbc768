#pragma once
// An ordinary file, read whole into memory. Nothing else is opened: pipes and devices could hang or never
// end.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"

namespace crownwright::files {

/// What may come in from outside.
struct ReadLimits {
  std::uint64_t bytes = 200'000'084;  ///< chosen: 4 million facets of binary STL
  std::uint32_t facets = 4'000'000;   ///< chosen: twenty times a fine block
};

class Bytes {
 public:
  Bytes(std::unique_ptr<std::byte[]> data, std::size_t size) : data_(std::move(data)), size_(size) {}
  std::span<const std::byte> span() const { return {data_.get(), size_}; }
  std::string_view text() const { return {reinterpret_cast<const char*>(data_.get()), size_}; }

 private:
  std::unique_ptr<std::byte[]> data_;
  std::size_t size_;
};

/// Faults (exit 4): cannot be opened, not an ordinary file, larger than `most` bytes, changed while read.
/// A symbolic link is followed. A FIFO or device is refused without waiting.
Result<Bytes> read_whole(const std::string& path, std::uint64_t most);

/// At most the first `most` bytes; same faults, but a longer file is fine.
Result<Bytes> read_start(const std::string& path, std::uint64_t most);

}  // namespace crownwright::files
