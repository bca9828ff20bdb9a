#include "basalt.h"
#include "catch.h"

#include <lobewright/lift_table.h>
#include <lobewright/number_text.h>

#include <nlohmann/json.hpp>

#include <numbers>
#include <sstream>

using namespace lobewright;
using basalt::solved;

namespace {

constexpr double per_degree = std::numbers::pi / 180;

Job flat_345() {
    return basalt::job(basalt::law(LawKind::polynomial_345, 40, 8, 70, 60), basalt::endless_flat());
}

std::vector<std::vector<std::string>> cells(const std::string& csv) {
    std::vector<std::vector<std::string>> rows;
    std::istringstream text(csv);
    for (std::string line; std::getline(text, line);) {
        std::vector<std::string> row(1);
        for (const char c : line) {
            if (c == ',') {
                row.emplace_back();
            } else {
                row.back() += c;
            }
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

constexpr const char* heading =
    "cam_angle,shaft_angle,lift,velocity,acceleration,jerk,polar_radius,contact_x,contact_y,curvature_radius,"
    "pressure_angle";

}  // namespace

TEST_CASE("the table runs from -180 to 180, and a step that does not divide leaves a shorter last one") {
    const SolvedLobe lobe = solved(flat_345());
    const auto whole = lift_table(lobe, CamAngle::from_degrees(1));
    CHECK(whole.size() == 361);
    CHECK_NEAR(whole.front().cam_angle.degrees(), -180, 1e-12);
    CHECK_NEAR(whole.back().cam_angle.degrees(), 180, 1e-12);
    CHECK_NEAR(whole[200].cam_angle.degrees(), 20, 1e-12);
    const auto tenths = lift_table(lobe, CamAngle::from_degrees(0.1));
    CHECK(tenths.size() == 3601);
    const auto odd = lift_table(lobe, CamAngle::from_degrees(7));
    CHECK(odd.size() == 53);
    CHECK_NEAR(odd[51].cam_angle.degrees(), 177, 1e-12);
    CHECK_NEAR(odd[52].cam_angle.degrees(), 180, 1e-12);
}

TEST_CASE("a flat follower's row is the closed form of its law") {
    // Check-values sections 1 and 3: contact = h n + h' t by the shaft angle, rho = h + h''.
    const SolvedLobe lobe = solved(flat_345());
    for (const LiftRow& row : lift_table(lobe, CamAngle::from_degrees(2.5))) {
        const double a = row.cam_angle.degrees();
        CAPTURE(a);
        double lift = 0, v = 0, acc = 0, jerk = 0;  // by the cam angle in radians
        if (a > -70 && a < 60) {
            const double degrees = a < 0 ? 70 : 60, range = degrees * per_degree;
            const double x = 1 - std::abs(a) / degrees, way = a < 0 ? 1 : -1;
            lift = 8 * x * x * x * (10 - 15 * x + 6 * x * x);
            v = way * 8 * 30 * x * x * (1 - x) * (1 - x) / range;
            acc = 8 * (60 * x - 180 * x * x + 120 * x * x * x) / (range * range);
            jerk = way * 8 * (60 - 360 * x + 360 * x * x) / (range * range * range);
        }
        CHECK_NEAR(row.lift.lift, lift, 1e-12);
        CHECK_NEAR(row.lift.velocity, v, 1e-11);
        CHECK_NEAR(row.lift.acceleration, acc, 1e-10);
        const bool steps = a == 0 || std::abs(a + 5) == 65;
        if (!steps) CHECK_NEAR(row.lift.jerk, jerk, 1e-9);
        CHECK_NEAR(row.shaft_angle.degrees(), -a, 1e-12);
        const double h = 40 + lift,
                     side = -v;  // a ccw shaft: the shaft angle runs against the cam angle
        const Vec2 n = unit(-a * per_degree);
        CHECK_NEAR(row.contact.x, (h * n + side * quarter_turn(n)).x, 1e-11);
        CHECK_NEAR(row.contact.y, (h * n + side * quarter_turn(n)).y, 1e-11);
        CHECK_NEAR(row.curvature_radius, h + acc, 1e-9);
        CHECK(row.pressure_angle == 0);
    }
}

TEST_CASE("harmonic motion out and back in one turn is a circle off its centre") {
    // Mabie (th4.ilovetranslation.com/8w8ZRY4te-L=d), inputs: 50 mm of lift on 25 mm. h = 25 + 25 (1 + cos t)
    // is the support function of a circle of radius 50 about a point 25 mm from the axis.
    const SolvedLobe lobe =
        solved(basalt::job(basalt::law(LawKind::simple_harmonic, 25, 50, 180, 180), basalt::endless_flat()));
    for (const LiftRow& row : lift_table(lobe, CamAngle::from_degrees(3))) {
        const double beta = row.shaft_angle.radians();
        const double wanted = 25 * std::cos(beta) + std::sqrt(2500 - 625 * std::sin(beta) * std::sin(beta));
        CHECK_NEAR(row.polar_radius, wanted, 1e-9);
        CHECK_NEAR(row.curvature_radius, 50, 1e-9);
        CHECK_NEAR(length(row.contact - Vec2{25, 0}), 50, 1e-9);
    }
}

TEST_CASE("turning a lobe turns its table") {
    Job job = basalt::job(basalt::law(LawKind::cycloidal, 15, 8, 70, 60), basalt::roller(6, 2));
    const auto before = lift_table(solved(job), CamAngle::from_degrees(5));
    job.lobes.front().at = ShaftAngle::from_degrees(37);
    const auto after = lift_table(solved(job), CamAngle::from_degrees(5));
    REQUIRE(before.size() == after.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
        CHECK_NEAR(after[i].shaft_angle.degrees(), before[i].shaft_angle.degrees() + 37, 1e-10);
        CHECK_NEAR(after[i].lift.lift, before[i].lift.lift, 1e-12);
        CHECK_NEAR(after[i].polar_radius, before[i].polar_radius, 1e-9);
        CHECK_NEAR(after[i].curvature_radius, before[i].curvature_radius, 1e-8);
        CHECK_NEAR(after[i].pressure_angle, before[i].pressure_angle, 1e-10);
        const Vec2 turned_contact = turned(before[i].contact, unit(37 * per_degree));
        CHECK_NEAR(length(after[i].contact - turned_contact), 0, 1e-9);
    }
}

TEST_CASE("a reversed shaft mirrors the table") {
    // The mirror image also has its follower's line on the other side.
    Job job = basalt::job(basalt::law(LawKind::cycloidal, 15, 8, 70, 60), basalt::roller(6, 2));
    const auto ccw = lift_table(solved(job), CamAngle::from_degrees(5));
    job.shaft.turns = Sense::cw;
    job.followers.at("follower").offset = -2;
    const auto cw = lift_table(solved(job), CamAngle::from_degrees(5));
    for (std::size_t i = 0; i < ccw.size(); ++i) {
        CHECK_NEAR(cw[i].shaft_angle.degrees(), -ccw[i].shaft_angle.degrees(), 1e-10);
        CHECK_NEAR(cw[i].lift.lift, ccw[i].lift.lift, 1e-12);
        CHECK_NEAR(cw[i].lift.jerk, ccw[i].lift.jerk, 1e-9);
        CHECK_NEAR(cw[i].polar_radius, ccw[i].polar_radius, 1e-9);
        CHECK_NEAR(cw[i].contact.x, ccw[i].contact.x, 1e-9);
        CHECK_NEAR(cw[i].contact.y, -ccw[i].contact.y, 1e-9);
        CHECK_NEAR(cw[i].pressure_angle, ccw[i].pressure_angle, 1e-9);
    }
}

TEST_CASE("csv has the documented names and their numbers") {
    const SolvedLobe lobe = solved(flat_345());
    const std::string csv =
        lift_table_text(lift_table(lobe, CamAngle::from_degrees(30)), lobe, Units::mm, TableFormat::csv);
    const auto rows = cells(csv);
    REQUIRE(rows.size() == 14);
    CHECK(csv.substr(0, csv.find('\n')) == heading);
    CHECK(csv.back() == '\n');
    CHECK(csv.find('e', csv.find('\n')) == std::string::npos);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        REQUIRE(rows[i].size() == 11);
        for (const std::string& cell : rows[i]) {
            CHECK(parse_decimal(cell).has_value());
            const auto point = cell.find('.');
            if (point != std::string::npos) CHECK(cell.size() - point - 1 <= 9);
        }
    }
    CHECK(rows[1][0] == "-180");
    CHECK(rows[1][1] == "180");
    CHECK(rows[1][2] == "0");
    CHECK(rows[7][2] == "8");
    CHECK(rows[7][6] == "48");
}

TEST_CASE("a table in inches is the table in millimetres to the last printed digit") {
    const auto job = GENERATE(
        flat_345(),
        basalt::job(basalt::law(LawKind::power_polynomial, 0.6 * 25.4, 0.31 * 25.4, 66, 71, {2, 10, 18, 26}),
                    basalt::roller(9, 1.5)),
        basalt::job(basalt::arcs_with_nose(16, 12.2, 150, 3.2), basalt::endless_flat()));
    const SolvedLobe lobe = solved(job);
    const auto rows = lift_table(lobe, CamAngle::from_degrees(1));
    const auto mm = cells(lift_table_text(rows, lobe, Units::mm, TableFormat::csv));
    const auto inch = cells(lift_table_text(rows, lobe, Units::inch, TableFormat::csv));
    REQUIRE(mm.size() == inch.size());
    constexpr double half_digit = 0.5e-9;
    for (std::size_t i = 1; i < mm.size(); ++i) {
        for (std::size_t k = 0; k < mm[i].size(); ++k) {
            const bool is_angle = k < 2 || k == 10;
            if (is_angle || mm[i][k].empty()) {
                CHECK(inch[i][k] == mm[i][k]);
                continue;
            }
            const double in_mm = *parse_decimal(mm[i][k]);
            CHECK_NEAR(25.4 * *parse_decimal(inch[i][k]), in_mm, 26.4 * half_digit + 1e-15 * std::abs(in_mm));
        }
    }
}

TEST_CASE("a straight flank's radius of curvature is empty in csv and null in json") {
    const SolvedLobe lobe =
        solved(basalt::job(basalt::arcs_with_flank(30, 17.5, 150, straight_flank), basalt::roller(17.5)));
    const auto rows = lift_table(lobe, CamAngle::from_degrees(4));
    const auto csv = cells(lift_table_text(rows, lobe, Units::mm, TableFormat::csv));
    const auto json = nlohmann::json::parse(lift_table_text(rows, lobe, Units::mm, TableFormat::json));
    int straight = 0;
    for (std::size_t i = 1; i < csv.size(); ++i) {
        CHECK(json["rows"][i - 1]["curvature_radius"].is_null() == csv[i][9].empty());
        if (csv[i][9].empty()) ++straight;
    }
    // A tangent cam's flank drives the roller over phi from the start, tan phi = r sin 75 / (30 + 17.5) with
    // r = 17.5 / (1 - cos 75): 25.647 degrees (inputs: bissoy.com/mcq/375987). From 75 to 49.35 degrees
    // either side of the nose: at 52 to 72.
    CHECK(straight == 2 * 6);
}

TEST_CASE("json holds the same numbers under the same names") {
    const SolvedLobe lobe = solved(flat_345());
    const auto rows = lift_table(lobe, CamAngle::from_degrees(15));
    const auto csv = cells(lift_table_text(rows, lobe, Units::inch, TableFormat::csv));
    const auto json = nlohmann::json::parse(lift_table_text(rows, lobe, Units::inch, TableFormat::json));
    CHECK(json["lobe"] == "lobe");
    CHECK(json["units"] == "inch");
    REQUIRE(json["rows"].size() == rows.size());
    for (std::size_t i = 1; i < csv.size(); ++i) {
        for (std::size_t k = 0; k < csv[0].size(); ++k) {
            CHECK(json["rows"][i - 1][csv[0][k]].get<double>() == *parse_decimal(csv[i][k]));
        }
    }
}

TEST_CASE("markdown is a table with a heading, one row a cam angle") {
    const SolvedLobe lobe = solved(flat_345());
    const std::string text =
        lift_table_text(lift_table(lobe, CamAngle::from_degrees(90)), lobe, Units::mm, TableFormat::markdown);
    CHECK(text.substr(0, 8) == "## lobe\n");
    CHECK_THAT(text, ContainsSubstring("| cam_angle | shaft_angle |"));
    CHECK_THAT(text, ContainsSubstring("|      0.00 |"));
    std::istringstream lines(text);
    std::size_t rows = 0, width = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line.empty() || line.front() != '|') continue;
        ++rows;
        if (width == 0) width = line.size();
        CHECK(line.size() == width);
    }
    CHECK(rows == 2 + 5);
}
