// Every call of the system fails in turn: the old file stays, or the new one is there whole, and the program
// says what happened. Every call for every reason: LOBEWRIGHT_THOROUGH=1.
#include "catch.h"
#include "small_job.h"
#include "traced_run.h"

#include <cstdlib>

namespace {

const std::vector<std::string> cutting{"cut", "job.toml", "-o", "out.ngc"};

/// What calls fail with.
std::vector<std::string> reasons() {
    if (std::getenv("LOBEWRIGHT_THOROUGH") == nullptr) return {"EIO"};
    return {"EIO", "ENOSPC", "EACCES", "ENOMEM", "EINTR", "EAGAIN", "EMFILE"};
}

/// The program's own calls, and of its loader's every one only where all is asked for.
std::vector<SystemCall> calls_to_fail(const JobFolder& folder, const std::vector<std::string>& arguments) {
    std::vector<SystemCall> calls = calls_of(folder, arguments);
    if (std::getenv("LOBEWRIGHT_THOROUGH") == nullptr)
        std::erase_if(calls, [](const SystemCall& call) { return !call.after_start; });
    return calls;
}

/// The program's own way to fail. What loads it, before it begins, has others.
bool is_told_end(const Run& run, const SystemCall& call) {
    if (!call.after_start) return run.exit_code != 0;
    return (run.exit_code == 3 || run.exit_code == 70) && !run.err.empty();
}

/// A sanitizer's own calls would fail, too, and it ends the run in its own way then.
bool can_fail_each_call() {
#if defined(__SANITIZE_ADDRESS__)
    return false;
#else
    return can_trace();
#endif
}

}  // namespace

TEST_CASE("whichever call of the system fails, there is the old program or the new one, and a reason") {
    if (!can_fail_each_call()) {
        WARN("no call can be made to fail here: there is no strace, or a sanitizer makes calls of its own");
        return;
    }
    const JobFolder folder(small_job());
    REQUIRE(folder.run({"cut", "job.toml", "--post", "iso6983-xzc", "-o", "out.ngc"}).exit_code == 0);
    const std::string old = file_text(folder / "out.ngc");
    const std::vector<SystemCall> calls = calls_to_fail(folder, cutting);
    REQUIRE(calls.size() > 20);
    const std::string whole = file_text(folder / "out.ngc");
    REQUIRE(whole != old);
    for (const std::string& reason : reasons()) {
        for (const SystemCall& call : calls) {
            write_file(folder / "out.ngc", old);
            const Run run = traced_run(folder, cutting, call, "error=" + reason);
            INFO(call.name << " " << call.count << " fails with " << reason << ": exit code " << run.exit_code
                           << ", " << run.err);
            const std::string text = file_text(folder / "out.ngc");
            CHECK((run.exit_code == 0 || is_told_end(run, call)));
            CHECK((text == whole || (text == old && run.exit_code != 0)));
            if (text == whole && run.exit_code != 0)
                CHECK_THAT(run.err, ContainsSubstring("out.ngc: is written, but"));
            CHECK(folder.files() == 2);
        }
    }
}

TEST_CASE("whichever call fails while a program is proven, nothing is proven that was not read") {
    if (!can_fail_each_call()) {
        WARN("no call can be made to fail here: there is no strace, or a sanitizer makes calls of its own");
        return;
    }
    const JobFolder folder(small_job());
    REQUIRE(folder.run(cutting).exit_code == 0);
    const std::vector<std::string> proving{"prove", "job.toml", "out.ngc"};
    const std::string proof = folder.run(proving).out;
    for (const std::string& reason : reasons()) {
        for (const SystemCall& call : calls_to_fail(folder, proving)) {
            const Run run = traced_run(folder, proving, call, "error=" + reason);
            INFO(call.name << " " << call.count << " fails with " << reason << ": " << run.err);
            CHECK((run.exit_code == 0 ? run.out == proof : is_told_end(run, call)));
        }
    }
}
