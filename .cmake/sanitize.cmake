# cmake -C .cmake/sanitize.cmake -S . -B .build/sanitize -G Ninja
# -O1 and line numbers alone: with full debug information CGAL's files take twice as long.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "Build type")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1" CACHE STRING "Flags of the Debug build")
set(CROWNWRIGHT_SANITIZE ON CACHE BOOL "Address and undefined-behaviour sanitizers")
set(CROWNWRIGHT_UNITY ON CACHE BOOL "A clean build in half the time")
