#include "inspect/report/inspection_sentences.h"

#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "inspect/probe/probe_words.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr double to_degrees = 180.0 / std::numbers::pi;
constexpr std::size_t most_told = 12;  // readings set aside, in a sentence

std::string signed_words(const std::string& figure, double value) {
    return value > 0.0 ? "+" + figure : figure;
}
std::string signed_length(double mm, Units units) {
    return signed_words(length_words(mm, units), mm);
}
std::string at_angle(CamAngle angle) {
    return "at cam angle " + short_degrees(angle.degrees(), 1) + "°";
}

/// Decimals that show two digits of a standard error, between the two.
int decimals_for(double error, int least, int most) {
    for (int decimals = least; decimals < most; ++decimals) {
        if (error * elementary::power(10.0, decimals) >= 1.0) return decimals + 1;
    }
    return most;
}

std::string late_words(double radians) {
    return radians < 0.0 ? "early" : "late";
}

/// Which way it is off, where that is more than chance.
std::string way_of(const Estimate& estimate, const char* negative, const char* positive) {
    if (std::abs(estimate.value) <= estimate.error) return "";
    return estimate.value < 0.0 ? negative : positive;
}

std::string phase_sentence(const Job& job, const LobeInspection& found) {
    std::string said = "Phase: the lobe comes " + degrees_estimate(found.phase) + " of cam" +
                       way_of(found.phase, " (early)", " (late)");
    if (!job.engine) return said + ".";
    const double per_crank = job.engine->cam_per_crank;
    return said + ", " + degrees_estimate({found.phase.value / per_crank, found.phase.error / per_crank}) +
           " of crank.";
}

std::string level_sentence(const LobeInspection& found, Units units) {
    if (found.base)
        return "Base circle: its radius is off by " + length_estimate(*found.base, units) +
               way_of(*found.base, " (small)", " (large)") + ".";
    return "Zero: on the base circle the indicator reads " + length_estimate(*found.zero, units) +
           "; how large the base circle is can't be told from these readings.";
}

std::string lift_sentence(const LobeInspection& found, Units units) {
    std::string said = "Lift: worst error " + signed_length(found.worst_lift_error, units) + " " +
                       at_angle(found.worst_at) + ", " + length_words(found.rms_error, units) +
                       " on the mean (root of the mean square)";
    if (found.nose_error)
        said += "; the nose's height is off by " + length_estimate(*found.nose_error, units);
    return said + ".";
}

std::string scatter_sentence(const LobeInspection& found, Units units) {
    std::string said = "Scatter: one reading differs from its neighbours by " +
                       length_words(found.scatter, units) + " (standard deviation)";
    if (found.step > 0.0) said += "; the dial was read to " + own_figure(found.step, units);
    if (found.repeats)
        said += "; readings taken again agree within " + length_words(found.repeats->deviation, units) +
                " (standard deviation, " + counted(found.repeats->readings, "reading") + " at " +
                counted(found.repeats->angles, "angle") + ")";
    return said + ".";
}

std::string aside_sentence(const LobeInspection& found, Units units) {
    std::vector<const JudgedReading*> aside;
    for (const JudgedReading& each : found.readings)
        if (each.set_aside) aside.push_back(&each);
    const std::string all = counted(static_cast<long long>(found.readings.size()), "reading");
    if (aside.empty()) return "Readings: " + all + ", none set aside.";
    std::string said = "Readings: " + all + ", " + std::to_string(aside.size()) + " set aside as outliers: ";
    for (std::size_t i = 0; i < std::min(aside.size(), most_told); ++i)
        said += (i > 0 ? ", " : "") + short_degrees(aside[i]->cam_angle.degrees(), 1) + "° (off by " +
                signed_length(aside[i]->error, units) + ", line " + std::to_string(aside[i]->place.line) +
                ")";
    if (aside.size() > most_told) said += " and " + std::to_string(aside.size() - most_told) + " more";
    return said + ".";
}

std::string event_words(const std::string& what, CrankAngle design, CrankAngle measured,
                        const Estimate& late) {
    return what + " at " + fixed(measured.degrees(), 1) + "° (design " + fixed(design.degrees(), 1) + "°; " +
           degrees_estimate(late) + " " + late_words(late.value) + ")";
}

std::string events_sentence(const Job& job, const SolvedLobe& lobe, const LobeInspection& found) {
    const MeasuredEvents& events = *found.events;
    const bool inlet = job.lobes[lobe.entry].valve == Valve::inlet;
    return "Valve, at a clearance of " + length_words(events.design.valve_lift, job.units) + ": " +
           event_words(inlet ? "opens before TDC" : "opens before BDC", events.design.opens, events.opens(),
                       events.opens_late) +
           ", " +
           event_words(inlet ? "closes after BDC" : "closes after TDC", events.design.closes, events.closes(),
                       events.closes_late) +
           ", crank degrees.";
}

std::string extreme_words(const std::string& what, const MotionExtreme& extreme, Units units,
                          const std::string& per, int decimals) {
    const double unit = mm_per(units);
    const int places = decimals + (units == Units::inch ? 1 : 0);
    return what + " " + fixed(extreme.measured.value / unit, places) + " ± " +
           fixed(extreme.measured.error / unit, places) + " (design " + fixed(extreme.design / unit, places) +
           ") " + unit_word(units) + per + " " + at_angle(extreme.at);
}

std::vector<std::string> motion_sentences(const LobeInspection& found, Units units) {
    const MeasuredMotion& motion = *found.motion;
    return {"Velocity, readings put together over ±" +
                short_degrees(CamAngle(motion.velocity_window).degrees(), 1) +
                "°: " + extreme_words("fastest rise", motion.fastest_rise, units, "/°", 5) + ", " +
                extreme_words("fastest fall", motion.fastest_fall, units, "/°", 5) + ".",
            "Acceleration, over ±" + short_degrees(motion.acceleration_window.degrees(), 1) +
                "°: " + extreme_words("largest", motion.acceleration, units, "/°²", 6) + ", " +
                extreme_words("largest deceleration", motion.deceleration, units, "/°²", 6) + "."};
}

std::string surface_sentence(const LobeInspection& found, Units units) {
    const SurfaceFound& surface = *found.surface;
    std::string said =
        "Surface, along the normal" + std::string(found.base ? ", base circle's error included" : "") +
        ", readings put together over ±" + short_degrees(surface.window.degrees(), 1) + "°: from " +
        length_estimate(surface.deepest, units) + " " + at_angle(surface.deepest_at) + " to " +
        length_estimate(surface.proudest, units) + " " + at_angle(surface.proudest_at);
    if (!surface.verdict) return said + ".";
    const std::string tolerance = length_words(*found.request.tolerance, units);
    switch (*surface.verdict) {
        case ToleranceVerdict::within:
            return said + ": within " + tolerance + ".";
        case ToleranceVerdict::beyond:
            return said + ": OUT of the tolerance of " + tolerance + ".";
        case ToleranceVerdict::too_close:
            return said + ": too close to the tolerance of " + tolerance + " for these readings to tell.";
    }
    return said;
}

}  // namespace

std::string degrees_estimate(const Estimate& radians) {
    const double value = std::abs(radians.value) * to_degrees, error = radians.error * to_degrees;
    const int decimals = decimals_for(error, 1, 4);
    return fixed(value, decimals) + "° ± " + fixed(error, decimals) + "°";
}

std::string length_estimate(const Estimate& mm, Units units) {
    const double value = mm.value / mm_per(units), error = mm.error / mm_per(units);
    const int decimals = decimals_for(error, 3, units == Units::mm ? 5 : 6);
    return signed_words(fixed(value, decimals), value) + " ± " + fixed(error, decimals) + " " +
           unit_word(units);
}

std::vector<std::string> assumptions(const LobeInspection& found, Units units) {
    std::vector<std::string> said{
        "Taken as known: the probe is " + probe_words(found.probe, units) +
            ", moving on a line through the shaft's axis, and its steps of angle are true.",
        found.request.zero_unknown
            ? "Not known, so fitted: the lobe's phase and what the indicator shows on the base circle."
            : "Taken as known: the indicator's zero, on the design's base circle. Not known, so fitted: the "
              "lobe's phase and its size, the same all round along the normal."};
    said.push_back(
        found.request.runout_unknown
            ? "Not known, so fitted: what the centres run out, once a turn. An eccentric lobe looks "
              "the same, so that is not told from it."
            : "Taken as known: the shaft runs true; what it runs out counts as the lobe's error "
              "(--unknown runout takes it out).");
    said.push_back(
        "What remains is the lobe's own error. ± is one standard error: two hold the truth nineteen times in "
        "twenty.");
    return said;
}

std::vector<std::string> findings_of(const Job& job, const SolvedLobe& lobe, const LobeInspection& found) {
    const Units units = job.units;
    std::vector<std::string> said{aside_sentence(found, units), phase_sentence(job, found),
                                  level_sentence(found, units)};
    if (found.runout)
        said.push_back("Runout: " + length_estimate(found.runout->amplitude, units) +
                       " either way, highest at shaft angle " +
                       fixed(full_circle_degrees(found.runout->at), 1) + "°.");
    said.push_back(lift_sentence(found, units));
    said.push_back(scatter_sentence(found, units));
    if (found.events) said.push_back(events_sentence(job, lobe, found));
    if (found.motion) {
        for (std::string& each : motion_sentences(found, units))
            said.push_back(std::move(each));
    } else {
        said.push_back("Velocity and acceleration: the readings lie too far apart to tell.");
    }
    if (found.surface) said.push_back(surface_sentence(found, units));
    return said;
}

std::vector<std::string> findings_of(const Job&, const std::vector<SolvedLobe>& lobes,
                                     const ShaftInspection& shaft) {
    std::vector<std::string> said{"All lobes together come " + degrees_estimate(shaft.phase) + " of cam " +
                                  late_words(shaft.phase.value) +
                                  ", which the set-up's own zero may bring in."};
    for (const LobeToLobe& each : shaft.lobes)
        said.push_back("Lobe '" + lobes[each.lobe].name + "' is " + degrees_estimate(each.off) + " of cam " +
                       (each.off.value < 0.0 ? "earlier" : "later") + " than their mean.");
    for (const OverlapFound& each : shaft.overlaps)
        said.push_back("Cylinder " + std::to_string(each.cylinder) + ": both valves are open for " +
                       fixed(each.measured.value * to_degrees, 1) + "° ± " +
                       fixed(each.measured.error * to_degrees, 1) + "° of crank (design " +
                       fixed(each.design.degrees(), 1) + "°).");
    return said;
}

}  // namespace lobewright::inspection
