// libFuzzer target: no text makes the order reader crash, and an order that was read, saved and read again
// is the same order.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "order/reader.h"
#include "order/saver.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace crownwright::order;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto order = read_order_text(text, "fuzz.toml");
  if (!order.ok()) {
    if (order.fault().exit != crownwright::ExitCode::order || order.fault().line().empty()) std::abort();
    return 0;
  }
  const auto again = read_order_text(order_text(*order), "fuzz.toml");
  if (!again.ok() || !(*again == *order)) std::abort();
  return 0;
}
