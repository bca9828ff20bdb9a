// Figures of the toolpath, printed side by side: blocks against chords and whole degrees, time against the
// number of lobes and the tolerance, and a general polygon buffer beside it.

#include "../toolpath/five_lobes.h"
#include "../toolpath/independent.h"
#include "catch.h"
#include "program.h"
#include "stopwatch.h"

#include <lobewright/job_file.h>
#include <lobewright/toolpath.h>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <algorithm>
#include <iostream>

using namespace lobewright;

namespace {

constexpr double disc_radius = 16.0;

Toolpath planned(const Job& job, const std::vector<SolvedLobe>& lobes) {
    Outcome<Toolpath> path = plan_toolpath(job, lobes, WordGrid{});
    REQUIRE(path.ok());
    return std::move(path).value();
}

/// Chords with both ends on the radial function, each as long as the tolerance lets it be.
int inscribed_chords(const std::vector<independent::Stand>& stands, double tolerance) {
    const std::size_t count = stands.size();
    const auto fits = [&](std::size_t from, std::size_t to) {
        for (std::size_t i = from + 1; i < to; ++i) {
            const double share = static_cast<double>(i - from) / static_cast<double>(to - from);
            const double chord =
                stands[from].radial + share * (stands[to % count].radial - stands[from].radial);
            if (std::abs(chord - stands[i].radial) * stands[i].cosine > tolerance) return false;
        }
        return true;
    };
    int chords = 0;
    for (std::size_t from = 0; from < count; ++chords) {
        std::size_t to = from + 1;
        while (to < count && fits(from, to + 1))
            ++to;
        from = to;
    }
    return chords;
}

/// The Basalt four with another tolerance, its finish passes alone.
Job basalt_four(double tolerance) {
    const std::string file = (source_folder() / "examples" / "basalt-four.toml").string();
    Outcome<Job> job = read_job(file_text(file), file, [](const std::string& path) {
        return Outcome<std::string>(Diagnostic{Fault::unreadable, Severity::error, "none", path, "none", {}});
    });
    REQUIRE(job.ok());
    Job made = std::move(job).value();
    made.cut->tolerance = tolerance;
    made.cut->rough_depth.reset();
    made.cut->finish_depth = 10.0;
    made.cut->spring_passes = 0;
    return made;
}

/// The outer parallel curve of a lobe as a general library makes it: a polygon buffered by a polygonal
/// circle, both with chords within the tolerance.
std::size_t buffered(const SolvedLobe& lobe, double tolerance) {
    namespace bg = boost::geometry;
    using Point = bg::model::d2::point_xy<double>;
    using Polygon = bg::model::polygon<Point, false>;
    Polygon polygon;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        const ContourPoint middle = piece.at(0.5 * (piece.start + piece.end));
        const double bend = std::max(std::abs(middle.curvature), 1e-3);
        const double step = std::sqrt(8.0 * tolerance / bend) / middle.speed;
        const int parts = static_cast<int>((piece.end - piece.start) / step) + 1;
        for (int i = 0; i < parts; ++i) {
            const Vec2 p = piece.at(piece.start + (piece.end - piece.start) * i / parts).point;
            bg::append(polygon, Point(p.x, p.y));
        }
    }
    bg::correct(polygon);
    const auto round =
        static_cast<std::size_t>(std::numbers::pi / std::sqrt(2.0 * tolerance / disc_radius)) + 1;
    bg::model::multi_polygon<Polygon> grown;
    bg::buffer(polygon, grown, bg::strategy::buffer::distance_symmetric<double>(disc_radius),
               bg::strategy::buffer::side_straight(), bg::strategy::buffer::join_round(round),
               bg::strategy::buffer::end_flat(), bg::strategy::buffer::point_circle(round));
    return bg::num_points(grown);
}

}  // namespace

TEST_CASE("blocks of a finish pass: fewest, inscribed chords, whole degrees", "[toolpath]") {
    std::cout << "lobe                          tolerance   fewest  chords  degrees  chords/fewest\n";
    for (const five_lobes::Case& c : five_lobes::all()) {
        const auto stands = independent::stands(c.lobe.contour, disc_radius, 7200);
        for (const double tolerance : {0.005, 0.002, 0.001}) {
            const Toolpath path = planned(five_lobes::job_for(c.lobe, tolerance), {c.lobe});
            const int fewest = path.passes.front().contour_blocks;
            const int chords = inscribed_chords(stands, tolerance);
            std::string name = c.name;
            name.resize(30, ' ');
            std::cout << name << tolerance << "        " << fewest << "      " << chords << "      360      "
                      << static_cast<double>(chords) / fewest << "\n";
            CHECK(fewest < chords);
        }
    }
}

TEST_CASE("time of a plan by tolerance, eight lobes, and by the number of lobes", "[toolpath]") {
    for (const double tolerance : {0.004, 0.001, 0.00025}) {
        const Job job = basalt_four(tolerance);
        const Outcome<std::vector<SolvedLobe>> lobes = solve_lobes(job);
        REQUIRE(lobes.ok());
        std::size_t moves = 0;
        const Spent spent = median_spent(11, [&] { moves = planned(job, *lobes).moves.size(); });
        std::cout << "8 lobes at " << tolerance << " mm: " << spent << ", " << moves << " moves\n";
        if (tolerance == 0.001) {
            CHECK(spent.processor < 0.05);
            const Spent buffer = median_spent(5, [&] {
                for (const SolvedLobe& lobe : *lobes)
                    buffered(lobe, tolerance);
            });
            std::cout << "  the same eight parallel curves by a polygon buffer: " << buffer << ", "
                      << buffered(lobes->front(), tolerance) << " points for the first\n";
        }
    }
    const five_lobes::Case c = five_lobes::all().front();
    for (const int count : {8, 128, 1024}) {
        const Job job = five_lobes::job_for(c.lobe, 0.001);
        std::vector<SolvedLobe> lobes(static_cast<std::size_t>(count), c.lobe);
        for (std::size_t i = 0; i < lobes.size(); ++i)
            lobes[i].z = 20.0 + 20.0 * static_cast<double>(i);
        const Spent spent = median_spent(3, [&] { planned(job, lobes); });
        std::cout << count << " lobes at 0.001 mm: " << spent << ", " << 1e3 * spent.processor / count
                  << " ms of the processor a lobe\n";
    }
}
