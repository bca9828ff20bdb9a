// The main job from end to end: the examples' programs, as they stand in the file, cut the lobes that were
// asked for.
#include "catch.h"
#include "cli/disk.h"
#include "cli/load.h"
#include "cli/post_files.h"
#include "program.h"
#include "small_job.h"
#include "swept_program.h"

#include <lobewright/operations.h>

#include <algorithm>
#include <numbers>

using namespace lobewright;
namespace fs = std::filesystem;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// A job, its lobes and dialect, and the program that `lobewright cut` makes of it.
struct CutJob {
    cli::SolvedJob solved;
    Dialect dialect;
    std::string program;
};

CutJob cut(const fs::path& path) {
    cli::Disk disk;
    KnownShapes shapes;
    cli::Inputs inputs{disk, shapes};
    const Outcome<cli::SolvedJob> solved = cli::load_solved_job(path.string(), inputs);
    REQUIRE(solved.ok());
    const Outcome<Dialect> dialect = cli::load_post_of(solved->job, {}, inputs);
    REQUIRE(dialect.ok());
    const Run run = run_program({"cut", path.string()});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    return {*solved, *dialect, run.out};
}

/// The examples that a machine cuts.
std::vector<fs::path> machine_examples() {
    std::vector<fs::path> examples;
    for (const fs::directory_entry& entry : fs::directory_iterator(source_folder() / "examples")) {
        if (entry.path().extension() != ".toml") continue;
        if (file_text(entry.path()).find("\n[machine]") != std::string::npos)
            examples.push_back(entry.path());
    }
    std::sort(examples.begin(), examples.end());
    return examples;
}

/// The sweep's own error.
constexpr double resolution = 5e-5;

void check_swept(const CutJob& job, const std::vector<sweep::Position>& positions) {
    const SweptShaft swept = sweep_shaft(positions, job.solved.job, job.solved.lobes);
    const double tolerance = job.solved.job.cut->tolerance;
    INFO("deepest " << swept.deepest << " mm, proudest " << swept.proudest << " mm, tolerance " << tolerance);
    CHECK(swept.deepest >= -tolerance - resolution);
    CHECK(swept.proudest <= tolerance + resolution);
    CHECK(swept.rapids_in_stock == 0);
}

}  // namespace

TEST_CASE("every example's program cuts its lobes within tolerance") {
    const std::vector<fs::path> examples = machine_examples();
    REQUIRE(examples.size() >= 2);
    for (const fs::path& path : examples) {
        INFO(path.filename());
        const CutJob job = cut(path);
        check_swept(job, positions_of_text(job.program, job.dialect));
    }
}

TEST_CASE(
    "the ground single: each operation's program cuts what it is to leave, and is proven on its stock") {
    const fs::path path = source_folder() / "examples" / "basalt-single-grinder.toml";
    const TemporaryFolder folder;
    const std::string output = folder.path() / "single-{operation}.ngc";
    const Run run = run_program({"cut", path.string(), "-o", output});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    cli::Disk disk;
    KnownShapes shapes;
    cli::Inputs inputs{disk, shapes};
    const Outcome<cli::SolvedJob> solved = cli::load_solved_job(path.string(), inputs);
    REQUIRE(solved.ok());
    for (const Job& one : jobs_of_operations(solved->job)) {
        INFO(one.operation);
        const fs::path file = folder.path() / ("single-" + one.operation + ".ngc");
        const Outcome<Dialect> dialect = cli::load_post_of(one, {}, inputs);
        REQUIRE(dialect.ok());
        const CutJob job{{one, solved->lobes}, *dialect, file_text(file)};
        check_swept(job, positions_of_text(job.program, job.dialect));
        const Run proof = run_program({"prove", path.string(), file.string(), "--operation", one.operation});
        INFO(proof.out << proof.err);
        CHECK(proof.exit_code == 0);
        const std::string other = one.operation == "grind" ? "rough" : "grind";
        CHECK(run_program({"prove", path.string(), file.string(), "--operation", other}).exit_code != 0);
    }
    const std::string named = folder.path() / "only.ngc";
    CHECK(run_program({"cut", path.string(), "--operation", "grind", "-o", named}).exit_code == 0);
    CHECK(file_text(named) == file_text(folder.path() / "single-grind.ngc"));
}

TEST_CASE("two operations in one program are written, and proven each by its own; a wrong tool fails it") {
    const fs::path path = source_folder() / "tests/cli/golden/cut-one-program/job.toml";
    const TemporaryFolder folder;
    const std::string file = folder.path() / "both.nc";
    const Run run = run_program({"cut", path.string(), "-o", file});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    const Run proof = run_program({"prove", path.string(), file, "--json"});
    CHECK(proof.exit_code == 0);
    CHECK_THAT(proof.out, ContainsSubstring("\"operation\": \"rough\"") &&
                              ContainsSubstring("\"operation\": \"finish\"") &&
                              !ContainsSubstring("\"within_tolerance\": false"));
    write_file(file, with(with(file_text(file), "T0404", "T0504"), "T0400", "T0500"));
    const Run wrong = run_program({"prove", path.string(), file});
    CHECK(wrong.exit_code == 1);
    CHECK_THAT(wrong.out, ContainsSubstring("Operation finish (finisher)") &&
                              ContainsSubstring("tool 5 is put in: the job's cutter is number 4"));
    CHECK_THAT(wrong.err, ContainsSubstring("tool 5 is put in"));
    const Run apart = run_program({"prove", path.string(), file, "--operation", "rough"});
    CHECK(apart.exit_code == 2);
    CHECK_THAT(apart.err, ContainsSubstring("one operation is to be read, with one cutter"));
}

TEST_CASE("the Basalt four is cut to 2 um") {
    for (const char* name : {"basalt-four.toml", "basalt-four-radial.toml"}) {
        const CutJob job = cut(source_folder() / "examples" / name);
        CHECK_NEAR(job.solved.job.cut->tolerance, 0.002, 1e-12);
        CHECK(job.solved.lobes.size() == 8);
    }
}

namespace {

constexpr double base = 6.0, lift = 1.5, opening = 70.0, closing = 100.0, at = 25.0;

/// One lobe that opens faster than it closes, under a flat tappet.
std::string unsymmetrical_job(const std::string& turns, const std::string& rotary_positive) {
    std::string job = small_job();
    job = with(job, R"(shape = "arcs"
base_radius = 6.0
lift = 2.0
action_angle = 120.0
nose_radius = 2.0
)",
               R"(shape = "motion"
base_radius = 6.0
lift = 1.5
law = "polynomial-345"
opening_angle = 70.0
closing_angle = 100.0
)");
    job.erase(job.find("[[lobe]]\nname = \"1 exhaust\""),
              job.find("[cutter.disc]") - job.find("[[lobe]]\nname = \"1 exhaust\""));
    job = with(job, "at = 0.0", "at = 25.0");
    job = with(job, "turns = \"ccw\"", "turns = \"" + turns + "\"");
    return with(job, "rotary_positive = \"ccw\"", "rotary_positive = \"" + rotary_positive + "\"");
}

/// The tappet's lift at a cam angle in degrees: the 3-4-5 polynomial, written out here once more.
double wanted_lift(double alpha) {
    const double x = 1.0 - (alpha < 0.0 ? -alpha / opening : alpha / closing);
    return x <= 0.0 ? 0.0 : lift * x * x * x * (10.0 - 15.0 * x + 6.0 * x * x);
}

/// How far a flat tappet stands from the shaft's axis when the direction `phi` on the shaft faces it.
double tappet_height(const std::vector<double>& radii, double phi) {
    double height = 0.0;
    for (std::size_t i = 0; i < radii.size(); ++i) {
        const double theta = full_turn * static_cast<double>(i) / static_cast<double>(radii.size());
        height = std::max(height, radii[i] * std::cos(theta - phi));
    }
    return height;
}

}  // namespace

// As examples/job-file.md has it: at cam angle a the direction at - s·a on the shaft faces the follower, s =
// +1 on a shaft that runs ccw; the rotary word is -φ where + turns the shaft ccw.
TEST_CASE("an unsymmetrical lobe comes out the right hand on both shafts and both rotary senses") {
    for (const std::string turns : {"ccw", "cw"}) {
        for (const std::string rotary : {"ccw", "cw"}) {
            INFO("shaft " << turns << ", rotary " << rotary);
            const TemporaryFolder folder;
            write_file(folder.path() / "job.toml", unsymmetrical_job(turns, rotary));
            const CutJob job = cut(folder.path() / "job.toml");
            const auto positions = positions_of_text(job.program, job.dialect);
            sweep::Body body = sweep::cutting_body(job.solved.job);
            body.facing_per_degree = rotary == "ccw" ? -degree : degree;
            const sweep::Slab slab(positions, body, 20.0, 8.5);
            std::vector<double> radii(3600);
            for (std::size_t i = 0; i < radii.size(); ++i)
                radii[i] = slab.radius_on(0.1 * degree * static_cast<double>(i));
            const double s = turns == "ccw" ? 1.0 : -1.0;
            double worst = 0.0, mirrored = 0.0;
            for (int alpha = -120; alpha <= 120; ++alpha) {
                const double stands = tappet_height(radii, (at - s * alpha) * degree) - base;
                worst = std::max(worst, std::abs(stands - wanted_lift(alpha)));
                mirrored = std::max(mirrored, std::abs(stands - wanted_lift(-alpha)));
            }
            CHECK(worst < 0.0021);  // the tolerance, and 0.1 degrees between rays
            CHECK(mirrored > 0.2);
        }
    }
}
