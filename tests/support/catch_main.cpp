// Catch2 2 needs one file with its main; Catch2 3 links one instead (see tests/CMakeLists.txt).
#define CATCH_CONFIG_MAIN
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>
