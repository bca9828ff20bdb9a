#include "basalt.h"
#include "job_kit.h"

#include <lobewright/inspect.h>

#include <cmath>

using namespace lobewright;

namespace {

constexpr CamAngle degree = CamAngle::from_degrees(1.0);

SolvedLobe arcs_lobe(double at_degrees = 30.0, Sense turns = Sense::ccw) {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat(), turns);
    job.lobes[0].at = ShaftAngle::from_degrees(at_degrees);
    return basalt::solved(job);
}

std::string first_line(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

}  // namespace

TEST_CASE("the expected readings stand at every step of the cam angle, the lift under a flat anvil") {
    const SolvedLobe lobe = arcs_lobe();
    const ExpectedReadings expected = expected_readings(lobe, Probe{}, degree);
    REQUIRE(expected.rows.size() == 361);
    CHECK_THAT(expected.rows.front().cam_angle.degrees(), Near(-180.0, 1e-12));
    CHECK_THAT(expected.rows.back().cam_angle.degrees(), Near(180.0, 1e-12));
    for (const ExpectedReading& row : expected.rows) {
        CHECK_THAT(row.reading, Near(lobe.motion.at(row.cam_angle).lift, 1e-12));
        CHECK_THAT(row.shaft_angle.degrees(), Near(30.0 - row.cam_angle.degrees(), 1e-12));
    }
    CHECK(expected_readings(lobe, Probe{}, CamAngle::from_degrees(7.0)).rows.size() == 53);
}

TEST_CASE("sizes between anvils are base circle and nose together, and twice the base circle") {
    const ExpectedReadings expected = expected_readings(arcs_lobe(), Probe{}, degree);
    CHECK_THAT(expected.across_nose, Near(14.4, 1e-9));
    CHECK_THAT(expected.across_nose_at.degrees(), Near(0.0, 1e-6));
    REQUIRE(expected.across_heel);
    CHECK_THAT(*expected.across_heel, Near(12.0, 1e-12));
    CHECK_THAT(expected.largest, Near(2.4, 1e-12));
    CHECK_THAT(expected.rows[180].across, Near(14.4, 1e-12));
}

TEST_CASE("the probe stands on the base circle from flank's end to flank's end") {
    const ExpectedReadings expected = expected_readings(arcs_lobe(), Probe{}, degree);
    REQUIRE(expected.heel);
    // Under an anvil the flank lifts by (flank - base)(1 - cos x), x from where it meets the base circle.
    const double late = std::acos(1.0 - 1e-4 / (25.0 - 6.0)) * 180.0 / std::numbers::pi;
    CHECK_THAT(expected.heel->from.degrees(), Near(60.0 - late, 1e-6));
    CHECK_THAT(expected.heel->to.degrees(), Near(300.0 + late, 1e-6));
}

TEST_CASE("an eccentric's heel is nowhere, an anvil's reach is the lift's steepest slope") {
    const SolvedLobe lobe = basalt::solved(basalt::law(LawKind::simple_harmonic, 10.0, 2.0, 180.0, 180.0),
                                           basalt::endless_flat());
    const ExpectedReadings expected = expected_readings(lobe, Probe{}, degree);
    CHECK_FALSE(expected.across_heel);
    // Lift 1 - cos: its slope is 1 mm per radian at most.
    CHECK_THAT(expected.anvil_reach, Near(1.0, 1e-9));
    CHECK_THAT(expected.across_nose, Near(22.0, 1e-9));
}

TEST_CASE("at the marks of a wheel the probe faces what the cutter would, and its own direction") {
    HandMethod method;
    method.divisions = 72;
    method.zero = ShaftAngle::from_degrees(10.0);
    for (const Sense counts : {Sense::ccw, Sense::cw}) {
        for (const Sense turns : {Sense::ccw, Sense::cw}) {
            method.counts = counts;
            Probe probe;
            probe.direction = SpaceAngle::from_degrees(90.0);
            const SolvedLobe lobe = arcs_lobe(30.0, turns);
            const ExpectedReadings expected = expected_at_marks(lobe, probe, method);
            REQUIRE(expected.rows.size() == 72);
            for (int k = 0; k < 72; ++k) {
                const ExpectedReading& row = expected.rows[static_cast<std::size_t>(k)];
                CHECK(row.mark == k);
                const double facing = 10.0 + sign_of(counts) * 5.0 * k + 90.0;
                CHECK_THAT(std::remainder(row.shaft_angle.degrees() - facing, 360.0), Near(0.0, 1e-9));
                CHECK_THAT(row.reading, Near(lobe.motion.at(row.cam_angle).lift, 1e-12));
            }
        }
    }
}

TEST_CASE("the texts hold the names that stay, lengths in the job's units") {
    const SolvedLobe lobe = arcs_lobe();
    const ExpectedReadings expected = expected_readings(lobe, Probe{}, CamAngle::from_degrees(90.0));
    const std::string csv = expected_text(expected, lobe, Units::mm, std::nullopt, InspectFormat::csv);
    CHECK(csv == "cam_angle,shaft_angle,reading\n-180,210,0\n-90,120,0\n0,30,2.4\n90,-60,0\n180,-150,0\n");
    const std::string inch = expected_text(expected, lobe, Units::inch, std::nullopt, InspectFormat::csv);
    CHECK(inch.find("0,30,0.094488189\n") != std::string::npos);
    const std::string json = expected_text(expected, lobe, Units::mm, 0.002, InspectFormat::json);
    for (const char* part : {"\"lobe\": \"lobe\"", "\"across_nose\": 14.4", "\"across_base\": 12",
                             "\"base_runout_limit\": 0.004",
                             "{\"cam_angle\": 0, \"shaft_angle\": 30, \"reading\": 2.4, \"across\": 14.4}"}) {
        INFO(part);
        CHECK(json.find(part) != std::string::npos);
    }
    for (const InspectFormat format : {InspectFormat::markdown, InspectFormat::text}) {
        const std::string text = expected_text(expected, lobe, Units::mm, 0.002, format);
        CHECK(text.find("14.4 mm over base circle and nose") != std::string::npos);
        CHECK(text.find("0.004 mm") != std::string::npos);
        CHECK(text.find("2.4000") != std::string::npos);
    }
    CHECK(first_line(expected_text(expected_at_marks(lobe, Probe{},
                                                     [] {
                                                         HandMethod method;
                                                         method.divisions = 4;
                                                         return method;
                                                     }()),
                                   lobe, Units::mm, std::nullopt, InspectFormat::csv)) ==
          "cam_angle,shaft_angle,reading,mark");
}
