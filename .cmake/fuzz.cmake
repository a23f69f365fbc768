# cmake -C .cmake/fuzz.cmake -S . -B .build/fuzz -G Ninja
# Everything is instrumented, the libraries of this project too; so this build has a folder of its own.
set(CMAKE_CXX_COMPILER clang++ CACHE FILEPATH "libFuzzer comes with clang")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "Build type")
set(CMAKE_CXX_FLAGS "-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all"
  CACHE STRING "Flags of every build")
set(CROWNWRIGHT_FUZZ ON CACHE BOOL "The libFuzzer targets")
set(CROWNWRIGHT_TESTS OFF CACHE BOOL "No tests here")
set(CROWNWRIGHT_UNITY ON CACHE BOOL "A clean build in half the time")
