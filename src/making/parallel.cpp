#include "making/parallel.h"

#include <tbb/parallel_for.h>

namespace crownwright::making {

void each_in_parallel(std::size_t count, const std::function<void(std::size_t)>& work) {
  tbb::parallel_for(std::size_t{0}, count, work);
}

}  // namespace crownwright::making
