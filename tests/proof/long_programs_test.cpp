/// What a long program costs: work by the number of moves looked at, memory by the operating system's own
/// accounting of a run of the built program.
#include "catch.h"
#include "long_program.h"
#include "program.h"
#include "proof/judge/shaft_proof.h"

#include <algorithm>
#include <fstream>
#include <numeric>
#include <random>
#include <sstream>
#include <sys/resource.h>

using namespace lobewright;

namespace {

ProofCase one_lobe() {
    return proof_case(row_of_lobes(1).job);
}

std::vector<int> in_order(int count) {
    std::vector<int> places(static_cast<std::size_t>(count));
    std::iota(places.begin(), places.end(), 0);
    return places;
}

/// Of a row whose lobes are cut in that order.
proof::ProofWork work_of(const ProofCase& one, const std::vector<int>& places) {
    std::ostringstream text;
    write_long_program(one, places, 1, text);
    const ProofCase row = row_of_lobes(static_cast<int>(places.size()));
    const proof::CutterBody body = proof::cutter_body(row.job);
    proof::ProgramTally tally(row.job, row.dialect, body);
    const auto program = read_program(text.str(), "program.ngc", row.dialect, row.job.units);
    REQUIRE(program.ok());
    for (const ReadMove& move : program->moves)
        tally.take(move);
    proof::ProofWork work;
    const ProofReport report = proof::judge_shaft(row.job, row.lobes, body, *program, tally, &work);
    INFO(findings_text(report));
    CHECK(report.within_tolerance);
    return work;
}

}  // namespace

TEST_CASE("each lobe looks at its own moves, however many others there are") {
    const ProofCase one = one_lobe();
    const proof::ProofWork few = work_of(one, in_order(4)), many = work_of(one, in_order(192));
    REQUIRE(few.planes * 48 == many.planes);
    CAPTURE(few.moves, many.moves);
    CHECK(static_cast<double>(many.moves) < 48.0 * 1.25 * static_cast<double>(few.moves));
    // Twice to make room for them and to sweep them, and the ends of the neighbours' moves.
    const std::size_t own = read_program(one.text, "program.ngc", one.dialect, one.job.units)->moves.size();
    CHECK(static_cast<double>(many.moves) < 192.0 * 4.0 * static_cast<double>(own));
}

TEST_CASE("which lobe's moves come first does not matter to the work") {
    const ProofCase one = one_lobe();
    std::vector<int> places = in_order(96);
    const proof::ProofWork along = work_of(one, places);
    std::mt19937 random(11);
    std::shuffle(places.begin(), places.end(), random);
    const proof::ProofWork shuffled = work_of(one, places);
    CAPTURE(along.moves, shuffled.moves);
    CHECK(shuffled.moves < 2 * along.moves);
}

// The sanitizers keep what is freed: a figure of theirs says nothing.
#if !defined(__SANITIZE_ADDRESS__)
TEST_CASE("a program of a million blocks is proven in less than 100 MB", "[memory]") {
    struct Length {
        int lobes, parts;
    };
    const Length length{64, 360};
    const ProofCase one = one_lobe();
    const TemporaryFolder folder;
    std::ofstream program(folder.path() / "row.ngc");
    const int blocks = write_long_program(one, in_order(length.lobes), length.parts, program);
    program.close();
    CHECK(blocks > 1000000);
    write_file(folder.path() / "row.toml", row_job_text(length.lobes));
    const Run run = run_program({"prove", "row.toml", "row.ngc"}, folder.path());
    INFO(run.out << run.err);
    CHECK(run.exit_code == 0);
    rusage used{};
    REQUIRE(getrusage(RUSAGE_CHILDREN, &used) == 0);
    CHECK(used.ru_maxrss < 100 * 1000);  // kB, the most of any child
}
#endif
