// Each stage of the Basalt four's way to metal, and beside it what one would take for it off the shelf: time,
// and error where there is one. The toolpath's and the proof's comparisons stand in files of their own.
#include "catch.h"
#include "job_kit.h"
#include "outside_interpreter.h"
#include "stopwatch.h"

#include <lobewright/lift_table.h>
#include <lobewright/proven_program.h>
#include <lobewright/sheet.h>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <iostream>
#include <regex>
#include <sstream>

using namespace lobewright;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point, false>;

/// The Basalt four, solved, written, read and proven.
struct Whole {
    Job job = example_job("basalt-four");
    Dialect dialect = shipped_dialect(job.machine->post);
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    Toolpath path = taken(plan_toolpath(job, lobes, word_grid(dialect, job.units)));
    std::string text = taken(write_program(job, lobes, path, dialect));
};

void tell(const std::string& stage, const Spent& ours, const std::string& other, const Spent& theirs,
          const std::string& remark = "") {
    std::cout << stage << ": " << 1e3 * ours.processor << " ms; " << other << ": " << 1e3 * theirs.processor
              << " ms, " << theirs.processor / ours.processor << " times"
              << (remark.empty() ? "" : "; " + remark) << '\n';
}

/// A lobe under a flat follower the plain way: the face's lines at so many angles, each crossed with the
/// next.
std::vector<Vec2> crossed_faces(const SolvedLobe& lobe, int count) {
    std::vector<Vec2> points;
    const auto line = [&](int i) {
        const double cam = -full_turn / 2.0 + full_turn * i / count;
        const FollowerContact at = contact_at(lobe, CamAngle::from_radians(cam));
        const Vec2 normal = unit(at.facing.radians());
        return std::pair{normal, dot(at.contact.point, normal)};
    };
    auto [n, d] = line(0);
    for (int i = 1; i <= count; ++i) {
        const auto [m, e] = line(i);
        const double across = n.x * m.y - n.y * m.x;
        points.push_back({(d * m.y - e * n.y) / across, (e * n.x - d * m.x) / across});
        n = m, d = e;
    }
    return points;
}

/// How far points lie from the contour, along rays from the axis.
double worst_of(const std::vector<Vec2>& points, const SolvedLobe& lobe) {
    double worst = 0.0;
    for (const Vec2& p : points) {
        const ShaftAngle beta = ShaftAngle::from_radians(std::atan2(p.y, p.x)) - lobe.at;
        worst = std::max(worst, std::abs(length(p) - lobe.contour.polar_radius(beta)));
    }
    return worst;
}

Polygon polygon_of(const SolvedLobe& lobe, int corners) {
    Polygon polygon;
    for (int i = 0; i < corners; ++i) {
        const double beta = full_turn * i / corners;
        const double radius = lobe.contour.polar_radius(ShaftAngle::from_radians(beta));
        bg::append(polygon, Point(radius * std::cos(beta), radius * std::sin(beta)));
    }
    bg::correct(polygon);
    return polygon;
}

double radius_in(const Polygon& polygon, double beta) {
    bg::model::linestring<Point> ray{{0.0, 0.0}, {100.0 * std::cos(beta), 100.0 * std::sin(beta)}};
    std::vector<bg::model::linestring<Point>> inside;
    bg::intersection(ray, polygon, inside);
    return static_cast<double>(bg::length(inside.front()));
}

/// Words with four decimals through a stream, as one writes them without a thought of locale and ties.
std::string streamed(const Toolpath& path) {
    std::ostringstream out;
    out << std::fixed << std::setprecision(4);
    for (const Move& move : path.moves)
        out << "X" << 0.0001 * static_cast<double>(move.to.radial) << " A"
            << 0.0001 * static_cast<double>(move.to.rotary) << " F" << 60.0 / std::max(move.seconds, 1e-3)
            << '\n';
    return out.str();
}

/// Letters and numbers of a program, by a regular expression.
double scanned(const std::string& text) {
    static const std::regex word(R"(([A-Z])\s*([-+]?[0-9]*\.?[0-9]+))");
    std::istringstream lines(text);
    double sum = 0.0;
    for (std::string line; std::getline(lines, line);) {
        const std::string code = line.substr(0, line.find('('));
        for (std::sregex_iterator at(code.begin(), code.end(), word), end; at != end; ++at)
            sum += std::stod((*at)[2].str());
    }
    return sum;
}

}  // namespace

TEST_CASE("solving and tabling a lobe beside crossed lines and a polygon", "[stages]") {
    const Whole four;
    const SolvedLobe& exhaust = four.lobes.front();
    const Spent solve = median_spent(21, [&] { REQUIRE(solve_lobes(four.job).ok()); });
    std::vector<Vec2> points;
    const Spent crossed = median_spent(5, [&] {
        for (std::size_t i = 0; i < four.lobes.size(); ++i)
            points = crossed_faces(exhaust, 7200);
    });
    const double off = worst_of(points, exhaust);
    tell("solve, eight lobes with their extremes", solve, "7200 crossed lines for each", crossed,
         "off by " + std::to_string(1e3 * off) + " um");
    CHECK(off > 1e-9);

    const CamAngle degree = CamAngle::from_degrees(1.0);
    const Spent table = median_spent(21, [&] {
        const auto rows = lift_table(exhaust, degree);
        REQUIRE(lift_table_text(rows, exhaust, Units::mm, TableFormat::csv).size() > 361);
    });
    const Polygon polygon = polygon_of(exhaust, 7200);
    double worst = 0.0;
    const Spent by_polygon = median_spent(5, [&] {
        for (int i = 0; i <= 360; ++i) {
            const double beta = full_turn * (i + 0.31) / 361.0;
            worst = std::max(worst, std::abs(radius_in(polygon, beta) -
                                             exhaust.contour.polar_radius(ShaftAngle::from_radians(beta))));
        }
    });
    tell("table of 361 rows, all columns, as text", table,
         "361 rays through a polygon of 7200 corners, radii alone", by_polygon,
         "off by " + std::to_string(1e3 * worst) + " um");
    CHECK(worst > 1e-9);
}

TEST_CASE("planning, writing and reading a program beside streams, regular expressions and an interpreter",
          "[stages]") {
    const Whole four;
    const Spent plan = median_spent(9, [&] {
        REQUIRE(plan_toolpath(four.job, four.lobes, word_grid(four.dialect, four.job.units)).ok());
    });
    std::cout << "toolpath: " << 1e3 * plan.processor << " ms, " << four.path.moves.size()
              << " moves (beside polygon buffers: [toolpath])\n";
    const Spent emit =
        median_spent(21, [&] { REQUIRE(write_program(four.job, four.lobes, four.path, four.dialect).ok()); });
    const Spent stream = median_spent(21, [&] { REQUIRE(streamed(four.path).size() > 1000); });
    tell("emit, with header and modal words", emit, "the bare words through a stream", stream);

    const Spent read = median_spent(
        21, [&] { REQUIRE(read_program(four.text, "four.ngc", four.dialect, four.job.units).ok()); });
    const Spent scan = median_spent(5, [&] { REQUIRE(scanned(four.text) > 0.0); });
    tell("read into moves", read, "letters and numbers by std::regex", scan);
    if (!outside::installed()) return outside::say_skipped();
    const Spent interpreter = median_spent(5, [&] { REQUIRE(outside::interpret(four.text).accepted()); });
    tell("read into moves", read, "an open interpreter, its start and its text included", interpreter);
}

TEST_CASE("the sheet beside a general JSON library writing its model", "[stages]") {
    const Whole four;
    SheetParts parts{judge(four.job, four.lobes), ways_to_cut(four.job, four.lobes, four.dialect),
                     std::nullopt};
    const ProvenProgram& program = *parts.ways.front().program;
    parts.program = SheetProgram{"four.ngc", program.text,
                                 taken(read_program(program.text, "four.ngc", four.dialect, four.job.units)),
                                 program.proof};
    const Spent page =
        median_spent(9, [&] { REQUIRE(sheet_page(four.job, four.lobes, parts).size() > 100000); });
    const nlohmann::json model = nlohmann::json::parse(sheet_model(four.job, four.lobes, parts));
    const Spent dump = median_spent(9, [&] { REQUIRE(model.dump().size() > 100000); });
    const Spent whole = median_spent(5, [&] { REQUIRE(nlohmann::json::parse(model.dump()).size() > 3); });
    tell("sheet, the whole page", page, "its model alone, dumped by a general library", dump);
    tell("sheet, the whole page", page, "dumped and parsed again by it", whole);
}
