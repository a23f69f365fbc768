# cmake -C .cmake/release.cmake -S . -B .build/release -G Ninja
set(CMAKE_BUILD_TYPE Release CACHE STRING "Build type")
set(CROWNWRIGHT_UNITY ON CACHE BOOL "A clean build in half the time")
