#include "hand/fixture_choice.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"
#include "hand/offset_fixture.h"
#include "hand/wording.h"
#include "job/complaint.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

std::string hand_key(const std::string& method, const std::string& key) {
    return "hand." + method + '.' + key;
}

std::string profile_key(const Job& job, const SolvedLobe& lobe, const std::string& key) {
    return "profile." + job.lobes[lobe.entry].profile + '.' + key;
}

bool has_round_flanks(const SolvedLobe& lobe) {
    return lobe.arcs && lobe.arcs->flank_radius > 0.0 && lobe.arcs->flank_radius < infinity;
}

double own_offset(const SolvedLobe& lobe) {
    return lobe.arcs->flank_radius - lobe.base_radius;
}

/// "flank_radius = 25 mm, which leaves a nose of 2.38 mm", or why no flank radius works on this fixture.
std::string what_would_work(const Job& job, const SolvedLobe& lobe, double offset) {
    const LobeShape shape = shape_of(lobe);
    const auto length = [&](double mm) { return length_words(mm, job.units); };
    if (limiting_nose(shape) <= 0.0)
        return "no convex flank does: raise the action angle or the base radius, or lower the lift";
    if (offset <= least_offset(shape))
        return "this lobe needs an offset above " + length(least_offset(shape)) +
               ", where its nose comes to nothing; " +
               length(offset_for_nose(shape, limiting_nose(shape) / 2.0)) + " leaves a nose of " +
               length(limiting_nose(shape) / 2.0);
    return "flank_radius = " + length(offset + lobe.base_radius) +
           " (without nose_radius) fits, and leaves a nose of " + length(nose_for_offset(shape, offset));
}

/// Why this fixture can't make the lobe; nothing if it can.
std::optional<Diagnostic> misfit(const Job& job, const SolvedLobe& lobe, double offset) {
    const std::string name = "lobe \"" + lobe.name + "\": ";
    if (!lobe.arcs)
        return refusal(
            job, profile_key(job, lobe, "shape"), "not-arcs",
            name + "an offset fixture cuts circular flanks only, and this profile is a law of motion",
            "cut it with a dividing head or a rotary table, or make the profile shape = \"arcs\": with the "
            "same "
            "base radius, lift and action angle, " +
                what_would_work(job, lobe, offset));
    const double flank = lobe.arcs->flank_radius;
    if (!has_round_flanks(lobe))
        return refusal(job, profile_key(job, lobe, "flank_radius"),
                       flank < 0.0 ? "hollow-flank" : "straight-flank",
                       name + (flank < 0.0 ? "a swinging shaft cuts convex flanks, and these are hollow"
                                           : "straight flanks ask for an endless offset"),
                       what_would_work(job, lobe, offset));
    if (filed_noses(lobe).front().half_angle >= std::numbers::pi / 2.0)
        return refusal(job, profile_key(job, lobe, "action_angle"), "nose-too-round",
                       name + "its nose goes round more than half a turn, so that no file rolls off it",
                       "give it a smaller action angle, or cut it with a dividing head or a rotary table");
    if (std::abs(own_offset(lobe) - offset) <= fixture_tolerance) return std::nullopt;
    const auto length = [&](double mm) { return length_words(mm, job.units); };
    return refusal(job, profile_key(job, lobe, "flank_radius"), "flank-radius",
                   name + "its flank radius of " + length(flank) + " needs an offset of " +
                       length(own_offset(lobe)) + ", and the fixture's is " + length(offset),
                   what_would_work(job, lobe, offset));
}

/// The largest offset for which the blank still swings over the cross slide and the bed; infinite if not
/// given.
double offset_for_room(const Job& job, const HandMethod& method) {
    const double blank = job.shaft.blank_diameter.value_or(0.0) / 2.0;
    double most = infinity;
    for (const auto& swing : {method.swing_over_bed, method.swing_over_cross_slide})
        if (swing) most = std::min(most, *swing / 2.0 - blank);
    return most;
}

double rounded_up(double mm, Units units) {
    const double grid = units == Units::mm ? 1.0 : 25.4 / 32.0;
    return static_cast<double>(step_above(mm / grid)) * grid;
}

/// "inlet: flank_radius = 26 mm, nose 2.5 mm; exhaust: ..." for an offset, one entry a profile.
std::string profiles_at(const Job& job, const std::vector<SolvedLobe>& lobes, double offset) {
    std::string text;
    std::vector<std::string> told;
    for (const SolvedLobe& lobe : lobes) {
        const std::string& profile = job.lobes[lobe.entry].profile;
        if (std::find(told.begin(), told.end(), profile) != told.end()) continue;
        told.push_back(profile);
        if (!text.empty()) text += "; ";
        text += "in [profile." + profile + "] " + (lobe.arcs ? "" : "shape = \"arcs\" and ") +
                "flank_radius = " + length_words(offset + lobe.base_radius, job.units) + " (nose " +
                length_words(nose_for_offset(shape_of(lobe), offset), job.units) + ")";
    }
    return text;
}

/// The offset that all lobes with round flanks ask for; nothing if they disagree, or there are none.
std::optional<double> offset_in_common(const std::vector<SolvedLobe>& lobes) {
    std::optional<double> common;
    for (const SolvedLobe& lobe : lobes) {
        if (!has_round_flanks(lobe)) continue;
        if (common && std::abs(own_offset(lobe) - *common) > fixture_tolerance) return std::nullopt;
        if (!common) common = own_offset(lobe);
    }
    return common;
}

Diagnostic no_offset(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method) {
    double least = 0.0, wanted = 0.0;
    for (const SolvedLobe& lobe : lobes) {
        const LobeShape shape = shape_of(lobe);
        if (limiting_nose(shape) <= 0.0)
            return refusal(job, hand_key(method, "offset"), "no-offset",
                           "lobe \"" + lobe.name + "\": no offset leaves it a nose between convex flanks",
                           "raise its action angle or base radius, or lower its lift");
        least = std::max(least, least_offset(shape));
        wanted = std::max(wanted, offset_for_nose(shape, 2.0 / 3.0 * limiting_nose(shape)));
    }
    const auto length = [&](double mm) { return length_words(mm, job.units); };
    const double room = offset_for_room(job, job.hand.at(method));
    const std::string range =
        "above " + length(least) + (room < infinity ? " and up to " + length(room) : "");
    if (room <= least)
        return refusal(job, hand_key(method, "offset"), "no-offset",
                       "the lobes need an offset " + length(least) +
                           " or more, and the lathe swings the blank only up to " + length(room),
                       "raise the action angle or the base radius, or use a lathe with more swing");
    const double suggested = std::min(rounded_up(wanted, job.units), room);
    return refusal(
        job, hand_key(method, "offset"), "no-offset",
        "no offset is given, and the lobes as written don't ask for one and the same; every lobe has a nose "
        "with an offset " +
            range,
        "for example offset = " + length(suggested) + ", and " + profiles_at(job, lobes, suggested));
}

}  // namespace

LobeShape shape_of(const SolvedLobe& lobe) {
    return {lobe.base_radius, lobe.arcs ? lobe.arcs->lift : lobe.lift, lobe.action_angle.radians() / 2.0};
}

double nose_for_offset(const LobeShape& shape, double offset) {
    const double b = shape.base_radius, height = b + shape.lift, cosine = elementary::cos(shape.half_action);
    return (b * b + 2.0 * b * offset - height * height - 2.0 * offset * height * cosine) /
           (2.0 * (offset - shape.lift - offset * cosine));
}

double limiting_nose(const LobeShape& shape) {
    const double cosine = elementary::cos(shape.half_action);
    return (shape.base_radius - (shape.base_radius + shape.lift) * cosine) / (1.0 - cosine);
}

double offset_for_nose(const LobeShape& shape, double nose) {
    const double both = 2.0 * shape.base_radius + shape.lift;
    return shape.lift * (both - 2.0 * nose) /
           (2.0 * (1.0 - elementary::cos(shape.half_action)) * (limiting_nose(shape) - nose));
}

double least_offset(const LobeShape& shape) {
    return offset_for_nose(shape, 0.0);
}

Outcome<double> fixture_offset(const Job& job, const std::vector<SolvedLobe>& lobes,
                               const std::string& method, Diagnostics& findings) {
    auto offset = job.hand.at(method).offset;
    if (!offset) {
        offset = offset_in_common(lobes);
        if (!offset) return no_offset(job, lobes, method);
        findings.push_back(
            finding(Severity::note, "offset-found", "",
                    "no offset is given: the flanks ask for " + length_words(*offset, job.units) +
                        " (flank radius less base radius), and these settings are for that; set the "
                        "fixture to it and "
                        "write it into the job"));
    }
    Diagnostics complaints;
    for (const SolvedLobe& lobe : lobes)
        if (const auto found = misfit(job, lobe, *offset)) complaints.push_back(*found);
    if (!complaints.empty()) return complaints;
    return *offset;
}

void check_swing(const Job& job, const std::string& method, double offset, Diagnostics& findings,
                 Diagnostics& complaints) {
    const HandMethod& hand = job.hand.at(method);
    const auto length = [&](double mm) { return length_words(mm, job.units); };
    const double blank = 2.0 * offset + *job.shaft.blank_diameter;
    const double wheel = hand.wheel_diameter ? 2.0 * offset + *hand.wheel_diameter : 0.0;
    const auto refuse = [&](const std::string& key, const std::string& what, const std::string& remedy) {
        complaints.push_back(refusal(job, hand_key(method, key), "swing", what, remedy));
    };
    if (hand.swing_over_bed && wheel > *hand.swing_over_bed && wheel >= blank)
        refuse("wheel_diameter",
               "the wheel swings a circle of " + length(wheel) + ", and over the bed there is room for " +
                   length(*hand.swing_over_bed),
               *hand.swing_over_bed > 2.0 * offset
                   ? "use a wheel of at most " + length(*hand.swing_over_bed - 2.0 * offset)
                   : "use a lathe with more swing, or a smaller offset");
    for (const auto& [key, room, place] :
         {std::tuple{"swing_over_bed", hand.swing_over_bed, "the bed"},
          std::tuple{"swing_over_cross_slide", hand.swing_over_cross_slide, "the cross slide"}})
        if (room && blank > *room)
            refuse(key,
                   "the blank swings a circle of " + length(blank) + ", and over " + place +
                       " there is room for " + length(*room),
                   "use an offset of at most " +
                       length(std::max(0.0, (*room - *job.shaft.blank_diameter) / 2.0)) +
                       ", with flanks to match, or a lathe with more swing");
    if (hand.swing_over_cross_slide && wheel > *hand.swing_over_cross_slide)
        findings.push_back(
            finding(Severity::warning, "wheel-over-cross-slide", "",
                    "the wheel swings a circle of " + length(wheel) +
                        " and does not clear the cross slide (" + length(*hand.swing_over_cross_slide) +
                        "): mount the fixture the other way round, so that the wheel turns where the "
                        "carriage never goes, "
                        "or use a wheel of at most " +
                        length(std::max(0.0, *hand.swing_over_cross_slide - 2.0 * offset))));
}

}  // namespace lobewright
