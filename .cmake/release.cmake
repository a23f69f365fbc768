# cmake -C .cmake/release.cmake -S . -B .build/release -G Ninja
set(CMAKE_BUILD_TYPE Release CACHE STRING "Build type")
