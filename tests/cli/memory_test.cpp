// Out of memory, at one allocation after the other: the program ends with its own exit code and writes
// nothing.
#include "catch.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "program.h"
#include "small_job.h"

#include <cstdio>
#include <cstdlib>
#include <new>

namespace {

/// Counts down to the allocation that fails; negative: none does.
long allocations_left = -1;
long allocations_made = 0;
bool failed = false;

void* allocate(std::size_t size) {
    ++allocations_made;
    if (allocations_left >= 0 && allocations_left-- == 0) {
        failed = true;
        throw std::bad_alloc();
    }
    void* memory = std::malloc(size > 0 ? size : 1);
    if (memory == nullptr) throw std::bad_alloc();
    return memory;
}

}  // namespace

void* operator new(std::size_t size) {
    return allocate(size);
}
void* operator new[](std::size_t size) {
    return allocate(size);
}
// Those who ask with nothrow can live without: they are let be.
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    return std::malloc(size > 0 ? size : 1);
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete[](void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
    std::free(memory);
}
void operator delete(void* memory, const std::nothrow_t&) noexcept {
    std::free(memory);
}

TEST_CASE("an allocation that fails ends the run with an error, nearly always 70, and without a file") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    const std::string out = (folder.path() / "out").string();
    write_file(job, small_job());
    REQUIRE(std::freopen("/dev/null", "w", stderr) != nullptr);
    const std::vector<std::string> arguments{"cut", job, "-o", out};
    long tried = 0, out_of_memory = 0;
    // The command line is left out: the library that reads it has functions that promise not to throw, but
    // allocate.
    allocations_made = 0;
    REQUIRE(lobewright::cli::parse_command_line(arguments).ok());
    const long by_the_command_line = allocations_made;
    for (long nth = by_the_command_line;; nth += 1 + nth / 100) {
        allocations_left = nth;
        failed = false;
        const int code = lobewright::cli::run(arguments);
        allocations_left = -1;
        const bool written = std::filesystem::exists(out);
        if (!failed) {
            CHECK(code == 0);
            CHECK(written);
            break;
        }
        INFO("allocation " << nth);
        CHECK(code != 0);
        out_of_memory += code == lobewright::cli::exit_bug ? 1 : 0;
        CHECK_FALSE(written);
        std::filesystem::remove(out);
        ++tried;
    }
    CHECK(tried > 50);
    // The standard library's reading of numbers turns a failed allocation into "not a number", which then is
    // the file's fault, with an exit code of its own.
    CHECK(20 * out_of_memory > 19 * tried);
}
