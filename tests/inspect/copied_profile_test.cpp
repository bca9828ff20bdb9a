#include "inspect/probe/contour_probe.h"
#include "readings_kit.h"

#include <lobewright/inspect_shape.h>
#include <lobewright/job_file.h>

using namespace lobewright;
using namespace readings_kit;

namespace {

Job arcs_job(double flank = 25.0, Sense turns = Sense::ccw) {
    return basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, flank),
                       flank > 0.0 && flank < 1e6 ? basalt::endless_flat() : basalt::roller(5.0), turns);
}

/// A job that knows nothing of the lobe but its base circle, roughly, and its place.
Job guess_of(const Job& job, const Probe& probe) {
    Job guess = job;
    guess.profiles["profile"] = basalt::law(LawKind::polynomial_345, 6.1, 1.5, 60.0, 60.0);
    guess.followers["follower"] = basalt::roller(2.0);
    guess.probe = probe;
    return guess;
}

FittedArcs fitted(const Job& guess, const MeasuredLobe& readings, const InspectRequest& request = {}) {
    const std::vector<SolvedLobe> lobes{basalt::solved(guess)};
    auto found = fit_arcs(guess, lobes, readings, request);
    for (const Diagnostic& diagnostic : found.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(found.ok());
    return std::move(found).value();
}

/// What a probe reads on the true lobe, over the guess's base circle, the lobe late by so many degrees.
MeasuredLobe probed(
    const SolvedLobe& lobe, double guessed_base, const Probe& probe, double late,
    const std::function<double()>& noise = [] { return 0.0; }) {
    const inspection::ContourProbe on(lobe.contour, guessed_base, probe);
    MeasuredLobe all;
    for (int i = 0; i < 360; ++i) {
        const double beta = -sign_of(lobe.turns) * (i - late) * std::numbers::pi / 180.0;
        all.readings.push_back({CamAngle::from_degrees(i), on.height(beta) + noise(), {"r.csv", i + 2, 1}});
    }
    return all;
}

}  // namespace

TEST_CASE(
    "a lobe of three arcs comes back from readings alone, without noise to a thousandth of a micrometre") {
    const std::vector<Probe> probes{{}, {ProbeKind::ball, 2.0, {}}, {ProbeKind::knife, 0.0, {}}};
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Probe& probe : probes) {
            const Job job = arcs_job(25.0, turns);
            const SolvedLobe lobe = basalt::solved(job);
            const FittedArcs arcs = fitted(guess_of(job, probe), probed(lobe, 6.1, probe, 7.3));
            INFO(static_cast<int>(probe.kind) << ' ' << static_cast<int>(turns));
            CHECK_THAT(arcs.base_radius.value, Near(6.0, 1e-6));
            CHECK_THAT(arcs.lift.value, Near(2.4, 1e-6));
            CHECK_THAT(in_degrees(arcs.action_angle.value), Near(120.0, 1e-4));
            REQUIRE(arcs.flank_radius());
            CHECK_THAT(arcs.flank_radius()->value, Near(25.0, 1e-4));
            CHECK_THAT(arcs.nose_radius.value, Near(lobe.arcs->nose_radius, 1e-5));
            CHECK_THAT(in_degrees(arcs.phase.value), Near(7.3, 1e-5));
            CHECK(arcs.is_arcs);
            CHECK(arcs.rms_residual < 1e-6);
        }
    }
}

TEST_CASE("straight and hollow flanks are found as such under a ball") {
    const Probe probe{ProbeKind::ball, 2.0, {}};
    for (const double flank : {straight_flank, -30.0}) {
        const Job job = arcs_job(flank);
        const SolvedLobe lobe = basalt::solved(job);
        Noise noise(17);
        const FittedArcs arcs = fitted(
            guess_of(job, probe), probed(lobe, 6.1, probe, -2.0, [&] { return 0.0005 * noise.normal(); }));
        CHECK(arcs.is_arcs);
        CHECK_THAT(arcs.base_radius.value, Near(6.0, 4.0 * arcs.base_radius.error));
        CHECK(arcs.flank_radius().has_value() == (flank < 0.0));
        if (arcs.flank_radius())
            CHECK_THAT(arcs.flank_radius()->value, Near(flank, 4.0 * arcs.flank_radius()->error));
    }
}

TEST_CASE("with noise and single bad readings the arcs lie within their standard errors") {
    const Job job = arcs_job();
    const SolvedLobe lobe = basalt::solved(job);
    const Job guess = guess_of(job, {});
    int outside = 0;
    double flank_scatter = 0.0, flank_error = 0.0;
    constexpr int seeds = 25;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        Noise noise(seed);
        MeasuredLobe readings = probed(lobe, 6.1, {}, 1.0, [&] { return 0.001 * noise.normal(); });
        for (int k = 0; k < 10; ++k)
            readings.readings[static_cast<std::size_t>(noise.even() * 360.0)].reading += 0.5;
        const FittedArcs arcs = fitted(guess, readings);
        const auto off = [](const Estimate& estimate, double wanted) {
            return std::abs(estimate.value - wanted) > 3.0 * estimate.error;
        };
        if (off(arcs.base_radius, 6.0) || off(arcs.lift, 2.4) || off(*arcs.flank_radius(), 25.0) ||
            off(arcs.nose_radius, lobe.arcs->nose_radius))
            ++outside;
        flank_scatter += (arcs.flank_radius()->value - 25.0) * (arcs.flank_radius()->value - 25.0) / seeds;
        flank_error += arcs.flank_radius()->error * arcs.flank_radius()->error / seeds;
        CHECK(arcs.is_arcs);
        CHECK(arcs.set_aside >= 8);
    }
    CHECK(outside <= 1);
    CHECK(std::abs(std::sqrt(flank_scatter / flank_error) - 1.0) < 0.35);
}

TEST_CASE("of a lobe that is not three arcs the residual says so") {
    const Job job =
        basalt::job(basalt::law(LawKind::cycloidal, 18.0, 3.0, 60.0, 60.0), basalt::endless_flat());
    const SolvedLobe lobe = basalt::solved(job);
    Job guess = job;
    guess.probe = Probe{};
    const FittedArcs arcs = fitted(guess, probed(lobe, 18.0, {}, 0.0));
    CHECK_FALSE(arcs.is_arcs);
    CHECK(arcs.rms_residual > 0.002);
    const std::string text = arcs_profile_text(arcs, lobe, Units::mm);
    CHECK(text.find("NOT three arcs") != std::string::npos);
}

TEST_CASE("with an unknown zero the base circle is the design's, and runout is told apart") {
    const Job job = arcs_job();
    const SolvedLobe lobe = basalt::solved(job);
    Wrong wrong{0.4, 0.25, 0.02, 130.0};
    Job guess = job;
    guess.probe = Probe{};
    const FittedArcs arcs = fitted(guess, measured(lobe, wrong), {true, true, std::nullopt});
    CHECK(arcs.base_radius.value == 6.0);
    REQUIRE(arcs.zero);
    CHECK_THAT(arcs.zero->value, Near(0.25, 1e-6));
    CHECK_THAT(arcs.flank_radius()->value, Near(25.0, 1e-4));
    REQUIRE(arcs.runout);
    CHECK_THAT(arcs.runout->amplitude.value, Near(0.02, 1e-6));
    CHECK_THAT(arcs.runout->at.degrees(), Near(130.0, 1e-2));
}

TEST_CASE("the arcs' profile can be pasted, and gives the lobe that was measured") {
    const Job job = arcs_job();
    const SolvedLobe lobe = basalt::solved(job);
    const FittedArcs arcs = fitted(guess_of(job, {}), probed(lobe, 6.1, {}, 0.0));
    const std::string text = "layout = 1\njob = { units = \"mm\" }\nshaft = { turns = \"ccw\" }\n" +
                             arcs_profile_text(arcs, lobe, Units::mm) +
                             "[follower.f]\nkind = \"flat\"\n[[lobe]]\nname = \"1\"\nprofile = \"measured\"\n"
                             "follower = \"f\"\nat = 0\nz = 10\nwidth = 5\n";
    const auto read =
        read_job(text, "pasted.toml", [](const std::string&) { return Outcome<std::string>(Diagnostic{}); });
    for (const Diagnostic& diagnostic : read.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(read.ok());
    const SolvedLobe pasted = basalt::solved(*read);
    for (int i = -180; i < 180; i += 3) {
        const CamAngle angle = CamAngle::from_degrees(i);
        CHECK_THAT(pasted.motion.at(angle).lift, Near(lobe.motion.at(angle).lift, 2e-5));
    }
    const std::string json = arcs_json(arcs, lobe, Units::mm);
    for (const char* name : {"\"base_radius\"", "\"base_radius_error\"", "\"flank_radius\"",
                             "\"flank_radius_error\"", "\"nose_radius\"", "\"nose_radius_error\"",
                             "\"action_angle\"", "\"lift\"", "\"rms_residual\"", "\"is_arcs\": true"}) {
        INFO(name);
        CHECK(json.find(name) != std::string::npos);
    }
}

TEST_CASE("a table of the follower's lift comes of another probe's readings") {
    const Job job = basalt::job(basalt::lopsided(20.0), basalt::roller(5.0));
    const SolvedLobe lobe = basalt::solved(job);
    Job probed_job = job;
    probed_job.probe = Probe{ProbeKind::ball, 2.0, {}};
    Noise noise(23);
    MeasuredLobe readings =
        probed(lobe, 20.0, *probed_job.probe, 0.0, [&] { return 0.0005 * noise.normal(); });
    readings.readings[77].reading += 0.4;
    const std::vector<SolvedLobe> lobes{lobe};
    const auto table = fit_table_profile(probed_job, lobes, readings, {});
    for (const Diagnostic& diagnostic : table.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(table.ok());
    CHECK_THAT(table->base_radius, Near(20.0, 0.0005));
    CHECK(table->set_aside == 1);
    for (const auto& [angle, lift] : table->lifts)
        CHECK_THAT(lift, Near(lobe.motion.at(angle).lift, 0.002));
    const std::string text = table_profile_text(*table, lobe, Units::mm);
    CHECK(text.find("# [profile.measured]\n") != std::string::npos);
    CHECK(text.find("\ncam_angle,lift\n-180,0\n") != std::string::npos);
}

TEST_CASE("where a flank begins, and at the nose, no reading is taken for a slip") {
    const Job job = arcs_job();
    const SolvedLobe lobe = basalt::solved(job);
    const std::vector<SolvedLobe> lobes{lobe};
    for (const double every : {1.0, 2.0, 5.0}) {
        MeasuredLobe readings = measured(lobe, {}, every);
        INFO(every);
        const auto whole = fit_table_profile(job, lobes, readings, {});
        REQUIRE(whole.ok());
        CHECK(whole->set_aside == 0);
        // One on the flank, one on the heel.
        for (const double angle : {-40.0, 120.0})
            readings.readings[static_cast<std::size_t>((angle + 180.0) / every)].reading -= 0.15;
        const auto spoiled = fit_table_profile(job, lobes, readings, {});
        REQUIRE(spoiled.ok());
        CHECK(spoiled->set_aside == 2);
    }
}

TEST_CASE("profiles are refused where the readings or the follower can't make one") {
    const Job job = basalt::job(basalt::lopsided(20.0), basalt::roller(5.0, 1.0));
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    const auto beside = fit_table_profile(job, lobes, measured(lobes[0], {}), {});
    REQUIRE_FALSE(beside.ok());
    CHECK(beside.diagnostics().front().code == "follower-off-axis");
    const auto few = fit_arcs(job, lobes, measured(lobes[0], {}, 45.0), {});
    REQUIRE_FALSE(few.ok());
    CHECK(few.diagnostics().front().code == "too-few-readings");
    MeasuredLobe heel = measured(lobes[0], {});
    for (MeasuredReading& each : heel.readings)
        each.reading = 0.0;
    const auto none = fit_arcs(job, lobes, heel, {});
    REQUIRE_FALSE(none.ok());
    CHECK(none.diagnostics().front().code == "no-arcs");
}
