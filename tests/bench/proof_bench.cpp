// Figures of the proof: blocks read in a second, time to prove the eight lobes, and the same comparison by
// general polygon union and difference beside it (GEOS, where it is installed), with time and error of both.

#include "catch.h"
#include "program.h"
#include "proof/judge/lobe_planes.h"
#include "stopwatch.h"
#include "sweep.h"

#include <lobewright/job_file.h>
#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>
#include <iostream>

#ifdef LOBEWRIGHT_HAS_GEOS
#include <geos_c.h>
#endif

using namespace lobewright;

namespace {

struct Proven {
    Job job;
    std::vector<SolvedLobe> lobes;
    Dialect dialect;
    std::string text;
};

/// The Basalt four at a tolerance of 0.001 mm; `finish_only`: without its roughing and spring passes.
Proven basalt_four(bool finish_only) {
    const auto file = source_folder() / "examples" / "basalt-four.toml";
    Proven made;
    made.job = *read_job(file_text(file), file.string(),
                         [](const std::string&) { return Outcome<std::string>(std::string()); });
    made.job.cut->tolerance = 0.001;
    if (finish_only)
        made.job.cut->rough_depth.reset(), made.job.cut->finish_depth = 10.0, made.job.cut->spring_passes = 0;
    const auto post = source_folder() / "postprocessors" / (made.job.machine->post + ".toml");
    made.dialect = *read_dialect(file_text(post), post.string());
    made.lobes = *solve_lobes(made.job);
    const auto path = plan_toolpath(made.job, made.lobes, word_grid(made.dialect, made.job.units));
    REQUIRE(path.ok());
    made.text = *write_program(made.job, made.lobes, *path, made.dialect);
    return made;
}

ReadProgram read(const Proven& made) {
    return *read_program(made.text, "program.ngc", made.dialect, made.job.units);
}

constexpr int rays = 360;
double ray_angle(int ray) {
    return full_turn * (ray + 0.37) / rays;
}

/// Remaining radius on every ray of every lobe, in the plane of its middle.
using Radii = std::vector<double>;

Radii by_proof(const Proven& made) {
    const auto body = proof::cutter_body(made.job);
    const double stock = *made.job.shaft.blank_diameter / 2.0;
    const proof::ShaftMoves moves = proof::shaft_moves(read(made), body);
    const proof::MovesAlongShaft cutting = proof::moves_below(moves, body.cutting, stock);
    Radii radii;
    for (const SolvedLobe& lobe : made.lobes) {
        const proof::PlaneSweep plane(cutting, body.cutting, lobe.z, stock);
        for (int ray = 0; ray < rays; ++ray)
            radii.push_back(plane.left_on(ray_angle(ray)).radius);
    }
    return radii;
}

/// The tests' own brute force, its minima closed in on to 1e-9 rad: the truth that the others are held to.
Radii by_brute_force(const Proven& made) {
    std::vector<sweep::Position> positions;
    for (const ReadMove& move : read(made).moves) {
        if (std::isnan(move.axial) || std::isnan(move.rotary)) continue;
        positions.push_back({move.radial, move.axial, move.rotary, move.kind == ReadMoveKind::rapid,
                             move.seconds, move.line});
    }
    Radii radii;
    for (const SolvedLobe& lobe : made.lobes) {
        const sweep::Slab slab(positions, sweep::cutting_body(made.job), lobe.z,
                               *made.job.shaft.blank_diameter / 2.0);
        for (int ray = 0; ray < rays; ++ray)
            radii.push_back(slab.radius_on(ray_angle(ray)));
    }
    return radii;
}

double worst_difference(const Radii& a, const Radii& b) {
    double worst = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
        worst = std::max(worst, std::abs(a[i] - b[i]));
    return worst;
}

#ifdef LOBEWRIGHT_HAS_GEOS

/// General polygons in place of the proof's own rays: what GEOS leaves of the blank in each lobe's middle.
class PolygonSweep {
  public:
    explicit PolygonSweep(const Proven& made)
        : made_(made), body_(proof::cutter_body(made.job)), geos_(GEOS_init_r()) {}
    ~PolygonSweep() { GEOS_finish_r(geos_); }
    PolygonSweep(const PolygonSweep&) = delete;
    PolygonSweep& operator=(const PolygonSweep&) = delete;

    /// The cutter as a regular polygon, moved on in steps; from step to step it sweeps the hull of both; all
    /// hulls are united.
    Radii by_hulls(int corners, double step_degrees) {
        return radii(corners, [&](double z) {
            std::vector<GEOSGeometry*> hulls;
            for (const std::vector<Vec2>& path : paths_at(z, step_degrees)) {
                for (std::size_t i = 0; i + 1 < path.size(); ++i)
                    hulls.push_back(hull(path[i], path[i + 1], corners));
            }
            GEOSGeometry* all = GEOSGeom_createCollection_r(geos_, GEOS_GEOMETRYCOLLECTION, hulls.data(),
                                                            static_cast<unsigned>(hulls.size()));
            GEOSGeometry* swept = GEOSUnaryUnion_r(geos_, all);
            GEOSGeom_destroy_r(geos_, all);
            return swept;
        });
    }

    /// What a user of the library would do: the path of the cutter's centre as a line of chords, and one
    /// buffer of it by the cutter's radius.
    Radii by_buffer(int corners, double step_degrees) {
        return radii(corners, [&](double z) {
            std::vector<GEOSGeometry*> lines;
            for (const std::vector<Vec2>& path : paths_at(z, step_degrees))
                lines.push_back(GEOSGeom_createLineString_r(geos_, sequence(path)));
            GEOSGeometry* all = GEOSGeom_createCollection_r(geos_, GEOS_MULTILINESTRING, lines.data(),
                                                            static_cast<unsigned>(lines.size()));
            GEOSGeometry* swept = GEOSBuffer_r(geos_, all, body_.cutting.radius, corners / 4);
            GEOSGeom_destroy_r(geos_, all);
            return swept;
        });
    }

  private:
    template <class Sweep>
    Radii radii(int corners, Sweep sweep) {
        Radii radii;
        for (const SolvedLobe& lobe : made_.lobes) {
            GEOSGeometry* swept = sweep(lobe.z);
            GEOSGeometry* blank = circle({0.0, 0.0}, *made_.job.shaft.blank_diameter / 2.0, corners);
            GEOSGeometry* left = GEOSDifference_r(geos_, blank, swept);
            for (int ray = 0; ray < rays; ++ray)
                radii.push_back(radius_on(left, ray_angle(ray)));
            for (GEOSGeometry* geometry : {swept, blank, left})
                GEOSGeom_destroy_r(geos_, geometry);
        }
        return radii;
    }

    GEOSCoordSequence* sequence(const std::vector<Vec2>& points) {
        GEOSCoordSequence* made = GEOSCoordSeq_create_r(geos_, static_cast<unsigned>(points.size()), 2);
        for (std::size_t i = 0; i < points.size(); ++i)
            GEOSCoordSeq_setXY_r(geos_, made, static_cast<unsigned>(i), points[i].x, points[i].y);
        return made;
    }

    GEOSGeometry* circle(Vec2 centre, double radius, int corners) {
        std::vector<Vec2> points;
        for (int i = 0; i <= corners; ++i)
            points.push_back(centre + radius * unit(full_turn * (i % corners) / corners));
        return GEOSGeom_createPolygon_r(geos_, GEOSGeom_createLinearRing_r(geos_, sequence(points)), nullptr,
                                        0);
    }

    GEOSGeometry* hull(Vec2 from, Vec2 to, int corners) {
        const double radius = body_.cutting.radius;
        GEOSGeometry* both[2] = {circle(from, radius, corners), circle(to, radius, corners)};
        GEOSGeometry* pair = GEOSGeom_createCollection_r(geos_, GEOS_MULTIPOLYGON, both, 2);
        GEOSGeometry* hull = GEOSConvexHull_r(geos_, pair);
        GEOSGeom_destroy_r(geos_, pair);
        return hull;
    }

    /// Of the cutter's centre, in the plane at z, in chords of at most a step.
    std::vector<std::vector<Vec2>> paths_at(double z, double step_degrees) {
        std::vector<std::vector<Vec2>> paths;
        const proof::ShaftMoves moves = proof::shaft_moves(read(made_), body_);
        int last = -2;
        for (int index = 0; index < moves.size(); ++index) {
            const proof::ShaftMove move = moves[index];
            if (move.rapid || std::abs(move.from.z - z) > body_.cutting.last) continue;
            const int parts = std::max(
                1, static_cast<int>(std::ceil(std::abs(move.turn()) * 360.0 / full_turn / step_degrees)));
            const auto centre = [&](int i) {
                const double share = static_cast<double>(i) / parts;
                return (move.from.tip + share * (move.to.tip - move.from.tip) + body_.cutting.radius) *
                       unit(move.from.facing + share * move.turn());
            };
            if (last != index - 1) paths.push_back({centre(0)});
            for (int i = 1; i <= parts; ++i)
                paths.back().push_back(centre(i));
            last = index;
        }
        return paths;
    }

    double radius_on(const GEOSGeometry* left, double psi) {
        GEOSGeometry* ray = GEOSGeom_createLineString_r(
            geos_, sequence({{0.0, 0.0}, {100.0 * std::cos(psi), 100.0 * std::sin(psi)}}));
        GEOSGeometry* inside = GEOSIntersection_r(geos_, ray, left);
        double length = 0.0;
        GEOSLength_r(geos_, inside, &length);
        GEOSGeom_destroy_r(geos_, ray);
        GEOSGeom_destroy_r(geos_, inside);
        return length;
    }

    const Proven& made_;
    proof::CutterBody body_;
    GEOSContextHandle_t geos_;
};

#endif

}  // namespace

// The aim: at least a million blocks a second on one core.
TEST_CASE("blocks read in a second", "[proof]") {
    const Proven made = basalt_four(false);
    std::string text = "G18 G21 G90\nG54 G61\nS160 M3\nG0 X40\nG0 Z20\nG0 A0\nG93\n";
    constexpr int blocks = 1000000;
    for (int i = 0; i < blocks; i += 4) {
        text +=
            "G1 X32.6304 A1537.663 F550.2665\nX32.8076 A1541.2874 F713.4635\nX32.9577 A1545.0037 "
            "F547.6684\nX33.0836 A1548.9102 F397.3782\n";
    }
    text += "M30\n";
    int read_blocks = 0;
    const Spent spent = median_spent(5, [&] {
        const auto program = read_program(text, "program.ngc", made.dialect, Units::mm);
        REQUIRE(program.ok());
        read_blocks = program->blocks;
    });
    CHECK(read_blocks == blocks + 8);
    std::cout << "reader: " << read_blocks / spent.processor / 1e6
              << " million blocks a second of the processor, " << spent << "\n";
    CHECK(read_blocks / spent.processor > 1e6);
}

// The aim: under 0.25 s on one core.
TEST_CASE("proof of the eight lobes at 0.001 mm", "[proof]") {
    const Proven made = basalt_four(false);
    Outcome<ProofReport> report = prove(made.job, made.lobes, made.dialect, made.text, "program.ngc");
    const Spent spent = median_spent(
        9, [&] { report = prove(made.job, made.lobes, made.dialect, made.text, "program.ngc"); });
    REQUIRE(report.ok());
    CHECK(report->within_tolerance);
    std::cout << "proof: " << report->blocks << " blocks, " << report->lobes.size() << " lobes in " << spent
              << ", resolution " << report->resolution * 1e3 << " um\n";
    CHECK(spent.processor < 0.25);
}

// The aim: at least ten times more exact than general polygons at any of these settings, and faster than the
// finest of them.
TEST_CASE("the proof beside general polygons", "[proof][geos]") {
#ifdef LOBEWRIGHT_HAS_GEOS
    const Proven made = basalt_four(true);
    const Radii truth = by_brute_force(made);
    const Spent proof =
        median_spent(5, [&] { (void)prove(made.job, made.lobes, made.dialect, made.text, "program.ngc"); });
    const double proof_error = worst_difference(by_proof(made), truth);
    std::cout << "finish passes of the eight lobes; error: worst radius on " << rays
              << " rays of each, against brute force; GEOS " << GEOSversion() << "\n"
              << "  proof: " << proof << ", error " << proof_error * 1e3 << " um\n";
    const auto hold = [&](const std::string& what, const auto& radii_of) {
        Radii radii;
        const Spent spent = median_spent(1, [&] { radii = radii_of(PolygonSweep(made)); });
        const double error = worst_difference(radii, truth);
        std::cout << "  " << what << ": " << spent << ", " << spent.processor / proof.processor
                  << " times, error " << error * 1e3 << " um, " << error / proof_error << " times\n";
        CHECK(error > 10.0 * proof_error);
        return spent;
    };
    for (const auto& [corners, step] : {std::pair{180, 2.0}, std::pair{720, 0.5}}) {
        hold("union of hulls, " + std::to_string(corners) + " corners, " + std::to_string(step) + " degrees",
             [c = corners, s = step](PolygonSweep&& sweep) { return sweep.by_hulls(c, s); });
    }
    Spent finest;
    for (const auto& [corners, step] : {std::pair{720, 0.5}, std::pair{2880, 0.1}}) {
        finest = hold("one buffer of the centre's path, " + std::to_string(corners) + " corners, " +
                          std::to_string(step) + " degrees",
                      [c = corners, s = step](PolygonSweep&& sweep) { return sweep.by_buffer(c, s); });
    }
    CHECK(finest.processor > proof.processor);
#else
    WARN("SKIPPED: GEOS is not installed (Debian package libgeos-dev)");
#endif
}
