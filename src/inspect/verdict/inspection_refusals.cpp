#include "inspect/verdict/inspection_refusals.h"

#include "base/text/angle_text.h"
#include "base/text/length_text.h"

#include <algorithm>
#include <cmath>

namespace lobewright::inspection {
namespace {

/// Of the lobe's lift: readings that leave more than that are hardly of this lobe.
constexpr double most_like = 0.05;

Diagnostic about(const SolvedLobe& lobe, Severity severity, Fault fault, std::string code, std::string what,
                 std::string remedy, const Place& place) {
    Diagnostic made{fault, severity, std::move(code), std::move(what), std::move(remedy), place};
    made.lobe = lobe.name;
    return made;
}

std::string degrees_words(CamAngle angle) {
    return short_degrees(angle.degrees(), 1) + "°";
}

std::optional<Diagnostic> unlike(const SolvedLobe& lobe, const LobeInspection& found, Units units,
                                 const Place& place) {
    if (found.rms_error <= most_like * lobe.lift) return std::nullopt;
    return about(lobe, Severity::warning, Fault::bad_input, "unlike-lobe",
                 "the readings of lobe '" + lobe.name + "' differ from it by " +
                     length_words(found.rms_error, units) + " on the mean (root of the mean square)",
                 "see whether they are of this lobe, in the unit of --unit and, if their angles count the "
                 "other way round, with --reversed; is the probe that of [probe]?",
                 place);
}

std::optional<Diagnostic> out_of_tolerance(const SolvedLobe& lobe, const LobeInspection& found, Units units,
                                           const Place& place) {
    if (!found.surface || !found.surface->verdict) return std::nullopt;
    const SurfaceFound& surface = *found.surface;
    if (*surface.verdict == ToleranceVerdict::within) return std::nullopt;
    const bool proud = surface.proudest.value >= -surface.deepest.value;
    const Estimate& worst = proud ? surface.proudest : surface.deepest;
    const std::string figures = "lobe '" + lobe.name + "' stands " +
                                length_words(std::abs(worst.value), units) +
                                (proud ? " proud" : " too deep") + " at cam angle " +
                                degrees_words(proud ? surface.proudest_at : surface.deepest_at) +
                                ", the tolerance is " + length_words(*found.request.tolerance, units);
    if (*surface.verdict == ToleranceVerdict::beyond)
        return about(lobe, Severity::error, Fault::check_failed, "out-of-tolerance", figures,
                     proud ? "take it off"
                           : "nothing puts metal back: the lobe must be made anew, or judged by its "
                             "valve events",
                     place);
    return about(lobe, Severity::warning, Fault::check_failed, "too-close",
                 figures + ", and the readings are too uncertain (" + length_words(worst.error, units) +
                     ", a standard error) to tell",
                 "take more readings there", place);
}

}  // namespace

Diagnostic too_few_readings(const SolvedLobe& lobe, std::size_t readings, std::size_t least,
                            const Place& place) {
    return about(lobe, Severity::error, Fault::bad_input, "too-few-readings",
                 "lobe '" + lobe.name + "' has " + counted(static_cast<long long>(readings), "reading"),
                 "take at least " + std::to_string(least) + ", on heel and both flanks", place);
}

Diagnostic readings_tell_nothing(const SolvedLobe& lobe, const InspectRequest& request, const Place& place) {
    return about(lobe, Severity::error, Fault::bad_input, "readings-tell-nothing",
                 "the readings of lobe '" + lobe.name + "' don't tell " +
                     (request.runout_unknown ? "phase, level and runout" : "phase and level") + " apart",
                 "take some on the heel and on both flanks", place);
}

Diagnostic too_sparse_to_cut(const SolvedLobe& lobe, const Place& place) {
    return about(lobe, Severity::error, Fault::bad_input, "too-sparse",
                 "the readings of lobe '" + lobe.name + "' lie too far apart to lead a cutter by",
                 "take one at least every 5 degrees, all round", place);
}

Diagnostics doubts_about(const SolvedLobe& lobe, const LobeInspection& found, Units units,
                         const Place& place) {
    Diagnostics doubts;
    if (auto doubt = unlike(lobe, found, units, place)) doubts.push_back(std::move(*doubt));
    if (auto doubt = out_of_tolerance(lobe, found, units, place)) doubts.push_back(std::move(*doubt));
    return doubts;
}

}  // namespace lobewright::inspection
