// The proof's own time, the reader's, and beside them the same comparison by general polygon union (GEOS,
// where the system has it), with its time and its error.

#include "../proof/proof_case.h"
#include "catch.h"

#include <algorithm>
#include <chrono>
#include <iostream>
#include <numbers>

#ifdef LOBEWRIGHT_HAS_GEOS
#include <geos_c.h>

#include <cstdarg>
#endif

using namespace lobewright;

namespace {

template <class Work>
double seconds(int runs, Work work) {
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    std::nth_element(times.begin(), times.begin() + runs / 2, times.end());
    return times[static_cast<std::size_t>(runs / 2)];
}

ProofCase basalt_four(double tolerance) {
    Job job = example_job("basalt-four");
    job.cut->tolerance = tolerance;
    return proof_case(job);
}

#ifdef LOBEWRIGHT_HAS_GEOS

void silent(const char*, ...) {}

GEOSGeometry* polygon(const std::vector<Vec2>& points) {
    const auto count = static_cast<unsigned>(points.size());
    GEOSCoordSequence* ring = GEOSCoordSeq_create(count + 1, 2);
    for (unsigned i = 0; i <= count; ++i)
        GEOSCoordSeq_setXY(ring, i, points[i % count].x, points[i % count].y);
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(ring), nullptr, 0);
}

std::vector<Vec2> circle(Vec2 middle, double radius, int points) {
    std::vector<Vec2> found;
    for (int i = 0; i < points; ++i)
        found.push_back(middle + radius * unit(full_turn * i / points));
    return found;
}

std::vector<Vec2> outline(const SolvedLobe& lobe) {
    std::vector<Vec2> found;
    for (int i = 0; i < 7200; ++i)
        found.push_back(lobe.contour.on_ray(full_turn * i / 7200).at.point);
    return found;
}

/// The discs of one lobe's feed moves, in the lobe's frame, a step of the shaft apart.
std::vector<GEOSGeometry*> discs(const ProofCase& made, std::size_t lobe, double step_degrees, int points) {
    std::vector<GEOSGeometry*> found;
    const double radius = 0.5 * made.job.cutters.find(made.job.cut->cutter)->second.diameter;
    const WordGrid& grid = made.path.grid;
    for (const Pass& pass : made.path.passes) {
        if (pass.lobe != lobe) continue;
        for (std::size_t i = std::max<std::size_t>(pass.first, 1); i < pass.last; ++i) {
            const Words from = made.path.moves[i - 1].to, to = made.path.moves[i].to;
            if (made.path.moves[i].kind == MoveKind::rapid) continue;
            const double turn = static_cast<double>(to.rotary - from.rotary) * grid.rotary_step;
            const int steps = static_cast<int>(std::abs(turn) / step_degrees) + 1;
            for (int k = 0; k <= steps; ++k) {
                const double share = static_cast<double>(k) / steps;
                const double word = (static_cast<double>(from.rotary) * grid.rotary_step) + share * turn;
                const double x = grid.radial_step * (static_cast<double>(from.radial) +
                                                     share * static_cast<double>(to.radial - from.radial));
                const double facing = -word * std::numbers::pi / 180.0 - made.lobes[lobe].at.radians();
                found.push_back(polygon(circle(x * unit(facing), radius, points)));
            }
        }
    }
    return found;
}

/// Largest distance of what is left from the design, mm, by union and difference.
double farthest_by_polygons(const ProofCase& made, std::size_t lobe, double step_degrees, int points) {
    std::vector<GEOSGeometry*> swept = discs(made, lobe, step_degrees, points);
    GEOSGeometry* all =
        GEOSGeom_createCollection(GEOS_MULTIPOLYGON, swept.data(), static_cast<unsigned>(swept.size()));
    GEOSGeometry* removed = GEOSUnaryUnion(all);
    GEOSGeometry* blank = polygon(circle({}, 0.5 * *made.job.shaft.blank_diameter, 7200));
    GEOSGeometry* left = GEOSDifference(blank, removed);
    GEOSGeometry* design = polygon(outline(made.lobes[lobe]));
    GEOSGeometry* left_edge = GEOSBoundary(left);
    GEOSGeometry* design_edge = GEOSBoundary(design);
    double distance = 0.0;
    GEOSHausdorffDistance(left_edge, design_edge, &distance);
    for (GEOSGeometry* shape : {all, removed, blank, left, design, left_edge, design_edge})
        GEOSGeom_destroy(shape);
    return distance;
}

#endif

}  // namespace

TEST_CASE("time of the proof and of the reader", "[proof]") {
    for (const double tolerance : {0.002, 0.001}) {
        const ProofCase made = basalt_four(tolerance);
        bool within = false;
        const double whole = seconds(11, [&] { within = made.prove().within_tolerance; });
        CHECK(within);
        std::cout << "proof of the Basalt four at " << tolerance << " mm: " << whole * 1e3 << " ms\n";
        if (tolerance == 0.001) CHECK(whole < 0.25);
    }
    std::string text =
        "G18 G21 G90\nG40 G49 G80\nG54\nG61\nS160 M3\nG0 X36.5 Z20. A0.\nG93\nG1 X33.7 F100.\n";
    constexpr int blocks = 1000000;
    for (int i = 1; i <= blocks; ++i)
        text += "X33.1234 A" + std::to_string(i % 9000) + ".25 F15.2492\n";
    text += "M5\nM30\n";
    const Dialect dialect = dialect_named("rs274ngc-xza");
    const double reading = seconds(3, [&] {
        const auto program = read_program(text, "million.ngc", dialect, Units::mm);
        INFO((program.ok() ? std::string() : to_text(program.diagnostics().front())));
        REQUIRE(program.ok());
    });
    std::cout << "reader: " << blocks / reading / 1e6 << " million blocks a second\n";
    CHECK(reading < 1.0);
}

TEST_CASE("the same comparison by general polygon union and difference", "[proof]") {
#ifdef LOBEWRIGHT_HAS_GEOS
    initGEOS(silent, silent);
    const ProofCase made = basalt_four(0.001);
    const ProofReport report = made.prove();
    const double proof_time =
        seconds(5, [&] { (void)made.prove(); }) / static_cast<double>(made.lobes.size());
    const LobeVerdict& verdict = report.lobes.front();
    const double true_distance = std::max(-verdict.deepest.along_normal, verdict.proudest.along_normal);
    std::cout << "one lobe by the proof: " << proof_time * 1e3 << " ms, farthest " << true_distance
              << " mm, good to " << report.resolution << "\n";
    const struct {
        double step_degrees;
        int points;
    } settings[] = {{2.0, 720}, {1.0, 720}, {1.0, 2880}};
    for (const auto& setting : settings) {
        double distance = 0.0;
        const double time = seconds(
            1, [&] { distance = farthest_by_polygons(made, 0, setting.step_degrees, setting.points); });
        const double error = std::abs(distance - true_distance);
        std::cout << "  by polygons, a disc of " << setting.points << " points every " << setting.step_degrees
                  << " degrees: " << time * 1e3 << " ms, off by " << error << " mm; the proof is "
                  << time / proof_time << " times faster, " << error / report.resolution
                  << " times more exact\n";
        CHECK(time > 100.0 * proof_time);
        if (setting.step_degrees > 1.0) CHECK(error > 10.0 * report.resolution);
    }
    finishGEOS();
#else
    WARN("GEOS is not here: the comparison by polygons is left out");
#endif
}
