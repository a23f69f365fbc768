#pragma once
// This test program can be started again as a reader's child, like the real one. GTest owns main, so it is
// looked at before main runs. Included by one test file only.

#include <unistd.h>

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "files/mesh_reader.h"

namespace crownwright::test {

inline bool end_if_reader_child() {
  std::ifstream in("/proc/self/cmdline", std::ios::binary);
  const std::string all{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  std::vector<const char*> argv;
  for (std::size_t i = 0; i < all.size(); i = all.find('\0', i) + 1) argv.push_back(all.data() + i);
  if (const auto code = files::run_as_reader_child(static_cast<int>(argv.size()), argv.data()))
    ::_exit(*code);
  return true;
}

}  // namespace crownwright::test
