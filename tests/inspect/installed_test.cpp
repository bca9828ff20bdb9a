#include "four_lobes.h"
#include "job_kit.h"
#include "readings_kit.h"

#include <lobewright/inspect_installed.h>

using namespace lobewright;
using namespace readings_kit;

TEST_CASE("the valve lifts off and sits down where the card says, by the crank") {
    // Cylinder 3 fires 180 crank degrees after cylinder 1; its inlet opens 14 before the TDC after that.
    const InstalledTable table = installed_lift(four(), lobes()[4], CrankAngle::from_degrees(1.0));
    REQUIRE(table.rows.size() == 721);
    CHECK_THAT(table.clearance, Near(0.10, 1e-12));
    const auto lift = [&](int crank) {
        return table.rows[static_cast<std::size_t>((crank + 720) % 720)].lift;
    };
    const int tdc = 180 + 360;
    CHECK(lift(tdc - 15) == 0.0);
    CHECK(lift(tdc - 13) > 0.0);
    CHECK(lift(tdc + 180 + 45) > 0.0);
    CHECK(lift(tdc + 180 + 47) == 0.0);
    CHECK_THAT(table.highest, Near(2.3, 1e-9));
    CHECK_THAT(std::remainder(table.highest_at.degrees() - (tdc + 106.0), 720.0), Near(0.0, 1e-6));
}

TEST_CASE("readings in the engine tell how late the cam is, and what to move") {
    const Job& job = four();
    for (const std::size_t index : {std::size_t{0}, std::size_t{5}}) {
        const SolvedLobe& lobe = lobes()[index];
        Noise noise(31);
        MeasuredLobe readings;
        readings.lobe = index;
        constexpr double late = 3.7;  // degrees of cam
        for (int i = 0; i < 360; ++i) {
            const CamAngle angle = CamAngle::from_degrees(i);
            const double lift = std::max(
                0.0, lobe.motion.at(angle - CamAngle::from_degrees(late)).lift - (index == 0 ? 0.10 : 0.12));
            readings.readings.push_back({angle, lift + 0.05 + 0.002 * noise.normal(), {"r.csv", i + 2, 1}});
        }
        readings.readings[200].reading += 1.0;
        const InstalledFit fit = taken(fit_installed(job, lobes(), readings, true, {40, std::nullopt}));
        CHECK(std::abs(in_degrees(fit.phase.value) - late) < 4.0 * in_degrees(fit.phase.error));
        CHECK(in_degrees(fit.phase.error) < 0.02);
        REQUIRE(fit.zero);
        CHECK_THAT(fit.zero->value, Near(0.05, 0.001));
        CHECK(fit.set_aside == 1);
        CHECK(fit.setting.teeth == 0);
    }
}

TEST_CASE("teeth come first, what is less than a tooth is the vernier's") {
    const auto late = [](double degrees) { return CamAngle::from_degrees(degrees); };
    const GearSetting teeth = gear_setting(late(17.5), {40, std::nullopt});
    CHECK(teeth.teeth == 2);
    CHECK_FALSE(teeth.holes);
    CHECK_THAT(teeth.remains.degrees(), Near(-0.5, 1e-9));
    // Nine holes against ten: 4 degrees a step.
    const GearSetting both = gear_setting(late(-13.2), {40, 9});
    CHECK(both.teeth == -1);
    CHECK(both.holes == -1);
    CHECK_THAT(both.remains.degrees(), Near(-0.2, 1e-9));
    const GearSetting none = gear_setting(late(1.0), {});
    CHECK_THAT(none.remains.degrees(), Near(1.0, 1e-12));
}

TEST_CASE("the texts of the lobe in its engine") {
    const Job& job = four();
    const InstalledTable table = installed_lift(job, lobes()[0], CrankAngle::from_degrees(90.0));
    const std::string csv = installed_text(table, job, lobes()[0], InspectFormat::csv);
    CHECK(csv.starts_with("crank_angle,cam_angle,valve_lift\n0,"));
    CHECK(installed_text(table, job, lobes()[0], InspectFormat::json).find("\"highest\": 2.3") !=
          std::string::npos);
    InstalledFit fit;
    fit.phase = {0.3, 0.001};
    const GearSteps steps{42, 9};
    fit.setting = gear_setting(CamAngle::from_radians(0.3), steps);
    const std::string text = installed_fit_text({fit}, job, lobes(), steps, InspectFormat::text);
    CHECK_THAT(text, ContainsSubstring("2 teeth forward (the way it runs)"));
    CHECK_THAT(text, ContainsSubstring("late"));
    CHECK_THAT(
        installed_fit_text({fit}, job, lobes(), steps, InspectFormat::csv),
        ContainsSubstring("lobe,phase_error,phase_error_crank,move_teeth,move_holes\n1 inlet,17.188733854"));
    CHECK_THAT(installed_fit_text({fit}, job, lobes(), steps, InspectFormat::json),
               ContainsSubstring("\"move_teeth\": 2"));
}

TEST_CASE("readings of a valve that never moves tell no phase") {
    MeasuredLobe shut;
    for (int i = 0; i < 60; ++i)
        shut.readings.push_back({CamAngle::from_degrees(130.0 + i), 0.0, {"r.csv", i + 2, 1}});
    const auto found = fit_installed(four(), lobes(), shut, true, {});
    REQUIRE_FALSE(found.ok());
    CHECK(found.diagnostics().front().code == "readings-tell-nothing");
}
