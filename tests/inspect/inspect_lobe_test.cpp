#include "inspect/probe/contour_probe.h"
#include "readings_kit.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace readings_kit;

namespace {

Job flat_job(Sense turns = Sense::ccw, double at = 25.0) {
    Job job = basalt::job(basalt::lopsided(), basalt::endless_flat(), turns);
    job.lobes[0].at = ShaftAngle::from_degrees(at);
    return job;
}

InspectRequest unknown(bool zero, bool runout) {
    return {zero, runout, std::nullopt};
}

double share_off(double value, double wanted) {
    return std::abs(value / wanted - 1.0);
}

}  // namespace

TEST_CASE("without noise phase, base circle, zero and runout come back") {
    const Wrong wrong{0.37, 0.012, 0.03, 77.0};
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const Job job = flat_job(turns);
        const SolvedLobe lobe = basalt::solved(job);
        for (const bool zero : {false, true}) {
            const LobeInspection found = inspected(job, measured(lobe, wrong), unknown(zero, true));
            CHECK_THAT(in_degrees(found.phase.value), Near(0.37, 1e-6));
            REQUIRE((zero ? found.zero : found.base));
            CHECK_THAT((zero ? found.zero : found.base)->value, Near(0.012, 1e-8));
            CHECK((zero ? !found.base : !found.zero));
            REQUIRE(found.runout);
            CHECK_THAT(found.runout->amplitude.value, Near(0.03, 1e-8));
            CHECK_THAT(found.runout->at.degrees(), Near(77.0, 1e-4));
            CHECK_THAT(found.worst_lift_error, Near(0.0, 1e-7));
            CHECK_THAT(found.rms_error, Near(0.0, 1e-7));
        }
    }
}

TEST_CASE("a lobe larger all round is told as that by ball and knife, too") {
    for (const auto& [follower, probe] : {std::pair(basalt::roller(5.0), Probe{ProbeKind::ball, 2.0, {}}),
                                          std::pair(basalt::knife(), Probe{ProbeKind::knife, 0.0, {}})}) {
        Job job = basalt::job(basalt::lopsided(20.0), follower);
        job.probe = probe;
        const SolvedLobe lobe = basalt::solved(job);
        constexpr double larger = 0.08, late = -0.9;  // mm, degrees
        // Larger by b all round, it lifts a ball of radius r as the lobe itself lifts one of r + b.
        const inspection::ContourProbe on(lobe.contour, lobe.base_radius,
                                          {ProbeKind::ball, probe.radius + larger, {}});
        MeasuredLobe readings;
        for (int i = 0; i < 360; ++i) {
            const CamAngle angle = CamAngle::from_degrees(i);
            readings.readings.push_back(
                {angle, on.height(-(angle - CamAngle::from_degrees(late)).radians()) + larger, {}});
        }
        const LobeInspection found = inspected(job, readings);
        CHECK_THAT(in_degrees(found.phase.value), Near(late, 1e-6));
        REQUIRE(found.base);
        CHECK_THAT(found.base->value, Near(larger, 1e-7));
        CHECK_THAT(found.worst_lift_error, Near(0.0, 1e-7));
    }
}

TEST_CASE("with noise the truth lies within three standard errors, which match the scatter") {
    const Wrong wrong{-1.2, -0.02, 0.015, 200.0};
    const Job job = flat_job();
    const SolvedLobe lobe = basalt::solved(job);
    constexpr int seeds = 100;
    std::vector<double> phases, bases, runouts;
    double phase_error = 0.0, base_error = 0.0, runout_error = 0.0;
    int outside = 0;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        Noise noise(seed);
        const LobeInspection found = inspected(
            job, measured(lobe, wrong, 2.0, [&] { return 0.002 * noise.normal(); }), unknown(false, true));
        const double phase = in_degrees(found.phase.value) + 1.2, base = found.base->value + 0.02;
        const double runout = found.runout->amplitude.value - 0.015;
        if (std::abs(phase) > 3.0 * in_degrees(found.phase.error) ||
            std::abs(base) > 3.0 * found.base->error ||
            std::abs(runout) > 3.0 * found.runout->amplitude.error)
            ++outside;
        phases.push_back(phase), bases.push_back(base), runouts.push_back(runout);
        phase_error += in_degrees(found.phase.error) / seeds, base_error += found.base->error / seeds;
        runout_error += found.runout->amplitude.error / seeds;
    }
    CHECK(outside <= 1);
    const auto deviation = [](const std::vector<double>& values) {
        double squares = 0.0;
        for (const double value : values)
            squares += value * value;
        return std::sqrt(squares / static_cast<double>(values.size()));
    };
    // The scatter of a hundred is itself known to 7 %.
    CHECK(share_off(deviation(phases), phase_error) < 0.2);
    CHECK(share_off(deviation(bases), base_error) < 0.2);
    CHECK(share_off(deviation(runouts), runout_error) < 0.2);
}

TEST_CASE("one reading in twenty grossly wrong moves nothing by more than the noise does, and is told") {
    const Wrong wrong{0.8, 0.015};
    const Job job = flat_job();
    const SolvedLobe lobe = basalt::solved(job);
    for (unsigned seed = 1; seed <= 20; ++seed) {
        INFO("seed " << seed);
        Noise noise(seed), gross(seed + 1000);
        MeasuredLobe readings = measured(lobe, wrong, 1.0, [&] { return 0.002 * noise.normal(); });
        const LobeInspection clean = inspected(job, readings);
        std::vector<int> spoiled;
        for (int k = 0; k < 18; ++k) {
            const auto i = static_cast<std::size_t>(gross.even() * 360.0);
            readings.readings[i].reading += (gross.even() < 0.5 ? -1.0 : 1.0) * (0.2 + 2.0 * gross.even());
            spoiled.push_back(static_cast<int>(i));
        }
        std::sort(spoiled.begin(), spoiled.end());
        spoiled.erase(std::unique(spoiled.begin(), spoiled.end()), spoiled.end());
        const LobeInspection found = inspected(job, readings);
        CHECK(std::abs(found.phase.value - clean.phase.value) < clean.phase.error);
        CHECK(std::abs(found.base->value - clean.base->value) < clean.base->error);
        std::vector<int> aside;
        for (const JudgedReading& each : found.readings)
            if (each.set_aside) aside.push_back(each.place.line - 2);
        std::sort(aside.begin(), aside.end());
        CHECK(aside == spoiled);
        CHECK(std::abs(found.worst_lift_error) < 0.01);
    }
}

TEST_CASE("readings may begin anywhere, run either way and lie any angle off") {
    for (const double late : {-170.0, -33.3, 12.5, 179.0}) {
        const Job job = flat_job(Sense::cw);
        const SolvedLobe lobe = basalt::solved(job);
        MeasuredLobe readings = measured(lobe, {late, -0.004}, 3.0);
        std::rotate(readings.readings.begin(), readings.readings.begin() + 47, readings.readings.end());
        std::reverse(readings.readings.begin(), readings.readings.end());
        const LobeInspection found = inspected(job, readings);
        CHECK_THAT(in_degrees(found.phase.value), Near(late, 1e-6));
        CHECK_THAT(found.base->value, Near(-0.004, 1e-8));
        CHECK(std::is_sorted(found.readings.begin(), found.readings.end(),
                             [](const auto& a, const auto& b) { return a.cam_angle < b.cam_angle; }));
    }
}

TEST_CASE("a lobe's own error is told where it is, and sets nothing aside") {
    const Job job = flat_job();
    const SolvedLobe lobe = basalt::solved(job);
    Noise noise(7);
    // 20 µm too high over the nose, falling to nothing 30 degrees to either side.
    Wrong wrong{0.5, 0.01};
    wrong.form = [](double angle) {
        const double x = angle / 30.0;
        return std::abs(x) < 1.0 ? 0.02 * (1.0 - x * x) * (1.0 - x * x) : 0.0;
    };
    const LobeInspection found =
        inspected(job, measured(lobe, wrong, 1.0, [&] { return 0.0005 * noise.normal(); }));
    CHECK_THAT(found.worst_lift_error, Near(0.02, 0.0015));
    CHECK_THAT(found.worst_at.degrees(), Near(0.5, 8.0));
    REQUIRE(found.nose_error);
    CHECK_THAT(found.nose_error->value, Near(0.02, 0.0015));
    CHECK_THAT(found.base->value, Near(0.01, 0.0005));
    CHECK_THAT(in_degrees(found.phase.value), Near(0.5, 0.02));
    CHECK_THAT(found.scatter, Near(0.0005, 0.00015));
    CHECK(std::none_of(found.readings.begin(), found.readings.end(),
                       [](const JudgedReading& each) { return each.set_aside; }));
}

TEST_CASE("readings taken again tell how well they repeat") {
    const Job job = flat_job();
    const SolvedLobe lobe = basalt::solved(job);
    Noise noise(3);
    MeasuredLobe readings = measured(lobe, {}, 4.0, [&] { return 0.003 * noise.normal(); });
    CHECK_FALSE(inspected(job, readings).repeats);
    const MeasuredLobe again = measured(lobe, {}, 4.0, [&] { return 0.003 * noise.normal(); });
    readings.readings.insert(readings.readings.end(), again.readings.begin(), again.readings.end());
    const LobeInspection found = inspected(job, readings);
    REQUIRE(found.repeats);
    CHECK(found.repeats->angles == 90);
    CHECK(found.repeats->readings == 180);
    CHECK_THAT(found.repeats->deviation, Near(0.003, 0.0007));
}

TEST_CASE("on a ring of lobes the phase is the nearest") {
    Job job = basalt::job(basalt::law(LawKind::cycloidal, 15.0, 0.8, 40.0, 44.0), basalt::endless_flat());
    job.lobes[0].repeat = 3;
    const SolvedLobe lobe = basalt::solved(job);
    const LobeInspection found = inspected(job, measured(lobe, {-2.25, 0.003}));
    CHECK_THAT(in_degrees(found.phase.value), Near(-2.25, 1e-6));
    CHECK_THAT(found.worst_lift_error, Near(0.0, 1e-7));
}

TEST_CASE("a dial read to whole steps makes the base circle no better known than a step allows") {
    const Job job = flat_job();
    const SolvedLobe lobe = basalt::solved(job);
    MeasuredLobe readings = measured(lobe, {0.2, 0.004});
    for (MeasuredReading& each : readings.readings)
        each.reading = 0.01 * std::round(each.reading / 0.01);
    readings.step = 0.01;
    const LobeInspection found = inspected(job, readings);
    CHECK(found.base->error >= 0.0028);
    CHECK(std::abs(found.base->value - 0.004) < 3.0 * found.base->error);
    CHECK(std::abs(in_degrees(found.phase.value) - 0.2) < 3.0 * in_degrees(found.phase.error));
}

TEST_CASE("too few readings, and readings of the heel alone, are refused") {
    const Job job = flat_job();
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    MeasuredLobe few = measured(lobes[0], {}, 60.0);
    const auto refused = inspect_lobe(job, lobes, few, {});
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "too-few-readings");
    MeasuredLobe heel;
    for (int i = 0; i < 40; ++i)
        heel.readings.push_back({CamAngle::from_degrees(150.0 + i), 0.0, {"r.csv", i + 2, 1}});
    const auto flat = inspect_lobe(job, lobes, heel, {});
    REQUIRE_FALSE(flat.ok());
    CHECK(flat.diagnostics().front().code == "readings-tell-nothing");
    CHECK(flat.diagnostics().front().place.line == 2);
}

TEST_CASE("readings that are not of the lobe are doubted") {
    const Job job = flat_job();
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    MeasuredLobe inches = measured(lobes[0], {});
    for (MeasuredReading& each : inches.readings)
        each.reading /= 25.4;
    const auto found = inspect_lobe(job, lobes, inches, {});
    REQUIRE(found.ok());
    REQUIRE(found->findings.size() == 1);
    CHECK(found->findings.front().code == "unlike-lobe");
    CHECK(found->findings.front().severity == Severity::warning);
}
