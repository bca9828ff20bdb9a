#include "catch.h"
#include "hand_path.h"
#include "outside_interpreter.h"
#include "program.h"
#include "sweep.h"

#include <lobewright/job_file.h>
#include <lobewright/operations.h>
#include <lobewright/program_writer.h>

#include <algorithm>

using namespace lobewright;

namespace {

std::vector<std::filesystem::path> example_jobs() {
    std::vector<std::filesystem::path> jobs;
    for (const auto& entry : std::filesystem::directory_iterator(source_folder() / "examples")) {
        if (entry.path().extension() == ".toml") jobs.push_back(entry.path());
    }
    std::sort(jobs.begin(), jobs.end());
    return jobs;
}

Job read_example(const std::filesystem::path& file) {
    const auto neighbour = [&](const std::string& name) {
        return Outcome<std::string>(file_text(file.parent_path() / name));
    };
    Outcome<Job> job = read_job(file_text(file), file.string(), neighbour);
    if (!job) throw std::runtime_error(to_text(job.diagnostics().front()));
    return *job;
}

/// The interpreter's own moves as places of the machine, mm and degrees.
std::vector<sweep::Position> positions_of(const outside::Reading& reading, const Dialect& dialect) {
    const auto axis = [](char letter) { return std::string("XYZABC").find(letter); };
    const double unit = reading.inches ? 25.4 : 1.0;
    std::vector<sweep::Position> positions;
    for (const outside::Move& move : reading.moves) {
        if (move.kind == outside::Kind::dwell) continue;
        REQUIRE(move.kind != outside::Kind::arc);
        positions.push_back({move.at[axis(dialect.radial.letter)] * unit,
                             move.at[axis(dialect.axial.letter)] * unit, move.at[axis(dialect.rotary.letter)],
                             move.kind == outside::Kind::rapid, move.seconds});
    }
    return positions;
}

/// One of its operations. False where it is not for the rs274ngc family.
bool check_operation(const std::filesystem::path& file, const Job& job) {
    if (!job.machine || job.machine->post.rfind("rs274ngc", 0) != 0) return false;
    const Dialect dialect = shipped_dialect(job.machine->post);
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const auto path = plan_toolpath(job, *lobes, word_grid(dialect, job.units, job.cut->blend));
    if (!path) FAIL(file << ": " << to_text(path.diagnostics().front()));
    const auto program = write_program(job, *lobes, *path, dialect);
    if (!program) FAIL(file << ": " << to_text(program.diagnostics().front()));
    const outside::Reading reading = outside::interpret(*program);
    INFO(file << ": " << reading.error);
    REQUIRE(reading.accepted());

    const std::vector<sweep::Position> positions = positions_of(reading, dialect);
    const sweep::Body body = sweep::cutting_body(job);
    const double blank = *job.shaft.blank_diameter / 2.0;
    std::vector<double> middles;
    for (const SolvedLobe& lobe : *lobes) {
        middles.push_back(lobe.z);
        for (const double part : {-0.499, 0.0, 0.499}) {
            const sweep::Slab slab(positions, body, lobe.z + part * lobe.width, blank);
            const sweep::Comparison found = sweep::compare(slab, lobe, job.cut->allowance, 240);
            CAPTURE(lobe.name, part, found.deepest_at, found.proudest_at);
            const double resolution = 1e-4;  // the interpreter's last printed digit, and the sweep's own
            CHECK(found.deepest >= -job.cut->tolerance - resolution);
            CHECK(found.proudest <= job.cut->tolerance + resolution);
        }
    }
    CHECK(sweep::rapids_in_stock(positions, body, blank, middles) == 0);
    return true;
}

/// How many programs of the example were checked. What it finishes must be within tolerance; every operation
/// of the examples cuts all their lobes, from the bar or from less.
int check_example(const std::filesystem::path& file) {
    int checked = 0;
    for (const Job& one : jobs_of_operations(read_example(file)))
        checked += check_operation(file, one) ? 1 : 0;
    return checked;
}

}  // namespace

TEST_CASE("what an open interpreter makes of every example's program cuts the lobes within their tolerance",
          "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    int checked = 0;
    for (const auto& job : example_jobs())
        checked += check_example(job);
    CHECK(checked >= 4);
}
