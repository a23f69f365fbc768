# cmake -C .cmake/bench.cmake -S . -B .build/bench -G Ninja
set(CMAKE_BUILD_TYPE Release CACHE STRING "Build type")
set(CROWNWRIGHT_BENCH ON CACHE BOOL "The benchmark")
set(CROWNWRIGHT_TESTS OFF CACHE BOOL "No tests here")
set(CROWNWRIGHT_UNITY ON CACHE BOOL "A clean build in half the time")
