#include "base/whole_steps.h"
#include "hand/finish/valve_timing.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>
#include <lobewright/valve_train.h>

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

/// Of a lobe with a cylinder: the crank's place, from its own cylinder's top dead centre on the power stroke,
/// when the lobe is at a cam angle. From at = f - s·(crank angle × cam_per_crank).
double crank_degrees(const Job& job, const SolvedLobe& lobe, CamAngle angle) {
    const LobeEntry& entry = job.lobes[lobe.entry];
    const double turned = sign_of(lobe.turns) * (lobe.follower.direction.radians() - lobe.at.radians());
    const auto k = static_cast<std::size_t>(entry.cylinder - 1);
    const auto& fires = job.engine->firing_angles;
    return crank_angle(job, CamAngle::from_radians(turned) + angle).degrees() -
           (k < fires.size() ? fires[k].degrees() : 0.0);
}

/// Degrees: less shows as 0.
constexpr double least_told = 0.05;

/// "20.0° before TDC": from the nearest dead centre.
std::string dead_centre_words(double degrees) {
    const long long strokes = nearest_step(degrees / 180.0);
    const double past = degrees - 180.0 * static_cast<double>(strokes);
    const std::string centre = strokes % 2 == 0 ? "TDC" : "BDC";
    if (std::abs(past) < least_told) return "at " + centre;
    return fixed(std::abs(past), 1) + "° " + (past < 0.0 ? "before " : "after ") + centre;
}

std::string cam_words(CamAngle angle) {
    if (std::abs(angle.degrees()) < least_told) return "peak";
    return fixed(std::abs(angle.degrees()), 1) + "° of cam " + (angle.radians() < 0.0 ? "before" : "after") +
           " it";
}

bool by_crank(const Sheet& sheet, const SolvedLobe& lobe) {
    return sheet.job.engine && sheet.job.lobes[lobe.entry].cylinder > 0;
}

std::string place_words(const Sheet& sheet, const SolvedLobe& lobe, CamAngle angle) {
    return by_crank(sheet, lobe) ? dead_centre_words(crank_degrees(sheet.job, lobe, angle))
                                 : cam_words(angle);
}

/// Lifts of the follower that an indicator is read at: where the valve opens, then quarters of the lift.
std::vector<double> judged_lifts(const Sheet& sheet, const SolvedLobe& lobe) {
    std::vector<double> lifts = {judged_lift(sheet.job, lobe)};
    for (const double quarter : {1.0, 2.0, 3.0})
        if (quarter / 4.0 * lobe.lift > lifts.front()) lifts.push_back(quarter / 4.0 * lobe.lift);
    return lifts;
}

/// Of a law or a table at 0; of arcs, under a follower beside the axis or on an arm, in the middle between
/// two places a little lower.
CamAngle peak_of(const SolvedLobe& lobe) {
    if (!lobe.arcs) return {};
    const LiftEvents near_top = events_at(lobe.motion, 0.999 * lobe.lift);
    return (near_top.opens + near_top.closes) / 2.0;
}

void add_rows(const Sheet& sheet, const SolvedLobe& lobe, MarkdownTable& table) {
    const auto at_valve = [&](double lift) { return sheet.figure(valve_lift_of(lobe.follower, lift)); };
    for (const double lift : judged_lifts(sheet, lobe)) {
        const LiftEvents events = events_at(lobe.motion, lift);
        table.row({lobe.name, at_valve(lift), place_words(sheet, lobe, events.opens),
                   place_words(sheet, lobe, events.closes)});
    }
    table.row({lobe.name, at_valve(lobe.lift), place_words(sheet, lobe, peak_of(lobe)), "full"});
}

}  // namespace

void installing_step(const Sheet& sheet, Route& route) {
    route.step("Installing");
    route.box(
        "Set an indicator on the valve's side of the follower, with no clearance, to 0 on the heel; a "
        "timing wheel on the crank, its 0 found as the middle between two equal places of the piston.");
    route.lead(
        "Turn the engine its own way, by hand, and read the crank at each lift; a reading that is gone "
        "past is come to again from well before it:");
    MarkdownTable table({"Lobe", "valve's lift", "opening", "closing"});
    for (const SolvedLobe& lobe : sheet.lobes)
        add_rows(sheet, lobe, table);
    route.table(table);
    route.bullet(
        "First of each lobe is the lift of its clearance, where it has one. All lifts early or late "
        "alike: the gear is off. Valves must clear pistons and each other all the way round.");
}

}  // namespace lobewright::hand
