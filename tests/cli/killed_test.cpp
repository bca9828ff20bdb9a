// The program killed while it writes over an existing one. LOBEWRIGHT_KILLS says how often; by itself a few
// dozen times.
#include "catch.h"
#include "signalled_run.h"
#include "small_job.h"
#include "traced_run.h"
#include "trials.h"

#include <csignal>
#include <random>

namespace {

constexpr unsigned seed = 20250712;
const std::vector<std::string> cutting{"cut", "job.toml", "-qo", "out.ngc"};

int kills(int by_itself) {
    return campaign("LOBEWRIGHT_KILLS", by_itself);
}

/// A job's folder with the program for another controller in it.
struct OldProgram {
    JobFolder folder{small_job()};
    std::string old, whole;

    OldProgram() {
        whole = folder.run({"cut", "job.toml"}).out;
        old = folder.run({"cut", "job.toml", "--post", "iso6983-xzc"}).out;
        REQUIRE(whole != old);
    }
    void put_back() const { write_file(folder / "out.ngc", old); }
    /// The old one or the new one, and nothing beside it but what the next run takes away.
    [[nodiscard]] bool is_untorn() const {
        const std::string text = file_text(folder / "out.ngc");
        return (text == old || text == whole) && folder.files() <= 3;
    }
};

}  // namespace

TEST_CASE(
    "killed at any moment, the program leaves the old file or the new one, and the next run tidies up") {
    const OldProgram program;
    const unsigned taken = microseconds_for([&] { REQUIRE(program.folder.run(cutting).exit_code == 0); });
    std::mt19937 random(seed);
    INFO("seed " << seed);
    std::uniform_int_distribution<unsigned> moment(0, taken);
    for (int i = 0; i < kills(20); ++i) {
        program.put_back();
        run_and_signal((program.folder / "").parent_path(), cutting, SIGKILL, moment(random));
        CHECK(program.is_untorn());
    }
    // A run that is refused writes nothing, and tidies up all the same.
    CHECK(program.folder.run({"cut", "job.toml", "--lobe", "none", "-o", "out.ngc"}).exit_code == 2);
    CHECK(program.folder.files() == 2);
}

TEST_CASE("killed at any call of the system, the program leaves the old file or the new one") {
    if (!can_trace()) {
        WARN("strace can't be had here: it isn't killed at its calls");
        return;
    }
    const OldProgram program;
    program.put_back();
    std::vector<SystemCall> calls = calls_of(program.folder, cutting);
    std::erase_if(calls, [](const SystemCall& call) { return !call.after_start; });
    REQUIRE(calls.size() > 20);
    std::mt19937 random(seed);
    INFO("seed " << seed);
    int new_ones = 0;
    for (int i = 0; i < kills(60); ++i) {
        // The last first: where there are more than kills, those about the new file count most.
        const std::size_t from_end =
            i < static_cast<int>(calls.size()) ? static_cast<std::size_t>(i) : random() % calls.size();
        const SystemCall& call = calls[calls.size() - 1 - from_end];
        INFO("at " << call.name << " " << call.count);
        program.put_back();
        traced_run(program.folder, cutting, call, "signal=SIGKILL");
        CHECK(program.is_untorn());
        new_ones += file_text(program.folder / "out.ngc") == program.whole ? 1 : 0;
    }
    // Some calls come after it took its place.
    CHECK(new_ones > 0);
    CHECK(program.folder.run(cutting).exit_code == 0);
    CHECK(program.folder.files() == 2);
}
