#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "inspect/report/inspection_sentences.h"

#include <lobewright/correction.h>

#include <cmath>

namespace lobewright {
namespace {

using inspection::length_estimate;

std::string at_shaft_angle(ShaftAngle at) {
    return "at shaft angle " + short_degrees(at.degrees(), 1) + "°";
}

std::string place_words(const ErrorOnLobe& place, Units units) {
    return length_estimate(place.along_normal, units) + " " + at_shaft_angle(place.at);
}

const std::string& name_of(const LobeCorrection& correction) {
    return correction.aim.name;
}

std::string taken_sentence(const Job& job, const LobeCorrection& found) {
    return "Lobe " + name_of(found) + ": stands " + place_words(found.proudest, job.units) +
           " proud of the design; the cutter is led up to " + length_words(found.lowered, job.units) +
           " below it (" + at_shaft_angle(found.lowered_at) + ").";
}

std::string foretold_sentence(const Job& job, const LobeCorrection& found) {
    const double tolerance = job.cut->tolerance;
    const Estimate &low = found.left_deepest.along_normal, &high = found.left_proudest.along_normal;
    const bool within = high.value <= tolerance && low.value >= -tolerance;
    return "Foretold for after it, but for what the program's own tolerance allows: from " +
           length_estimate(low, job.units) + " to " + length_estimate(high, job.units) +
           " along the normal, " + (within ? "within" : "not within") + " the tolerance of " +
           own_figure(tolerance, job.units) + ".";
}

std::vector<std::string> limits_of(const Job& job, const LobeCorrection& found) {
    std::vector<std::string> said;
    if (found.held_by_most) said.emplace_back("--most keeps some of it on: cut, measure, and correct again.");
    if (found.held_by_reach)
        said.emplace_back(
            "Some of it lies in hollows narrower than the cutter: there it takes what it reaches.");
    if (found.unseen > ShaftAngle{})
        said.push_back("Over " + short_degrees(found.unseen.degrees(), 0) +
                       "° of the turn there are no readings, or the probe bridges a hollow: there the cutter "
                       "is led along the design.");
    const Estimate& phase = found.inspection.phase;
    if (std::abs(phase.value) > 2.0 * phase.error)
        said.push_back("By the readings it comes " + inspection::degrees_estimate(phase) + " of cam " +
                       (phase.value > 0.0 ? "late" : "early") +
                       ": that is taken for the measuring's own, and stays.");
    if (!found.inspection.base)
        said.emplace_back(
            "How large the base circle is can't be told with --unknown zero: it is taken for right.");
    if (job.cut->spring_passes == 0)
        said.emplace_back(
            "No spring pass followed the first cut: what its force left is in the readings, too.");
    return said;
}

}  // namespace

std::vector<std::string> correction_sentences(const Job& job, const LobeCorrection& correction) {
    if (!correction.cut)
        return {"Lobe " + name_of(correction) + ": stands proud by no more than the tolerance (" +
                place_words(correction.proudest, job.units) + "); it is not touched."};
    std::vector<std::string> said{taken_sentence(job, correction), foretold_sentence(job, correction)};
    for (std::string& each : limits_of(job, correction))
        said.push_back(std::move(each));
    return said;
}

Diagnostics correction_warnings(const Job& job, const LobeCorrection& correction) {
    Diagnostics warnings;
    const Place place =
        correction.inspection.readings.empty() ? Place{} : correction.inspection.readings.front().place;
    const auto warn = [&](std::string code, std::string what, std::string remedy) {
        Diagnostic made{Fault::check_failed, Severity::warning, std::move(code),
                        std::move(what),     std::move(remedy), {place.file, 0, 0}};
        made.lobe = name_of(correction);
        warnings.push_back(std::move(made));
    };
    for (const Diagnostic& doubt : correction.inspection.findings)
        if (doubt.code == "unlike-lobe") warnings.push_back(doubt);
    if (correction.gouged(job.cut->tolerance))
        warn("gouged",
             "lobe '" + name_of(correction) + "' is too deep already, " +
                 place_words(correction.deepest, job.units),
             "nothing puts metal back: the cutter is led along the design there");
    return warnings;
}

}  // namespace lobewright
