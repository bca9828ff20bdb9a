// Figures of the proof: blocks read in a second, time to prove the eight lobes, and the same comparison by
// general polygon union and difference beside it (GEOS, where it is installed), with time and error of both.

#include "catch.h"
#include "program.h"
#include "proof/lobe_planes.h"
#include "sweep.h"

#include <lobewright/job_file.h>
#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>

#ifdef LOBEWRIGHT_HAS_GEOS
#include <geos_c.h>
#endif

using namespace lobewright;

namespace {

template <class Work>
double median_seconds(int runs, Work work) {
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    std::nth_element(times.begin(), times.begin() + runs / 2, times.end());
    return times[static_cast<std::size_t>(runs / 2)];
}

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
    if (finish_only) made.job.cut->rough_depth.reset(), made.job.cut->spring_passes = 0;
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
    const auto moves = proof::shaft_moves(read(made), body, stock).moves;
    Radii radii;
    for (const SolvedLobe& lobe : made.lobes) {
        const proof::PlaneSweep plane(moves, body.cutting, lobe.z, stock);
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

/// The cutter as a regular polygon, moved on in steps; from step to step it sweeps the hull of both; all
/// hulls are united and taken off the blank.
class PolygonSweep {
  public:
    PolygonSweep(const Proven& made, int corners, double step_degrees)
        : made_(made), corners_(corners), step_(step_degrees), geos_(GEOS_init_r()) {}
    ~PolygonSweep() { GEOS_finish_r(geos_); }
    PolygonSweep(const PolygonSweep&) = delete;
    PolygonSweep& operator=(const PolygonSweep&) = delete;

    Radii radii() {
        Radii radii;
        for (const SolvedLobe& lobe : made_.lobes) {
            GEOSGeometry* swept = swept_over(lobe.z);
            GEOSGeometry* blank = circle({0.0, 0.0}, *made_.job.shaft.blank_diameter / 2.0);
            GEOSGeometry* left = GEOSDifference_r(geos_, blank, swept);
            for (int ray = 0; ray < rays; ++ray)
                radii.push_back(radius_on(left, ray_angle(ray)));
            for (GEOSGeometry* geometry : {swept, blank, left})
                GEOSGeom_destroy_r(geos_, geometry);
        }
        return radii;
    }

  private:
    GEOSGeometry* polygon(const std::vector<Vec2>& points) {
        GEOSCoordSequence* ring = GEOSCoordSeq_create_r(geos_, static_cast<unsigned>(points.size() + 1), 2);
        for (std::size_t i = 0; i <= points.size(); ++i) {
            const Vec2& p = points[i % points.size()];
            GEOSCoordSeq_setXY_r(geos_, ring, static_cast<unsigned>(i), p.x, p.y);
        }
        return GEOSGeom_createPolygon_r(geos_, GEOSGeom_createLinearRing_r(geos_, ring), nullptr, 0);
    }

    GEOSGeometry* circle(Vec2 centre, double radius) {
        std::vector<Vec2> points;
        for (int i = 0; i < corners_; ++i)
            points.push_back(centre + radius * unit(full_turn * i / corners_));
        return polygon(points);
    }

    GEOSGeometry* hull(Vec2 from, Vec2 to, double radius) {
        GEOSGeometry* both[2] = {circle(from, radius), circle(to, radius)};
        GEOSGeometry* pair = GEOSGeom_createCollection_r(geos_, GEOS_MULTIPOLYGON, both, 2);
        GEOSGeometry* hull = GEOSConvexHull_r(geos_, pair);
        GEOSGeom_destroy_r(geos_, pair);
        return hull;
    }

    GEOSGeometry* swept_over(double z) {
        const auto body = proof::cutter_body(made_.job);
        const double radius = body.cutting.radius;
        std::vector<GEOSGeometry*> hulls;
        for (const proof::ShaftMove& move : proof::shaft_moves(read(made_), body, 0.0).moves) {
            if (move.rapid || std::abs(move.from.z - z) > body.cutting.last) continue;
            const int parts =
                std::max(1, static_cast<int>(std::ceil(std::abs(move.turn()) * 360.0 / full_turn / step_)));
            const auto centre = [&](int i) {
                const double share = static_cast<double>(i) / parts;
                return (move.from.tip + share * (move.to.tip - move.from.tip) + radius) *
                       unit(move.from.facing + share * move.turn());
            };
            for (int i = 0; i < parts; ++i)
                hulls.push_back(hull(centre(i), centre(i + 1), radius));
        }
        GEOSGeometry* all = GEOSGeom_createCollection_r(geos_, GEOS_GEOMETRYCOLLECTION, hulls.data(),
                                                        static_cast<unsigned>(hulls.size()));
        GEOSGeometry* swept = GEOSUnaryUnion_r(geos_, all);
        GEOSGeom_destroy_r(geos_, all);
        return swept;
    }

    double radius_on(const GEOSGeometry* left, double psi) {
        GEOSCoordSequence* ends = GEOSCoordSeq_create_r(geos_, 2, 2);
        GEOSCoordSeq_setXY_r(geos_, ends, 0, 0.0, 0.0);
        GEOSCoordSeq_setXY_r(geos_, ends, 1, 100.0 * std::cos(psi), 100.0 * std::sin(psi));
        GEOSGeometry* ray = GEOSGeom_createLineString_r(geos_, ends);
        GEOSGeometry* inside = GEOSIntersection_r(geos_, ray, left);
        double length = 0.0;
        GEOSLength_r(geos_, inside, &length);
        GEOSGeom_destroy_r(geos_, ray);
        GEOSGeom_destroy_r(geos_, inside);
        return length;
    }

    const Proven& made_;
    int corners_;
    double step_;
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
    const double seconds = median_seconds(5, [&] {
        const auto program = read_program(text, "program.ngc", made.dialect, Units::mm);
        REQUIRE(program.ok());
        read_blocks = program->blocks;
    });
    CHECK(read_blocks == blocks + 8);
    std::cout << "reader: " << read_blocks / seconds / 1e6 << " million blocks a second\n";
    CHECK(read_blocks / seconds > 1e6);
}

// The aim: under 0.25 s on one core.
TEST_CASE("proof of the eight lobes at 0.001 mm", "[proof]") {
    const Proven made = basalt_four(false);
    Outcome<ProofReport> report = prove(made.job, made.lobes, made.dialect, made.text, "program.ngc");
    const double seconds = median_seconds(
        9, [&] { report = prove(made.job, made.lobes, made.dialect, made.text, "program.ngc"); });
    REQUIRE(report.ok());
    CHECK(report->within_tolerance);
    std::cout << "proof: " << report->blocks << " blocks, " << report->lobes.size() << " lobes in " << seconds
              << " s, resolution " << report->resolution * 1e3 << " um\n";
    CHECK(seconds < 0.25);
}

// The aim: at least a hundred times faster than general polygons, and ten times more exact.
TEST_CASE("the proof beside general polygon union and difference", "[proof][geos]") {
#ifdef LOBEWRIGHT_HAS_GEOS
    const Proven made = basalt_four(true);
    const Radii truth = by_brute_force(made);
    const double proof_seconds =
        median_seconds(5, [&] { (void)prove(made.job, made.lobes, made.dialect, made.text, "program.ngc"); });
    const double proof_error = worst_difference(by_proof(made), truth);
    std::cout << "finish passes of the eight lobes; error: worst radius on " << rays
              << " rays of each, against brute force\n"
              << "  proof                        " << proof_seconds << " s, error " << proof_error * 1e3
              << " um\n";
    for (const auto& pair : {std::pair{180, 2.0}, std::pair{360, 1.0}, std::pair{720, 0.5}}) {
        const int corners = pair.first;  // a binding can't go into a lambda
        const double step = pair.second;
        Radii radii;
        const double seconds = median_seconds(1, [&] { radii = PolygonSweep(made, corners, step).radii(); });
        const double error = worst_difference(radii, truth);
        std::cout << "  GEOS " << GEOSversion() << ", " << corners << " corners, " << step << " deg  "
                  << seconds << " s (" << seconds / proof_seconds << " times), error " << error * 1e3
                  << " um (" << error / proof_error << " times)\n";
        if (corners < 720) continue;
        CHECK(seconds > 100.0 * proof_seconds);
        CHECK(error > 10.0 * proof_error);
    }
#else
    WARN("SKIPPED: GEOS is not installed (Debian package libgeos-dev)");
#endif
}
