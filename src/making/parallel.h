#pragma once
// Several forms at a time, on as many cores as there are (oneTBB).

#include <cstddef>
#include <functional>

namespace crownwright::making {

/// Calls work(0) to work(count - 1), each once, in any order and on any thread; returns when all are done.
/// What work throws is thrown on.
void each_in_parallel(std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace crownwright::making
