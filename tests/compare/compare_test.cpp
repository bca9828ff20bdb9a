#include "basalt.h"
#include "lines.h"

#include <lobewright/compare.h>

#include <sstream>

using namespace lobewright;

namespace {

/// The Basalt four with a third profile that no lobe uses.
Job three_profiles() {
    Job job = basalt::four();
    job.profiles["spare"] = basalt::law(LawKind::polynomial_345, 6.0, 2.4, 64.0, 64.0);
    return job;
}

/// The Basalt four's inlet as a motion that takes its angles from the card.
Job carded() {
    Job job = basalt::four();
    MotionProfile motion = basalt::law(LawKind::cycloidal, 9.0, 2.4, 0.0, 0.0);
    motion.opening_share = 0.5;
    job.profiles["inlet"] = motion;
    return job;
}

std::vector<std::string> fields_of(const std::string& line) {
    std::vector<std::string> fields;
    std::stringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');)
        fields.push_back(cell);
    return fields;
}

}  // namespace

TEST_CASE("every profile has a row, judged on a lobe that uses it or else on the first") {
    const Job job = three_profiles();
    const auto rows = compare_profiles(job, std::nullopt);
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].profile == "exhaust");
    CHECK(rows[0].lobe == "1 exhaust");
    CHECK(rows[1].lobe == "1 inlet");
    CHECK(rows[2].profile == "spare");
    CHECK(rows[2].lobe == "1 inlet");
    // What is told of a profile in use is what `judge` tells of its lobe.
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const JobReport report = judge(job, *lobes);
    CHECK(rows[1].report->area == report.lobes[0].area);
    CHECK(rows[1].report->max_velocity.value == report.lobes[0].max_velocity.value);
    CHECK_NEAR(rows[0].overlap->degrees(), report.overlap->degrees(), 1e-9);
    CHECK_NEAR(rows[1].duration->degrees(), 240.0, 1e-9);
    const auto on_exhaust = compare_profiles(job, 1);
    CHECK(on_exhaust[2].lobe == "1 exhaust");
}

TEST_CASE("all laws in the place of a profile keep its card, and each has its own area") {
    const auto outcome = compare_laws(carded(), "inlet", std::nullopt);
    REQUIRE(outcome.ok());
    REQUIRE(outcome->size() == 8);
    CHECK((*outcome)[1].law == "cycloidal");
    CHECK((*outcome)[6].law == "power-polynomial 2-10-18-26");
    for (const ComparedLobe& row : *outcome) {
        INFO(row.law);
        REQUIRE(row.report);
        CHECK_NEAR(row.duration->degrees(), 240.0, 1e-9);
        CHECK_NEAR(row.overlap->degrees(), 26.0, 1e-9);
        const bool steps = row.law == "simple-harmonic" || row.law == "parabolic";
        CHECK((row.acceleration_jump > 1e-6) == steps);
    }
}

TEST_CASE("with angles of its own, the laws of a motion all have these, and their handbook coefficients") {
    Job job = basalt::job(basalt::law(LawKind::cycloidal, 30.0, 4.0, 70.0, 70.0), basalt::endless_flat());
    const auto outcome = compare_laws(job, "profile", std::nullopt);
    REQUIRE(outcome.ok());
    const double beta = 70.0 * std::numbers::pi / 180.0;
    // Norton, Design of Machinery, and Rothbart, Cams: largest velocity and acceleration over h/β and h/β².
    const double velocity[] = {1.570796327, 2.0, 1.875, 2.1875, 1.759603386, 2.0};
    const double acceleration[] = {4.934802201, 6.283185307, 5.773502692,
                                   7.513188404, 5.527957071, 4.888123763};
    for (std::size_t i = 0; i < 6; ++i) {
        const LobeReport& report = *(*outcome)[i].report;
        CHECK_RELATIVE(report.max_velocity.value, 4.0 * velocity[i] / beta, 1e-9);
        CHECK_RELATIVE(report.max_acceleration.value, 4.0 * acceleration[i] / (beta * beta), 1e-9);
    }
    CHECK_RELATIVE((*outcome)[7].report->max_acceleration.value, 16.0 / (beta * beta), 1e-9);
}

TEST_CASE("a profile that can't be has its reason in place of figures, and spoils no other row") {
    Job job = three_profiles();
    job.profiles["spare"] = basalt::law(LawKind::parabolic, 6.0, 3.4, 20.0, 20.0);
    const auto rows = compare_profiles(job, std::nullopt);
    CHECK_FALSE(rows[2].report);
    REQUIRE_FALSE(rows[2].complaints.empty());
    CHECK(rows[1].report);
    const auto lines = lines_of(comparison_text(job, rows, TableFormat::csv));
    REQUIRE(lines.size() == 4);
    CHECK_THAT(lines[3], ContainsSubstring("undercut"));
    CHECK_THAT(comparison_columns(job, rows), ContainsSubstring("spare: the contour is undercut"));
    CHECK_THAT(comparison_text(job, rows, TableFormat::markdown),
               ContainsSubstring("- spare: the contour is undercut"));
}

TEST_CASE("laws stand in for arcs and motions, and for a fullest lift that is given") {
    Job job = basalt::four();
    CHECK(compare_laws(job, "inlet", std::nullopt).ok());
    FullestProfile fullest;
    fullest.base_radius = 15.0, fullest.lift = 5.0, fullest.opening_share = 0.5;
    fullest.limits.deceleration = 12.0, fullest.limits.jerk = 300.0;
    job.profiles["inlet"] = fullest;
    const auto laws = compare_laws(job, "inlet", std::nullopt);
    REQUIRE(laws.ok());
    const auto full = compare_profiles(job, std::nullopt);
    REQUIRE(full[1].report);
    CHECK_NEAR(full[1].report->lift, 5.0, 1e-9);
    CHECK_NEAR(full[1].duration->degrees(), 240.0, 1e-3);
    for (const ComparedLobe& row : *laws)
        if (row.report) CHECK_NEAR(row.report->lift, 5.0, 1e-9);
    fullest.lift.reset();
    job.profiles["inlet"] = fullest;
    CHECK_FALSE(compare_laws(job, "inlet", std::nullopt).ok());
    job.profiles["inlet"] = SegmentsProfile{15.0, {}};
    const auto refused = compare_laws(job, "inlet", std::nullopt);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "no-laws");
    CHECK(refused.diagnostics().front().fault == Fault::bad_input);
}

TEST_CASE("the formats say the same figures, per degree and in the job's units") {
    Job job = carded();
    const auto rows = *compare_laws(job, "inlet", std::nullopt);
    const auto lines = lines_of(comparison_text(job, rows, TableFormat::csv));
    REQUIRE(lines.size() == 9);
    CHECK(lines[0] ==
          "profile,law,lobe,lift,area,max_velocity,max_acceleration,min_acceleration,acceleration_jump,"
          "max_jerk,min_curvature_radius,max_pressure_angle,max_contact_stress_mpa,float_speed_rpm,duration,"
          "overlap,message");
    const auto cycloidal = fields_of(lines[2]);
    CHECK(cycloidal[1] == "cycloidal");
    CHECK(std::stod(cycloidal[3]) == 2.4);
    CHECK_NEAR(std::stod(cycloidal[4]), rows[1].report->area * 180.0 / std::numbers::pi, 1e-8);
    CHECK_NEAR(std::stod(cycloidal[14]), 240.0, 1e-8);
    // The jerk of a law whose acceleration jumps is infinite: no figure.
    CHECK(fields_of(lines[8])[9].empty());
    CHECK_THAT(comparison_columns(job, rows), ContainsSubstring("infinite"));
    CHECK_THAT(comparison_text(job, rows, TableFormat::json),
               ContainsSubstring("\"units\": \"mm\"") && ContainsSubstring("\"max_jerk\": null"));
    CHECK_THAT(comparison_text(job, rows, TableFormat::markdown),
               ContainsSubstring("| power-polynomial 2-10"));
    Job inch = job;
    inch.units = Units::inch;
    const auto inches = lines_of(comparison_text(inch, rows, TableFormat::csv));
    CHECK_NEAR(std::stod(fields_of(inches[2])[3]), 2.4 / 25.4, 1e-8);
    CHECK_NEAR(std::stod(fields_of(inches[2])[14]), 240.0, 1e-8);
}
