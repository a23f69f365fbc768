#include "cli/order_source.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <map>

#include "base/table.h"
#include "order/keys.h"
#include "order/reader.h"

namespace crownwright::cli {
namespace {

constexpr char kFromInput[] = "-";

Result<std::string> read_standard_input() {
  std::string text;
  char buffer[65536];
  // One byte more than a table may have is enough for the reader to refuse it.
  while (text.size() <= largest_table_bytes) {
    const ssize_t got = ::read(STDIN_FILENO, buffer, sizeof buffer);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      return file_fault("standard input", std::string("cannot be read: ") + std::strerror(errno));
    }
    if (got == 0) break;
    text.append(buffer, static_cast<std::size_t>(got));
  }
  return text;
}

}  // namespace

std::string stem_of(const std::string& source) {
  return source == kFromInput ? "order" : std::filesystem::path(source).stem().string();
}

Result<Done> check_stems(const std::vector<std::string>& sources) {
  std::map<std::string, std::string> seen;
  for (const std::string& source : sources) {
    const std::string stem = stem_of(source);
    if (stem.empty() || stem == "." || stem == "..") {
      return order_fault("make", "\"" + source + "\" is not the name of an order file");
    }
    const auto [first, is_new] = seen.emplace(stem, source);
    if (is_new) continue;
    if (first->second == source) return order_fault("make", "\"" + source + "\" is given twice");
    return order_fault("make",
                       "\"" + first->second + "\" and \"" + source +
                           "\" would both be written to the folder \"" + stem + "\"",
                       "rename one, or make them apart with different --into");
  }
  return Done{};
}

Result<order::Order> read_order(const std::string& source) {
  if (source != kFromInput) return order::read_order_file(source);
  const auto text = read_standard_input();
  if (!text) return text.fault();
  return order::read_order_text(*text, "order");
}

Fault fault_of(const std::string& source, const Fault& fault) {
  const bool names_its_file = !fault.where.empty() && order::find_key(fault.where) == nullptr;
  return names_its_file ? fault : fault.within(source == kFromInput ? stem_of(source) : source);
}

}  // namespace crownwright::cli
