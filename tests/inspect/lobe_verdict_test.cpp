#include "readings_kit.h"

#include <cmath>

using namespace lobewright;
using namespace readings_kit;

namespace {

/// Degrees of a crank angle held in radians.
double crank(double radians) {
    return in_degrees(radians);
}

/// The four's inlet and exhaust of cylinder 1, measured with these errors.
std::vector<LobeInspection> both_valves(const Job& job, const std::vector<SolvedLobe>& lobes,
                                        const Wrong& inlet, const Wrong& exhaust) {
    std::vector<LobeInspection> found;
    for (std::size_t i = 0; i < 2; ++i) {
        MeasuredLobe readings = measured(lobes[i], i == 0 ? inlet : exhaust);
        readings.lobe = i;
        auto each = inspect_lobe(job, lobes, readings, {});
        REQUIRE(each.ok());
        found.push_back(std::move(each).value());
    }
    return found;
}

std::vector<SolvedLobe> solved_lobes(const Job& job) {
    auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    return std::move(lobes).value();
}

}  // namespace

TEST_CASE("a lobe that comes late opens and closes its valve so much later, by the crank") {
    const Job job = basalt::four();
    const auto lobes = solved_lobes(job);
    const auto found = both_valves(job, lobes, {0.75, 0.0}, {-0.25, 0.0});
    REQUIRE(found[0].events);
    CHECK_THAT(crank(found[0].events->opens_late.value), Near(1.5, 1e-5));
    CHECK_THAT(crank(found[0].events->closes_late.value), Near(1.5, 1e-5));
    CHECK_THAT(found[0].events->opens().degrees(), Near(14.0 - 1.5, 1e-5));
    CHECK_THAT(found[0].events->closes().degrees(), Near(46.0 + 1.5, 1e-5));
    const auto shaft = shaft_inspection(job, lobes, found);
    REQUIRE(shaft);
    REQUIRE(shaft->overlaps.size() == 1);
    CHECK(shaft->overlaps[0].cylinder == 1);
    CHECK_THAT(shaft->overlaps[0].design.degrees(), Near(26.0, 1e-6));
    CHECK_THAT(crank(shaft->overlaps[0].measured.value), Near(26.0 - 1.5 - 0.5, 1e-5));
    CHECK_THAT(in_degrees(shaft->phase.value), Near(0.25, 1e-6));
    CHECK_THAT(in_degrees(shaft->lobes[0].off.value), Near(0.5, 1e-6));
    CHECK_THAT(in_degrees(shaft->lobes[1].off.value), Near(-0.5, 1e-6));
}

TEST_CASE("metal left on a flank opens the valve where the lift there reaches the clearance") {
    Job job = basalt::four();
    const auto lobes = solved_lobes(job);
    // Twelve micrometres on the opening flank and its foot, with soft ends that miss the event.
    Wrong wrong;
    wrong.form = [](double angle) {
        const double x = (angle + 50.0) / 40.0;
        return std::abs(x) < 1.0 ? 0.012 * std::pow(1.0 - std::pow(x, 4.0), 4.0) : 0.0;
    };
    const auto found = both_valves(job, lobes, wrong, {});
    REQUIRE(found[0].events);
    // Where lift and error together are the clearance, by halving.
    double low = -70.0, high = 0.0;
    const auto lift = [&](double angle) {
        return lobes[0].motion.at(CamAngle::from_degrees(angle)).lift + wrong.form(angle);
    };
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (lift(middle) < 0.10 ? low : high) = middle;
    }
    const double design = events_at(lobes[0].motion, 0.10).opens.degrees();
    const double late = in_degrees(found[0].phase.value);
    CHECK_THAT(crank(found[0].events->opens_late.value), Near(2.0 * (low - design), 0.05));
    CHECK(std::abs(late) < 0.05);
    CHECK(low - design < -0.3);
}

TEST_CASE("the surface is judged along the normal, with the base circle's error") {
    Job job = basalt::job(basalt::lopsided(), basalt::endless_flat());
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    Noise noise(11);
    const MeasuredLobe readings =
        measured(lobes[0], {0.0, 0.006}, 1.0, [&] { return 0.0005 * noise.normal(); });
    const auto verdict = [&](double tolerance) {
        const auto found = inspect_lobe(job, lobes, readings, {false, false, tolerance});
        REQUIRE(found.ok());
        REQUIRE(found->surface);
        CHECK_THAT(found->surface->proudest.value, Near(0.006, 0.0018));
        CHECK(has_errors(found->findings) == (found->surface->verdict == ToleranceVerdict::beyond));
        return *found->surface->verdict;
    };
    CHECK(verdict(0.010) == ToleranceVerdict::within);
    CHECK(verdict(0.003) == ToleranceVerdict::beyond);
    CHECK(verdict(0.0064) == ToleranceVerdict::too_close);
    const auto found = inspect_lobe(job, lobes, readings, {});
    REQUIRE(found.ok());
    CHECK_FALSE(found->surface->verdict);
}

TEST_CASE("velocity and acceleration are the design's and the error's together, within their uncertainty") {
    Job job = basalt::job(basalt::lopsided(), basalt::endless_flat());
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    constexpr double per_degree = std::numbers::pi / 180.0;
    // A wave of 5 µm, nine to the turn, whose bend is 81 × 5 µm per radian².
    Wrong wrong;
    wrong.form = [](double angle) { return 0.005 * std::sin(9.0 * angle * per_degree); };
    double fastest = 0.0, most = 0.0;
    for (int i = 0; i < 36000; ++i) {
        const double angle = -180.0 + 0.01 * i;
        const Lift lift = lobes[0].motion.at(CamAngle::from_degrees(angle));
        const double wave = 9.0 * angle * per_degree;
        fastest = std::max(fastest, (lift.velocity + 0.045 * std::cos(wave)) * per_degree);
        most = std::max(most, (lift.acceleration - 0.405 * std::sin(wave)) * per_degree * per_degree);
    }
    Noise noise(5);
    for (const double scatter : {0.0, 0.001}) {
        const auto found = inspect_lobe(
            job, lobes, measured(lobes[0], wrong, 1.0, [&] { return scatter * noise.normal(); }), {});
        REQUIRE(found.ok());
        REQUIRE(found->motion);
        const MeasuredMotion& motion = *found->motion;
        const double speed_margin = 0.02 * fastest + 4.0 * motion.fastest_rise.measured.error;
        CHECK_THAT(motion.fastest_rise.measured.value, Near(fastest, speed_margin));
        const double margin = 0.10 * most + 4.0 * motion.acceleration.measured.error;
        CHECK_THAT(motion.acceleration.measured.value, Near(most, margin));
        CHECK(motion.acceleration.measured.value > motion.acceleration.design);
        CHECK(motion.fastest_fall.measured.value < 0.0);
        CHECK(motion.deceleration.measured.value < 0.0);
    }
}

TEST_CASE("readings too far apart tell no velocity") {
    Job job = basalt::job(basalt::lopsided(), basalt::endless_flat());
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    const auto found = inspect_lobe(job, lobes, measured(lobes[0], {0.3, 0.0}, 10.0), {});
    REQUIRE(found.ok());
    CHECK_FALSE(found->motion);
    CHECK_THAT(in_degrees(found->phase.value), Near(0.3, 1e-5));
}

/// However wide the lines are.
std::string in_one_line(const std::string& text) {
    std::string line;
    for (const char c : text)
        if (c != '\n' && (c != ' ' || line.empty() || line.back() != ' '))
            line += c;
        else if (c == '\n' && !line.empty() && line.back() != ' ')
            line += ' ';
    return line;
}

TEST_CASE("the report says what was known, what was found and what was set aside") {
    const Job job = basalt::four();
    const auto lobes = solved_lobes(job);
    auto readings = measured(lobes[0], {0.5, 0.004});
    readings.readings[100].reading += 0.3;
    const auto found = inspect_lobe(job, lobes, readings, {});
    REQUIRE(found.ok());
    const std::vector<LobeInspection> all{*found};
    for (const InspectFormat format : {InspectFormat::markdown, InspectFormat::text}) {
        const std::string text = in_one_line(inspection_text(job, lobes, all, format));
        for (const char* part : {"a flat anvil", "1 set aside as outliers: -80° (off by +0.3 mm, line 102)",
                                 "(late)", "(large)", "opens before TDC at 13.0°", "Taken as known"}) {
            INFO(part);
            CHECK(text.find(part) != std::string::npos);
        }
    }
    const std::string json = inspection_text(job, lobes, all, InspectFormat::json);
    for (const char* name : {"\"phase_error\"", "\"base_error\"", "\"worst_lift_error\"", "\"worst_at\"",
                             "\"rms_error\"", "\"runout\": null", "\"runout_at\": null", "\"line\": 102"}) {
        INFO(name);
        CHECK(json.find(name) != std::string::npos);
    }
    const std::string csv = inspection_text(job, lobes, all, InspectFormat::csv);
    CHECK(csv.starts_with("cam_angle,shaft_angle,reading,expected,error,set_aside\n"));
}

TEST_CASE("the design's fastest rise beside the measured one is found in however short a step of the lift") {
    // Three tenths of a degree, between two places of any even scan of half degrees.
    const auto to = [](double degrees, double high) {
        return Segment{CamAngle::from_degrees(degrees), high, LawKind::cycloidal, {}};
    };
    SegmentsProfile profile;
    profile.base_radius = 12.0;
    profile.segments = {to(60.1, 2.0), to(0.3, 2.02), to(60.0, 0.0)};
    Job job = basalt::job(profile, basalt::knife());
    job.probe = Probe{ProbeKind::knife, 0.0, {}};
    const SolvedLobe lobe = basalt::solved(job);
    const LobeInspection found = inspected(job, measured(lobe, {}, 0.5));
    REQUIRE(found.motion);
    CHECK_THAT(found.motion->fastest_rise.design, Near(2.0 * 0.02 / 0.3, 1e-9));  // a cycloid's 2 h / angle
    CHECK(found.motion->fastest_rise.measured.value > 0.12);
}
