// Out of memory, at one allocation after the other of a whole cut: the program ends with its own exit code
// and a word, leaves the old program as it was, and loses no memory. At each allocation the process parts in
// two: in one it fails, the other goes on to the next. Every allocation: LOBEWRIGHT_THOROUGH=1.
#include "catch.h"
#include "cli/commands.h"
#include "cli/system/process.h"
#include "program.h"
#include "small_job.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <new>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

/// What an allocation does beside its work: nothing; parting at those that are chosen; or failing at one.
enum class Trial { none, parting, failing };
Trial trial = Trial::none;
long allocations_made = 0, allocations_live = 0;
long next_chosen = 0, fails_at = 0;
bool is_child = false;

/// What the child tells: it can't return anything else.
struct Told {
    bool came_back;  // from run(), and did not end at once
    int exit_code;
    long lost;
};
Told* told = nullptr;

void part_at_chosen();

void* allocate(std::size_t size, bool may_fail) {
    void* memory = nullptr;
    if (trial != Trial::none && may_fail) {
        ++allocations_made;
        if (trial == Trial::parting && allocations_made == next_chosen) part_at_chosen();
        if (trial == Trial::failing && allocations_made == fails_at) return nullptr;
    }
    memory = std::malloc(size > 0 ? size : 1);
    if (memory != nullptr) ++allocations_live;
    return memory;
}

void* allocate_or_throw(std::size_t size) {
    if (void* memory = allocate(size, true)) return memory;
    throw std::bad_alloc();
}

void release(void* memory) {
    if (memory != nullptr) --allocations_live;
    std::free(memory);
}

}  // namespace

void* operator new(std::size_t size) {
    return allocate_or_throw(size);
}
void* operator new[](std::size_t size) {
    return allocate_or_throw(size);
}
// Those who ask with nothrow can live without: they are let be.
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    return allocate(size, false);
}
void operator delete(void* memory) noexcept {
    release(memory);
}
void operator delete[](void* memory) noexcept {
    release(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    release(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
    release(memory);
}
void operator delete(void* memory, const std::nothrow_t&) noexcept {
    release(memory);
}

namespace {

/// How one allocation that failed ended.
struct Ending {
    long allocation;
    int exit_code;
    long lost;
    std::array<char, 200> said;  // its beginning, without memory of its own
    bool old_is_there, new_is_there, alone;
};

/// A cut over an old program, in a folder of its own, with standard error in a file.
class TriedCut {
  public:
    TriedCut() {
        write_file(folder_.path() / "job.toml", small_job());
        REQUIRE(run({"cut", job(), "--post", "iso6983-xzc", "-qo", out()}) == 0);
        old_ = file_text(out());
        REQUIRE(std::freopen(said().c_str(), "a", stderr) != nullptr);
    }
    /// The exit code of one run, and what it lost of memory.
    int cut(long& lost) const {
        const long live = allocations_live;
        const int code = run(arguments_);
        lost = allocations_live - live;
        return code;
    }
    void note_new() { new_ = file_text(out()); }
    void put_back() const { write_file(out(), old_); }
    void say_nothing() const {
        if (ftruncate(STDERR_FILENO, 0) != 0) std::abort();
    }
    [[nodiscard]] Ending ending(long allocation, int exit_code, long lost) const {
        const auto files = std::distance(std::filesystem::directory_iterator(folder_.path()),
                                         std::filesystem::directory_iterator());
        const std::string text = file_text(out());
        Ending ending{allocation, exit_code, lost, {}, text == old_, text == new_, files == 2};
        file_text(said()).copy(ending.said.data(), ending.said.size() - 1);
        return ending;
    }
    /// Whether a temporary file lies there, which two processes can't both have.
    [[nodiscard]] bool is_writing() const { return !ending(0, 0, 0).alone; }

  private:
    static int run(const std::vector<std::string>& arguments) { return lobewright::cli::run(arguments); }
    [[nodiscard]] std::string job() const { return folder_.path() / "job.toml"; }
    [[nodiscard]] std::string out() const { return folder_.path() / "out.ngc"; }
    [[nodiscard]] std::string said() const { return elsewhere_.path() / "said"; }

    TemporaryFolder folder_, elsewhere_;
    std::string old_, new_;
    std::vector<std::string> arguments_{"cut", job(), "-o", out()};
};

TriedCut* tried = nullptr;
std::vector<Ending>* endings = nullptr;
long writing_since = 0;  // the allocation from which on it can't part any more; 0: none yet

bool is_thorough() {
    return std::getenv("LOBEWRIGHT_THOROUGH") != nullptr;
}

long all_of_a_cut = 0;

/// The next one to fail: every one at the end, where the file is written.
long chosen_after(long allocation) {
    constexpr long at_the_end = 80;
    const long next = allocation + 1 + (is_thorough() ? 0 : allocation / 60);
    return next > all_of_a_cut - at_the_end ? std::max(allocation + 1, all_of_a_cut - at_the_end) : next;
}

/// How a child that was given a failing allocation ended.
void note_end_of(pid_t child, long allocation) {
    int status = 0;
    const bool ended = waitpid(child, &status, 0) == child && WIFEXITED(status);
    const int code = !ended ? -1 : told->came_back ? told->exit_code : WEXITSTATUS(status);
    endings->push_back(tried->ending(allocation, code, told->came_back ? told->lost : 0));
    tried->say_nothing();
    tried->put_back();
}

void part_at_chosen() {
    const long here = allocations_made;
    trial = Trial::none;
    next_chosen = chosen_after(here);
    if (writing_since == 0 && tried->is_writing()) writing_since = here;
    if (writing_since == 0) {
        *told = {};
        const pid_t child = fork();
        is_child = child == 0;
        if (child > 0) note_end_of(child, here);
    }
    fails_at = here;
    trial = is_child ? Trial::failing : Trial::parting;
}

/// The chosen allocations that come before a file is being written.
void try_by_parting() {
    long lost = 0;
    next_chosen = 1;
    allocations_made = 0;
    trial = Trial::parting;
    const int code = tried->cut(lost);
    trial = Trial::none;
    if (is_child) {
        *told = {true, code, lost};
        _exit(0);
    }
    CHECK(code == 0);
    CHECK(lost == 0);
}

/// All from there on, each in a run of its own.
void try_one_by_one(long last) {
    for (long nth = writing_since; nth <= last; ++nth) {
        *told = {};
        const pid_t child = fork();
        if (child == 0) {
            allocations_made = 0;
            fails_at = nth;
            trial = Trial::failing;
            long lost = 0;
            const int code = tried->cut(lost);
            *told = {true, code, lost};
            _exit(0);
        }
        note_end_of(child, nth);
    }
}

}  // namespace

TEST_CASE("an allocation that fails ends the run with exit code 70 and a word, and the old program stays") {
    lobewright::cli::prepare_process();
    told = static_cast<Told*>(
        mmap(nullptr, sizeof(Told), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0));
    REQUIRE(told != MAP_FAILED);
    TriedCut cut;
    tried = &cut;
    std::vector<Ending> all;
    endings = &all;
    long lost = 0;
    REQUIRE(cut.cut(lost) == 0);  // what stays for good is made once
    cut.note_new();
    allocations_made = 0;
    trial = Trial::failing;
    fails_at = 0;
    REQUIRE(cut.cut(lost) == 0);
    trial = Trial::none;
    all_of_a_cut = allocations_made;
    all.reserve(static_cast<std::size_t>(is_thorough() ? all_of_a_cut + 1 : 2000));
    cut.put_back();
    cut.say_nothing();
    try_by_parting();
    const long last = allocations_made;
    REQUIRE(writing_since > 0);
    cut.put_back();
    cut.say_nothing();
    try_one_by_one(last);
    std::size_t outlived = 0;
    for (const Ending& each : all) {
        INFO("allocation " << each.allocation << " of " << last << " failed: exit code " << each.exit_code
                           << ", lost " << each.lost << ", " << each.said.data());
        // What can do without, or asks a second time, lives through it, and then all is there.
        const bool ended = (each.exit_code == 70 || each.exit_code == 3) && each.old_is_there;
        const bool lived = each.exit_code == 0 && each.new_is_there;
        CHECK((ended || lived));
        CHECK(each.said.front() != '\0');
        outlived += lived ? 1 : 0;
        CHECK(each.alone);
        CHECK(each.lost == 0);
    }
    WARN(all.size() << " of " << last << " allocations were made to fail");
    CHECK(all.size() > 200);
    CHECK(50 * outlived < all.size());
}
