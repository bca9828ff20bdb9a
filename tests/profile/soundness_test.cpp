#include "basalt.h"
#include "catch.h"
#include "profile/judge/soundness_findings.h"

#include <lobewright/number_text.h>
#include <lobewright/soundness.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <numbers>
#include <sstream>

using namespace lobewright;
using namespace lobewright::profile;
using basalt::arcs_with_flank;
using basalt::arcs_with_nose;
using basalt::endless_flat;
using basalt::load;
using basalt::roller;
using basalt::timing;

namespace {

constexpr double per_degree = std::numbers::pi / 180;

/// A lobe 10 mm wide, over which the contact's load is spread.
Job one_lobe(Profile profile, Follower follower) {
    Job job = basalt::job(std::move(profile), follower);
    job.lobes.front().width = 10.0;
    return job;
}

std::vector<SolvedLobe> solved(const Job& job) {
    auto lobes = solve_lobes(job);
    for (const Diagnostic& d : lobes.diagnostics())
        UNSCOPED_INFO(to_text(d));
    REQUIRE(lobes.ok());
    return lobes.value();
}

JobReport judged(const Job& job) {
    return judge(job, solved(job));
}

const Diagnostic* find(const JobReport& report, const std::string& code) {
    for (const Diagnostic& finding : report.findings) {
        if (finding.code == code) return &finding;
    }
    return nullptr;
}

/// The number that follows `words` in a finding's message.
double number_after(const std::string& message, const std::string& words) {
    const auto at = message.find(words);
    INFO(message);
    REQUIRE(at != std::string::npos);
    const auto start = message.find_first_not_of(' ', at + words.size());
    const auto number =
        parse_decimal(message.substr(start, message.find_first_not_of("0123456789.", start) - start));
    REQUIRE(number.has_value());
    return *number;
}

/// Cycloidal 10 mm in 120 degrees, 37.5 N and 15 N/mm, 1.8 kg, the cam at 1000 rev/min.
Job adapala() {
    Job job = one_lobe(basalt::law(LawKind::cycloidal, 40, 10, 120, 120), roller(10));
    job.contact = load(37.5, 15, 1.8, 1000);
    job.engine = Engine{};
    job.engine->cam_per_crank = 1.0;
    return job;
}

/// Inlet and exhaust of cylinder 1, 3-4-5, opening as the timing asks with no clearance.
Job timed(double ivo, double ivc, double evo, double evc) {
    const double inlet = (ivo + 180 + ivc) / 4, exhaust = (evo + 180 + evc) / 4;  // cam degrees of each flank
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 50, 8, inlet, inlet), endless_flat());
    job.profiles.emplace("exhaust", basalt::law(LawKind::polynomial_345, 50, 8, exhaust, exhaust));
    job.engine = Engine{};
    job.engine->firing_angles = {CrankAngle{}};
    job.engine->inlet = timing(ivo, ivc, 0);
    job.engine->exhaust = timing(evo, evc, 0);
    job.lobes.front().at.reset();
    job.lobes.front().cylinder = 1;
    LobeEntry other = job.lobes.front();
    other.name = "other";
    other.profile = "exhaust";
    other.valve = Valve::exhaust;
    other.z = 40;
    job.lobes.push_back(other);
    return job;
}

}  // namespace

TEST_CASE("peak velocity, acceleration and jerk are the law's coefficients") {
    // Derivatives of 10x³ - 15x⁴ + 6x⁵: 3-4-5 has 15/8, 10/sqrt 3 and 60; v per radian = Cv h / beta.
    const double range = 60 * per_degree;
    const JobReport report =
        judged(one_lobe(basalt::law(LawKind::polynomial_345, 40, 8, 70, 60), endless_flat()));
    const LobeReport& lobe = report.lobes.front();
    CHECK_RELATIVE(lobe.max_velocity.value, 15.0 / 8 * 8 / range, 1e-12);
    CHECK_RELATIVE(lobe.max_acceleration.value, 10 / std::sqrt(3) * 8 / (range * range), 1e-12);
    CHECK_RELATIVE(lobe.min_acceleration.value, -10 / std::sqrt(3) * 8 / (range * range), 1e-12);
    CHECK_RELATIVE(lobe.max_jerk.value, 60.0 * 8 / (range * range * range), 1e-12);
    CHECK_NEAR(lobe.max_velocity.at->degrees(), 30, 1e-5);
    CHECK_NEAR(lobe.max_acceleration.at->degrees(), 60 * (1 - 0.211324865), 1e-5);
    CHECK_NEAR(lobe.min_acceleration.at->degrees(), 60 * 0.211324865, 1e-5);
    CHECK_NEAR(lobe.action_angle.degrees(), 130, 1e-9);
}

TEST_CASE("a step in the acceleration counts from both sides") {
    // Bevan, ex. 5 p. 300: 5739.910 just before the joint, 1200 rev/min in inches and seconds: here per rad².
    Job job = one_lobe(arcs_with_nose(1.125 * 25.4, 0.5 * 25.4, 110, 0.125 * 25.4), endless_flat());
    job.contact = load(1, 1, 1, 2 * 1200);  // the cam turns at 1200
    const LobeReport lobe = judged(job).lobes.front();
    const double feet = 0.3048;
    CHECK_NEAR(*lobe.peak_velocity / feet, 10.517440, 5e-6);
    CHECK_NEAR(*lobe.peak_acceleration / feet, 5890.106, 5e-3);
    CHECK_NEAR(*lobe.peak_deceleration / feet, -1973.921, 5e-3);
    CHECK_NEAR(lobe.contact_travel->value / 25.4, 4.475944 * std::sin(12.966806 * per_degree), 5e-6);
    CHECK_NEAR(*lobe.flank_radius / 25.4, 5.600944, 5e-6);
    CHECK_NEAR(lobe.nose_to_base, 0.125 / 1.125, 1e-9);
    CHECK_NEAR(lobe.min_curvature_radius.value / 25.4, 0.125, 1e-9);
}

TEST_CASE("Khurmi's tangent cam with a roller has the recomputed accelerations") {
    // bissoy.com/mcq/375987: 187.6 m/s² at the start, exact 187.522; the rest by the closed forms in
    // lakshyaeducation.in/question/.../1626678061803337 for flank and nose.
    Job job = one_lobe(arcs_with_flank(30, 17.5, 150, straight_flank), roller(17.5));
    job.contact = load(1, 1, 1, 1200);
    const LobeReport lobe = judged(job).lobes.front();
    CHECK_NEAR(*lobe.peak_acceleration, 303.925890, 1e-4);
    CHECK_NEAR(*lobe.peak_deceleration, -146.386701, 1e-4);
    CHECK_NEAR(*lobe.peak_velocity, 1.589584, 1e-6);
    CHECK_NEAR(*lobe.nose_radius, 23.889032, 1e-6);
    CHECK(std::isinf(*lobe.flank_radius));
    CHECK_FALSE(lobe.face_needed.has_value());
}

TEST_CASE("Khurmi's suction valve has the recomputed accelerations") {
    // Inputs from memory of Khurmi; values by the closed forms of three arcs: a0 = ω² (R - r1), apex -ω² r.
    Job job = one_lobe(arcs_with_nose(20, 10, 113, 2.5), endless_flat());
    job.contact = load(1, 1, 1, 1200);
    const LobeReport lobe = judged(job).lobes.front();
    CHECK_NEAR(*lobe.peak_velocity, 1.220461, 1e-6);
    CHECK_NEAR(*lobe.peak_acceleration, 382.586815, 1e-4);
    CHECK_NEAR(*lobe.peak_deceleration, -108.565648, 1e-4);
}

TEST_CASE("harmonic motion out and back needs a theoretical face of 50 mm") {
    // Mabie (th4.ilovetranslation.com/8w8ZRY4te-L=d): 50 mm of lift on 25 mm.
    Job job = one_lobe(basalt::law(LawKind::simple_harmonic, 25, 50, 180, 180), endless_flat());
    job.lobes.front().width = 0;
    const LobeReport lobe = judged(job).lobes.front();
    CHECK_NEAR(2 * lobe.contact_travel->value, 50, 1e-9);
    CHECK_NEAR(*lobe.face_needed, 50, 1e-9);
    CHECK_NEAR(lobe.min_curvature_radius.value, 50, 1e-9);
}

TEST_CASE("a cycloidal rise of 4 cm in 60 degrees needs a face of 15.278875 cm") {
    // tutorbin.com, inputs; the largest slope of a cycloid is 2 x 4 cm / (π/3) = 7.639437 cm, and its least s
    // + s'' -19.2908 cm, which the base circle must exceed.
    const LobeReport lobe =
        judged(one_lobe(basalt::law(LawKind::cycloidal, 200, 40, 60, 60), endless_flat())).lobes.front();
    CHECK_NEAR(2 * lobe.contact_travel->value, 152.78875, 5e-5);
    CHECK_NEAR(lobe.min_curvature_radius.value, 200 - 192.90787, 5e-4);
}

TEST_CASE("3-4-5 and harmonic rises of 2 cm in 60 degrees take 8.667381 and 7 cm off the radius") {
    // The same example; there they start from 2 cm of lift, so min(s + s'') is -6.667381 and -5 cm.
    const LobeReport polynomial =
        judged(one_lobe(basalt::law(LawKind::polynomial_345, 200, 20, 60, 60), endless_flat())).lobes.front();
    CHECK_NEAR(polynomial.min_curvature_radius.value, 200 - 86.67381, 5e-6);
    const LobeReport harmonic =
        judged(one_lobe(basalt::law(LawKind::simple_harmonic, 200, 20, 60, 60), endless_flat()))
            .lobes.front();
    CHECK_NEAR(harmonic.min_curvature_radius.value, 200 - 70, 1e-9);
}

TEST_CASE("a cycloidal 25 mm in 120 degrees on 25 mm has a smallest radius of 11.670006 mm") {
    // Rattan's inputs (from memory); 25 + min(s + s'') of the cycloid.
    const LobeReport lobe =
        judged(one_lobe(basalt::law(LawKind::cycloidal, 25, 25, 120, 120), endless_flat())).lobes.front();
    CHECK_NEAR(lobe.min_curvature_radius.value, 11.670006, 1e-6);
}

TEST_CASE("the 3-4-5 roller example has a pressure angle of 8.376513 degrees") {
    // petfoodhonesty.com/responto/32291293: 10 mm in 90 degrees, base 63.7, roller 12.5.
    const LobeReport lobe =
        judged(one_lobe(basalt::law(LawKind::polynomial_345, 63.7, 10, 90, 90), roller(12.5))).lobes.front();
    CHECK_NEAR(lobe.max_pressure_angle.value / per_degree, 8.376513, 1e-6);
}

TEST_CASE("a flat tappet's face holds the lobe's width at the contact's travel") {
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 40, 8, 60, 60), endless_flat());
    job.followers.at("follower").face_offset = -1.5;
    const double travel = 15.0 / 8 * 8 / (60 * per_degree), across = 5 + 1.5;
    CHECK_NEAR(*judged(job).lobes.front().face_needed, 2 * std::sqrt(travel * travel + across * across),
               1e-9);
}

TEST_CASE("the cycloidal spring example floats at 779.83 rev/min and lacks 109.972 N") {
    // adapala-academy.com/forum/index.php/1522, inputs; F = k (x + x₀) + m a over the cycloid's fall.
    const LobeReport lobe = judged(adapala()).lobes.front();
    CHECK_NEAR(*lobe.float_speed_rpm, 779.83, 0.005);
    CHECK_NEAR(lobe.least_force->value, -109.972, 5e-4);
    CHECK_NEAR(lobe.least_force->at->degrees(), 88.236 - 120, 5e-4);
}

TEST_CASE("the eccentric disc floats at 590.68 rev/min without its weight") {
    // Khurmi (from memory): e 25 mm, 2.3 kg, 3.5 N/mm, 45 N: ω² = (45 N + 3.5 N/mm x 50 mm) / (2.3 kg x 25
    // mm).
    Job job = one_lobe(basalt::law(LawKind::simple_harmonic, 25, 50, 180, 180), endless_flat());
    job.contact = load(45, 3.5, 2.3, 2 * 500);
    CHECK_NEAR(*judged(job).lobes.front().float_speed_rpm, 2 * 590.68, 0.01);
}

TEST_CASE("the contact's pressure is Hertz's with the lobe's own radius") {
    // p = 190.27 sqrt(F / (L R)) for steel on steel (hertz_test.cpp), on a nose of 2.5 mm under a
    // flat tappet.
    Job job = one_lobe(arcs_with_nose(20, 10, 113, 2.5), endless_flat());
    job.contact = load(100, 10, 0, 1000);
    const LobeReport lobe = judged(job).lobes.front();
    CHECK_NEAR(lobe.max_contact_stress_mpa->value, 190.27 * std::sqrt(200 / (10 * 2.5)), 0.05);
    CHECK_NEAR(lobe.max_contact_stress_mpa->at->degrees(), 0, 1e-4);
    CHECK_NEAR(lobe.standing_contact_stress_mpa->value, lobe.max_contact_stress_mpa->value, 1e-9);
    const double modulus = 207000 / (2 * 0.91);
    const double half_width = std::sqrt(4 * 200 * 2.5 / (std::numbers::pi * 10 * modulus));
    CHECK_RELATIVE(*lobe.shear_depth, 0.786151 * half_width, 1e-6);
    const ContactState top = contact_state(job, solved(job).front(), CamAngle{}, 1000);
    CHECK_NEAR(top.force, 200, 1e-9);
    CHECK_RELATIVE(top.pressure_mpa, lobe.max_contact_stress_mpa->value, 1e-12);
    CHECK_RELATIVE(top.half_width, half_width, 1e-9);
}

TEST_CASE("a roller's curvature adds to the lobe's, and the pressure angle to the force") {
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 20, 8, 50, 50), roller(8));
    job.contact = load(100, 10, 0, 1000);
    const SolvedLobe lobe = solved(job).front();
    for (const double degrees : {-170.0, -35.0, -20.0, 0.0, 31.0}) {
        const FollowerContact contact = contact_at(lobe, CamAngle::from_degrees(degrees));
        const double normal = (100 + 10 * contact.lift.lift) / std::cos(contact.pressure_angle);
        const double wanted = 190.27 * std::sqrt(normal / 10 * (contact.contact.curvature + 1.0 / 8));
        CHECK_NEAR(contact_state(job, lobe, CamAngle::from_degrees(degrees), 1000).pressure_mpa, wanted,
                   0.05);
    }
}

TEST_CASE("a knife has no pressure to report") {
    Follower knife;
    knife.kind = FollowerKind::knife;
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 20, 8, 70, 70), knife);
    job.contact = load(100, 10, 0.1, 1000);
    const JobReport report = judged(job);
    CHECK_FALSE(report.lobes.front().max_contact_stress_mpa.has_value());
    CHECK(report.lobes.front().greatest_force.has_value());
}

TEST_CASE("a timing card comes back from the lobes that it made") {
    struct Card {
        double ivo, ivc, evo, evc, inlet, exhaust, inlet_centre, exhaust_centre, separation, overlap;
    };
    // clang-format off
    const Card card = GENERATE(
        // 20/60-60/20: ausmini.com/forums/viewtopic.php?p=237565, with its advanced, retarded and 105 degree variants
        Card{20, 60, 60, 20, 260, 260, 110, 110, 110, 40}, Card{25, 55, 65, 15, 260, 260, 105, 115, 110, 40},
        Card{15, 65, 55, 25, 260, 260, 115, 105, 110, 40}, Card{25, 55, 55, 25, 260, 260, 105, 105, 105, 50},
        // 10/40-50/10: askfilo.com, "how to calculate valve timing"
        Card{10, 40, 50, 10, 230, 240, 105, 110, 107.5, 20},
        // Army manual TM 9-8000: opens 28 before, 279 in all (so closes 71 after), exhaust closes 45 after; its opening,
        // 75 here, is not printed
        Card{28, 71, 75, 45, 279, 300, 111.5, 105, 108.25, 73},
        // An inlet that opens late: negative on the card (from memory)
        Card{-5, 45, 40, -3, 220, 217, 115, 111.5, 113.25, -8});
    // clang-format on
    CAPTURE(card.ivo, card.ivc, card.evo, card.evc);
    Job job = timed(card.ivo, card.ivc, card.evo, card.evc);
    job.shaft.turns = GENERATE(Sense::ccw, Sense::cw);
    const JobReport report = judged(job);
    const LobeReport &inlet = report.lobes[0], &exhaust = report.lobes[1];
    CHECK_NEAR(inlet.opens->degrees(), card.ivo, 1e-9);
    CHECK_NEAR(inlet.closes->degrees(), card.ivc, 1e-9);
    CHECK_NEAR(inlet.duration->degrees(), card.inlet, 1e-9);
    CHECK_NEAR(inlet.lobe_centre->degrees(), card.inlet_centre, 1e-9);
    CHECK_NEAR(exhaust.opens->degrees(), card.evo, 1e-9);
    CHECK_NEAR(exhaust.closes->degrees(), card.evc, 1e-9);
    CHECK_NEAR(exhaust.duration->degrees(), card.exhaust, 1e-9);
    CHECK_NEAR(exhaust.lobe_centre->degrees(), card.exhaust_centre, 1e-9);
    REQUIRE(report.lobe_separation.has_value());
    CHECK_NEAR(report.lobe_separation->degrees(), card.separation, 1e-9);
    CHECK_NEAR(report.overlap->degrees(), card.overlap, 1e-9);
}

TEST_CASE("the spring that a float finding names holds the follower") {
    Job job = adapala();
    const Diagnostic* finding = nullptr;
    const JobReport report = judged(job);
    finding = find(report, "float");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::error);
    CHECK_THAT(finding->what, ContainsSubstring("779.8 rev/min"));
    const double preload = number_after(finding->what, "spring_preload from 37.5 to ");
    const double rate = number_after(finding->what, "spring_rate from 15 to ");
    job.contact->spring_preload = preload;
    CHECK(find(judged(job), "float") == nullptr);
    job.contact->spring_preload = 37.5;
    job.contact->spring_rate = rate;
    CHECK(find(judged(job), "float") == nullptr);
    job.contact->spring_rate = 15;
    job.contact->crank_speed = number_after(finding->what, "leaves the lobe above ");
    CHECK(find(judged(job), "float") == nullptr);
}

TEST_CASE("the width that a pressure finding names brings the pressure within what is allowed") {
    Job job = one_lobe(arcs_with_nose(20, 10, 113, 2.5), endless_flat());
    job.contact = load(100, 10, 0.05, 3000);
    job.contact->allowable_stress = 450;
    const JobReport report = judged(job);
    const Diagnostic* finding = find(report, "contact-pressure");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::error);
    job.lobes.front().width = number_after(finding->what, "make the lobe ");
    CHECK(find(judged(job), "contact-pressure") == nullptr);
    job.lobes.front().width *= 0.998;
    CHECK(find(judged(job), "contact-pressure") != nullptr);
}

TEST_CASE("the face that a tappet finding names is wide enough") {
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 40, 8, 60, 60), endless_flat());
    job.followers.at("follower").face_diameter = 25;
    job.followers.at("follower").face_offset = 1.5;
    const JobReport report = judged(job);
    const Diagnostic* finding = find(report, "face-too-small");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::error);
    CHECK_THAT(finding->what, ContainsSubstring("drive end"));
    // Opening, on a ccw shaft, the lobe's nose comes from the clockwise side.
    CHECK_THAT(finding->what, ContainsSubstring("clockwise of the tappet's middle, at cam angle -30"));
    CHECK(finding->key == "follower.follower.face_diameter");
    job.followers.at("follower").face_diameter = number_after(finding->what, "face_diameter = ");
    CHECK(find(judged(job), "face-too-small") == nullptr);
}

TEST_CASE("the base circle that a pressure angle finding names brings it within the limit") {
    Follower arm;
    arm.kind = FollowerKind::pivoted;
    arm.radius = 3;
    arm.pivot_radius = 40;
    arm.arm_length = 36;
    const Job jobs[] = {one_lobe(basalt::law(LawKind::polynomial_345, 14, 8, 45, 50), roller(3)),
                        one_lobe(basalt::law(LawKind::cycloidal, 15, 8, 50, 50), roller(3, 2)),
                        one_lobe(arcs_with_nose(14, 8, 110, 6), roller(8)),
                        one_lobe(basalt::law(LawKind::cycloidal, 13, 10, 45, 45), arm)};
    int found = 0;
    for (Job job : jobs) {
        const JobReport report = judged(job);
        const Diagnostic* finding = find(report, "pressure-angle");
        if (!finding) continue;
        CHECK(finding->severity == Severity::warning);
        if (finding->what.find("base_radius = ") == std::string::npos) continue;
        ++found;
        const double radius = number_after(finding->what, "base_radius = ");
        std::visit([radius](auto& profile) { profile.base_radius = radius; }, job.profiles.at("profile"));
        CHECK(find(judged(job), "pressure-angle") == nullptr);
        std::visit([radius](auto& profile) { profile.base_radius = 0.998 * radius; },
                   job.profiles.at("profile"));
        CHECK(find(judged(job), "pressure-angle") != nullptr);
    }
    CHECK(found >= 3);
}

// On the axis the tangent of a knife's pressure angle is the lift's slope by the distance from the axis; a
// cycloidal rise of h over B has s = h (x - sin(2 pi x) / (2 pi)), s' = h (1 - cos(2 pi x)) / B.
TEST_CASE("past sixty degrees of pressure angle a guided follower jams, which is an error and no remark") {
    constexpr double base = 10.0, lift = 20.0, pi = std::numbers::pi;
    for (const double degrees : {80.0, 76.0, 66.0, 60.0, 45.0}) {
        double steepest = 0.0;
        for (int i = 0; i <= 20000; ++i) {
            const double x = i / 20000.0, s = lift * (x - std::sin(2 * pi * x) / (2 * pi));
            const double slope = lift * (1 - std::cos(2 * pi * x)) / (degrees * per_degree);
            steepest = std::max(steepest, std::atan2(slope, base + s) / per_degree);
        }
        Follower knife;
        knife.kind = FollowerKind::knife;
        const JobReport report =
            judged(one_lobe(basalt::law(LawKind::cycloidal, base, lift, degrees, degrees), knife));
        const Diagnostic* finding = find(report, "pressure-angle");
        REQUIRE(finding != nullptr);
        INFO(finding->what << "; sampled " << steepest);
        CHECK(std::abs(steepest - 60.0) > 0.1);
        CHECK((finding->severity == Severity::error) == (steepest > 60.0));
        CHECK_THAT(finding->what, ContainsSubstring("above 30 a guided follower may bind"));
    }
}

TEST_CASE("an arm has no guide to jam in: its pressure angle is a warning, however large") {
    Follower arm;
    arm.kind = FollowerKind::pivoted;
    arm.radius = 3;
    arm.pivot_radius = 60;
    arm.arm_length = 56;
    const JobReport report = judged(one_lobe(basalt::law(LawKind::cycloidal, 13, 20, 50, 50), arm));
    const Diagnostic* finding = find(report, "pressure-angle");
    REQUIRE(finding != nullptr);
    CHECK(report.lobes.front().max_pressure_angle.value > 60.0 * per_degree);
    CHECK(finding->severity == Severity::warning);
}

TEST_CASE("a hollow flank's note names the largest cutter, and the job's cutters that are larger") {
    // Hollow flanks of radius 60: no cutter above 120 mm across.
    Job job = one_lobe(arcs_with_flank(20, 10, 120, -60), roller(10));
    Cutter wheel;
    wheel.kind = CutterKind::disc;
    wheel.diameter = 125;
    job.cutters.emplace("wheel125", wheel);
    wheel.diameter = 100;
    job.cutters.emplace("wheel100", wheel);
    JobReport report = judged(job);
    const Diagnostic* finding = find(report, "hollow");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::note);
    CHECK_THAT(finding->what, ContainsSubstring("(not wheel125)"));
    CHECK_NEAR(number_after(finding->what, "more than "), 120, 0.01);
    CHECK_NEAR(*report.lobes.front().min_hollow_radius, 60, 1e-9);
}

TEST_CASE("the closing ramp that a seating finding names sets the valve down gently") {
    Job job = timed(20, 60, 60, 20);
    for (auto* valve : {&*job.engine->inlet, &*job.engine->exhaust})
        valve->clearance = 0.4;
    job.followers.at("follower").valve_ratio = 1.4;
    job.contact = load(300, 30, 0.2, 7000);
    const JobReport report = judged(job);
    const Diagnostic* finding = find(report, "seating");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::warning);
    Ramp ramp;
    ramp.lift = number_after(finding->what, "closing_ramp of lift ");
    ramp.angle = CamAngle::from_degrees(number_after(finding->what, "over an angle of "));
    for (auto& [name, profile] : job.profiles)
        std::get<MotionProfile>(profile).closing_ramp = ramp;
    const JobReport gentle = judged(job);
    CHECK(find(gentle, "seating") == nullptr);
    CHECK(*gentle.lobes.front().seating_velocity > 0.45);
}

TEST_CASE(
    "smoothing that keeps the steps of rounded readings is warned of, with the smoothing that doesn't") {
    TableProfile table;
    table.base_radius = 400;  // sound, steps and all
    table.file = "lift.csv";
    table.smoothing = 0.004;
    for (int degrees = -90; degrees <= 90; ++degrees) {
        const double x = std::max(0.0, 1 - std::abs(degrees) / 70.0);
        const double lift = 8 * x * x * x * (10 - 15 * x + 6 * x * x);
        table.readings.push_back({CamAngle::from_degrees(degrees), 0.01 * std::round(100.0 * lift), {}});
    }
    const JobReport report = judged(one_lobe(table, endless_flat()));
    const Diagnostic* rounded = find(report, "rounded");
    REQUIRE(rounded != nullptr);
    CHECK_NEAR(number_after(rounded->what, "rounded to "), 0.01, 1e-9);
    table.smoothing = number_after(rounded->what, "give smoothing = ");
    CHECK(find(judged(one_lobe(table, endless_flat())), "rounded") == nullptr);
    table.smoothing.reset();
    CHECK(find(judged(one_lobe(table, endless_flat())), "rounded") == nullptr);
}

TEST_CASE("a smoothed and turned table is told of") {
    TableProfile table;
    table.base_radius = 40;
    table.file = "lift.csv";
    table.smoothing = 0.003;
    for (int degrees = 0; degrees < 360; ++degrees) {
        const double x = std::max(0.0, 1 - std::abs(degrees - 200) / 70.0);
        const double noise = 0.002 * std::sin(7.0 * degrees * degrees);
        table.readings.push_back(
            {CamAngle::from_degrees(degrees), 8 * x * x * x * (10 - 15 * x + 6 * x * x) + noise, {}});
    }
    const JobReport report = judged(one_lobe(table, endless_flat()));
    const Diagnostic* smoothed = find(report, "smoothed");
    REQUIRE(smoothed != nullptr);
    const double moved = number_after(smoothed->what, "by up to ");
    CHECK(moved > 0.0015);
    CHECK(moved <= 0.003);
    const Diagnostic* shifted = find(report, "table-turned");
    REQUIRE(shifted != nullptr);
    CHECK_NEAR(number_after(shifted->what, "peak at "), 200, 0.5);
}

TEST_CASE("a sound job has no findings") {
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 40, 8, 70, 70), endless_flat());
    job.followers.at("follower").face_diameter = 35;
    job.contact = load(200, 30, 0.1, 5000);
    job.contact->allowable_stress = 1500;
    const JobReport report = judged(job);
    CHECK(report.findings.empty());
}

TEST_CASE("what is true of several lobes is told once, with all their names") {
    const Diagnostics findings{
        finding(Severity::error, "float", "1", "floats", "contact.spring_preload"),
        finding(Severity::note, "hollow", "1", "hollow", "profile.a.flank_radius"),
        finding(Severity::error, "float", "2", "floats", "contact.spring_preload"),
        finding(Severity::error, "float", "3", "floats sooner", "contact.spring_preload")};
    const auto told = lobes_together(findings);
    REQUIRE(told.size() == 3);
    CHECK(told[0].lobe == "1, 2");
    CHECK(told[1].lobe == "1");
    CHECK(told[2].lobe == "3");
}

TEST_CASE("remedies are rounded the safe way") {
    CHECK(at_least(147.4723) == "147.5");
    CHECK(at_most(779.839) == "779.8");
    CHECK(at_least(0.0123411) == "0.01235");
    CHECK(at_least(120.0) == "120");
    CHECK(at_most(120.0) == "120");
    CHECK(at_least(123456.0) == "123500");
}

TEST_CASE("check's json has the documented keys first, in their order") {
    const auto json = nlohmann::ordered_json::parse(report_json(adapala(), judged(adapala())));
    const char* const wanted[] = {"name",
                                  "at",
                                  "action_angle",
                                  "lift",
                                  "max_velocity",
                                  "max_acceleration",
                                  "min_curvature_radius",
                                  "min_hollow_radius",
                                  "max_pressure_angle",
                                  "face_needed",
                                  "max_contact_stress_mpa",
                                  "float_speed_rpm",
                                  "flank_radius",
                                  "nose_radius"};
    auto key = json["lobes"][0].begin();
    for (const char* const name : wanted) {
        CHECK(key.key() == name);
        ++key;
    }
    CHECK(json["lobes"][0]["face_needed"].is_null());
    CHECK(json["lobes"][0]["min_hollow_radius"].is_null());
    CHECK(json["lobes"][0]["flank_radius"].is_null());
    CHECK_NEAR(json["lobes"][0]["float_speed_rpm"].get<double>(), 779.83, 0.005);
    REQUIRE_FALSE(json["findings"].empty());
    auto finding = json["findings"][0].begin();
    for (const char* const name : {"severity", "lobe", "message"}) {
        CHECK(finding.key() == name);
        ++finding;
    }
    CHECK(json["findings"][0]["severity"] == "error");
}

TEST_CASE("check's json tells pressure angles in degrees, the fall's below zero") {
    // The 3-4-5 roller example above, 8.376513 degrees on either side.
    const Job job = one_lobe(basalt::law(LawKind::polynomial_345, 63.7, 10, 90, 90), roller(12.5));
    const auto lobe = nlohmann::json::parse(report_json(job, judged(job)))["lobes"][0];
    CHECK_NEAR(lobe["max_pressure_angle"].get<double>(), 8.376513, 1e-6);
    CHECK_NEAR(lobe["rise_pressure_angle"].get<double>(), 8.376513, 1e-6);
    CHECK_NEAR(lobe["fall_pressure_angle"].get<double>(), -8.376513, 1e-6);
}

TEST_CASE("check's text tells how fast the valve meets its seat where springs and speed are known") {
    Job job = timed(20, 60, 60, 20);
    job.engine->inlet->clearance = job.engine->exhaust->clearance = 0.4;
    CHECK_THAT(report_text(job, judged(job)), !ContainsSubstring("valve meets its seat"));
    job.contact = load(300, 30, 0.2, 7000);
    // 3-4-5 of 8 mm in 65 degrees: the rise 10x³ - 15x⁴ + 6x⁵ is 0.05 where the lift is the clearance's.
    double low = 0.0, high = 0.5;
    for (int i = 0; i < 60; ++i) {
        const double x = 0.5 * (low + high);
        (x * x * x * (10 - 15 * x + 6 * x * x) < 0.05 ? low : high) = x;
    }
    const double slope = 8.0 * 30 * low * low * (1 - low) * (1 - low) / (65 * per_degree);  // mm/rad
    const double seats = slope * 3500.0 * 2 * std::numbers::pi / 60 / 1000;                 // m/s
    CHECK_RELATIVE(number_after(report_text(job, judged(job)), "valve meets its seat"), seats, 4e-3);
}

TEST_CASE("check's json in inches is that in millimetres to the last printed digit") {
    Job job = adapala();
    const auto mm = nlohmann::json::parse(report_json(job, judged(job)))["lobes"][0];
    job.units = Units::inch;
    const auto inch = nlohmann::json::parse(report_json(job, judged(job)))["lobes"][0];
    const std::vector<std::string> lengths{
        "lift",        "max_velocity",     "max_acceleration", "min_curvature_radius",
        "base_radius", "min_acceleration", "max_jerk",         "shear_depth",
        "area"};
    for (const auto& [name, value] : mm.items()) {
        CAPTURE(name);
        if (std::find(lengths.begin(), lengths.end(), name) == lengths.end()) {
            CHECK(inch[name] == value);
        } else {
            CHECK_NEAR(inch[name].get<double>() * 25.4, value.get<double>(), 26.4 * 0.5e-9);
        }
    }
}

TEST_CASE(
    "check's text is in the user's units, tells equal lobes together, and is at most 100 columns wide") {
    Job job = timed(20, 60, 60, 20);
    job.contact = load(10, 3, 0.2, 7000);
    job.contact->allowable_stress = 300;
    job.followers.at("follower").face_diameter = 20;
    const JobReport report = judged(job);
    for (const Units units : {Units::mm, Units::inch}) {
        job.units = units;
        const std::string text = report_text(job, report);
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            const auto columns =
                std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; });
            INFO(line);
            CHECK(columns <= 100);
            CHECK((line.empty() || line.back() != ' '));
        }
        CHECK_THAT(text, ContainsSubstring(units == Units::mm ? "lengths in mm" : "lengths in inches"));
        CHECK_THAT(text, ContainsSubstring("20 BTDC"));
        CHECK_THAT(text, ContainsSubstring("60 ABDC"));
        CHECK_THAT(text, ContainsSubstring("both open for 40 crank degrees"));
        CHECK_THAT(text, ContainsSubstring("lobes 110 cam degrees apart"));
        CHECK_THAT(text, ContainsSubstring("error: lobe"));
    }
}

TEST_CASE("the least of lobes is judged without engine or contact") {
    const JobReport report = judged(one_lobe(arcs_with_flank(15, 8, 130, 60), endless_flat()));
    CHECK_FALSE(report.lobes.front().greatest_force.has_value());
    CHECK_FALSE(report.lobes.front().opens.has_value());
    CHECK_FALSE(report.overlap.has_value());
    CHECK(report.findings.empty());
    CHECK_THAT(report_text(one_lobe(arcs_with_flank(15, 8, 130, 60), endless_flat()), report),
               ContainsSubstring("flank radius"));
}

TEST_CASE(
    "the pressure angle is positive on the rise and negative on the fall, whichever way the shaft turns") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        Job job = one_lobe(basalt::law(LawKind::cycloidal, 20, 8, 70, 50), roller(8));
        job.shaft.turns = turns;
        const SolvedLobe lobe = solved(job).front();
        for (int degrees = -65; degrees <= 45; degrees += 5) {
            const double angle = contact_at(lobe, CamAngle::from_degrees(degrees)).pressure_angle;
            if (degrees != 0) CHECK((angle > 0.0) == (degrees < 0));
        }
        const LobeReport report = judged(job).lobes.front();
        CHECK(report.rise_pressure_angle.value > 0.0);
        CHECK(report.fall_pressure_angle.value < 0.0);
        CHECK(report.rise_pressure_angle.at->degrees() < 0.0);
        CHECK(report.fall_pressure_angle.at->degrees() > 0.0);
        CHECK(report.max_pressure_angle.value ==
              -report.fall_pressure_angle.value);  // the shorter flank is steeper
        CHECK(report.max_pressure_angle.at == report.fall_pressure_angle.at);
    }
}

TEST_CASE("an offset to where the surface runs adds to the rise's pressure angle and takes from the fall's") {
    // tan φ = (s' + e) / (sqrt(Rp² - e²) + s): on the rise of 3-4-5, 10 mm in 90 degrees, base 63.7,
    // roller 12.5.
    const auto angles = [](Sense turns, double offset) {
        Job job = one_lobe(basalt::law(LawKind::polynomial_345, 63.7, 10, 90, 90), roller(12.5, offset));
        job.shaft.turns = turns;
        const LobeReport report = judged(job).lobes.front();
        return std::pair{report.rise_pressure_angle.value, report.fall_pressure_angle.value};
    };
    const auto [rise, fall] = angles(Sense::ccw, 0.0);
    CHECK_NEAR(rise, 8.376513 * per_degree, 1e-8);
    CHECK_NEAR(fall, -rise, 1e-12);
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const auto [added, taken] = angles(turns, sign_of(turns) * 3.0);
        CHECK(added > rise + 0.03);  // about 3 / 76
        CHECK(taken > fall + 0.03);
        CHECK(taken < 0.0);
        double steepest = 0.0, least_steep = 0.0;
        for (int i = 0; i <= 90000; ++i) {
            const double x = i / 90000.0, s = 10 * x * x * x * (10 - 15 * x + 6 * x * x);
            const double slope = 10 * 30 * x * x * (1 - x) * (1 - x) / (90 * per_degree);
            const double height = std::sqrt(76.2 * 76.2 - 9) + s;
            steepest = std::max(steepest, std::atan((slope + 3) / height));
            least_steep = std::min(least_steep, std::atan((3 - slope) / height));
        }
        CHECK_NEAR(added, steepest, 1e-9);
        CHECK_NEAR(taken, least_steep, 1e-9);
    }
}

TEST_CASE("a flat follower has no pressure angle, and nowhere where it would be largest") {
    const Job job = one_lobe(arcs_with_nose(20, 10, 113, 2.5), endless_flat());
    const JobReport report = judged(job);
    CHECK(report.lobes.front().max_pressure_angle.value == 0.0);
    CHECK_FALSE(report.lobes.front().max_pressure_angle.at.has_value());
    const auto json = nlohmann::json::parse(report_json(job, report))["lobes"][0];
    for (const char* name : {"max_pressure_angle", "rise_pressure_angle", "fall_pressure_angle"}) {
        CHECK(json[name] == 0);
        CHECK(json[name + std::string("_at")].is_null());
    }
}

TEST_CASE("a force that neither spring nor mass changes is the same everywhere") {
    Job job = one_lobe(arcs_with_nose(20, 10, 113, 2.5), endless_flat());
    job.contact = load(100, 0, 0, 1000);
    const JobReport report = judged(job);
    CHECK(report.lobes.front().greatest_force->value == 100.0);
    CHECK_FALSE(report.lobes.front().greatest_force->at.has_value());
    CHECK_THAT(report_text(job, report), ContainsSubstring("everywhere"));
}

TEST_CASE("a lobe of a shaft is judged as it is alone") {
    Job job = one_lobe(basalt::law(LawKind::polynomial_345, 20, 8, 40, 50), roller(8));
    job.contact = load(10, 3, 0.2, 7000);
    job.contact->allowable_stress = 300;
    for (int i = 1; i < 6; ++i) {
        job.lobes.push_back(job.lobes.front());
        LobeEntry& lobe = job.lobes.back();
        lobe.name = "lobe " + std::to_string(i);
        lobe.at = ShaftAngle::from_degrees(60.0 * i);
        lobe.z = 20.0 + 20.0 * i;
        if (i >= 3) lobe.width = 7.0;
    }
    const JobReport together = judged(job);
    std::size_t findings = 0;
    for (std::size_t i = 0; i < job.lobes.size(); ++i) {
        Job alone = job;
        alone.lobes = {job.lobes[i]};
        const JobReport report = judged(alone);
        const auto lobe = [&](const Job& of, const JobReport& r, std::size_t index) {
            return nlohmann::json::parse(report_json(of, r))["lobes"][index].dump();
        };
        CHECK(lobe(job, together, i) == lobe(alone, report, 0));
        REQUIRE_FALSE(report.findings.empty());
        for (const Diagnostic& finding : report.findings) {
            CHECK(together.findings.at(findings).what == finding.what);
            CHECK(together.findings.at(findings++).lobe == finding.lobe);
        }
    }
    CHECK(together.findings.size() == findings);
}

TEST_CASE("a spring without preload or rate holds nothing at any speed, and the preload that is named does") {
    Job job = adapala();
    job.contact->spring_preload = job.contact->spring_rate = 0;
    const JobReport report = judged(job);
    CHECK(*report.lobes.front().float_speed_rpm == 0.0);
    const Diagnostic* finding = find(report, "float");
    REQUIRE(finding != nullptr);
    CHECK_THAT(finding->what, ContainsSubstring("at any speed"));
    job.contact->spring_preload = number_after(finding->what, "spring_preload from 0 to ");
    CHECK(find(judged(job), "float") == nullptr);
}
