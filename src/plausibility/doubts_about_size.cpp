#include "plausibility/doubts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::plausibility {
namespace {

// All limits of this file: common practice, no source.

/// Across a lobe, from the smallest model engines to what goes on a machine in a home shop.
constexpr Usual across{3.0, 250.0};

/// A bar more than so many times as thick as all that is to come out of it.
constexpr double thickest_blank = 2.0;

/// Lift by the base circle's radius: of valve gear, and of any other cam.
constexpr Usual valve_lift{0.02, 1.25};
constexpr Usual any_lift{0.02, 4.0};

constexpr double narrowest_lobe = 1.0;  // mm
/// A lobe's width by the largest lobe's diameter.
constexpr double widest_lobe = 4.0;

/// mm by which a bar may measure otherwise than it is called: rolled stock keeps that, turned stock easily.
constexpr double most_off_blank = 0.5;

/// Smoothing by the lift: more of it makes another lobe.
constexpr double most_smoothing = 0.05;

Usual usual_blank(const Doubts& doubts) {
    double needed = doubts.largest_lobe();
    for (const Journal& journal : doubts.job.shaft.journals)
        needed = std::max(needed, journal.diameter);
    return {needed, thickest_blank * needed};
}

void doubt_blank(Doubts& doubts) {
    if (has_usual_blank(doubts)) return;
    const double blank = *doubts.job.shaft.blank();
    const Usual usual = usual_blank(doubts);
    const auto meant = doubts.other_unit(blank, usual);
    doubts.ask(doubts.job.shaft.blank_measured ? "shaft.blank_measured" : "shaft.blank_diameter",
               "blank-size",
               "the blank is " + doubts.length(blank) + " across, and nothing on the shaft is more than " +
                   doubts.length(usual.least),
               (meant ? *meant + "; " : "") + "give the diameter over the lobes before they are cut, " +
                   doubts.length(usual.least) + " or a little more");
}

/// A bar that is measured far from what it was bought as is another bar, or a slip.
void doubt_measured_blank(Doubts& doubts) {
    const Shaft& shaft = doubts.job.shaft;
    if (!shaft.blank_diameter || !shaft.blank_measured) return;
    if (std::abs(*shaft.blank_measured - *shaft.blank_diameter) <= most_off_blank) return;
    doubts.ask("shaft.blank_measured", "blank-measured",
               "the bar measures " + doubts.length(*shaft.blank_measured) + ", and blank_diameter says " +
                   doubts.length(*shaft.blank_diameter),
               "measure it again, or give both for the bar that is in the machine");
}

/// The key that settles a profile's lift.
std::string lift_key(const Job& job, const std::string& profile) {
    const Profile& of = job.profiles.find(profile)->second;
    const auto* fullest = std::get_if<FullestProfile>(&of);
    const char* key = std::holds_alternative<TableProfile>(of)      ? ".file"
                      : std::holds_alternative<SegmentsProfile>(of) ? ".segments"
                      : fullest != nullptr && !fullest->lift        ? ".limits"
                                                                    : ".lift";
    return "profile." + profile + key;
}

Usual usual_lift(const Doubts& doubts, const SolvedLobe& lobe) {
    const bool of_valve = doubts.job.lobes[lobe.entry].cylinder > 0 || lobe.opening_arcs.has_value();
    const Usual shares = of_valve ? valve_lift : any_lift;
    return {shares.least * lobe.base_radius, shares.most * lobe.base_radius};
}

void doubt_lift(Doubts& doubts, const SolvedLobe& lobe) {
    if (has_usual_lift(doubts, lobe)) return;
    const LobeEntry& entry = doubts.job.lobes[lobe.entry];
    const Usual usual = usual_lift(doubts, lobe);
    std::string remedy = doubts.other_unit(lobe.lift, usual)
                             .value_or("look for a slip of the decimal point in lift or base_radius");
    const double from_base = lobe.lift - lobe.base_radius;
    if (usual.holds(from_base)) {
        remedy = "lift counts from the base circle: if " + doubts.length(lobe.lift) +
                 " is from the axis to the nose, write lift = " + doubts.figure(from_base);
    }
    doubts.ask(lift_key(doubts.job, entry.profile), "lift",
               "a lift of " + doubts.length(lobe.lift) + " is " +
                   shortest_fixed(lobe.lift / lobe.base_radius, 3) + " times the base circle's radius of " +
                   doubts.length(lobe.base_radius),
               remedy);
}

void doubt_width(Doubts& doubts, std::size_t index) {
    const LobeEntry& lobe = doubts.job.lobes[index];
    const double largest = doubts.largest_lobe();
    const Usual usual{narrowest_lobe, widest_lobe * largest};
    if (usual.holds(lobe.width)) return;
    doubts.ask("lobe[" + std::to_string(index) + "].width", "lobe-width",
               "lobe '" + lobe.name + "' is " + doubts.length(lobe.width) + " wide, and the largest lobe " +
                   doubts.length(largest) + " across",
               doubts.other_unit(lobe.width, usual).value_or("look for a slip of the decimal point"));
}

void doubt_smoothing(Doubts& doubts, const SolvedLobe& lobe) {
    const std::string& name = doubts.job.lobes[lobe.entry].profile;
    const auto* table = std::get_if<TableProfile>(&doubts.job.profiles.find(name)->second);
    const double most = most_smoothing * lobe.lift;
    if (table == nullptr || !table->smoothing || *table->smoothing <= most) return;
    doubts.ask("profile." + name + ".smoothing", "smoothing",
               "smoothing may move a reading by " + doubts.length(*table->smoothing) + ", and the lift is " +
                   doubts.length(lobe.lift),
               doubts.other_unit(*table->smoothing, {least_fine_length, most})
                   .value_or("give what a reading may be wrong by"));
}

}  // namespace

bool doubt_whole_size(Doubts& doubts) {
    const double largest = doubts.largest_lobe();
    if (largest == 0.0 || across.holds(largest)) return false;
    const bool metric = doubts.job.units == Units::mm;
    const double other = metric ? largest * mm_per(Units::inch) : largest / mm_per(Units::inch);
    const std::string decimal = "look for a slip of the decimal point in base_radius and lift";
    const std::string units = std::string("if the file's figures are ") +
                              (metric ? "inches" : "millimetres") + ", write units = \"" +
                              (metric ? "inch" : "mm") + "\", and it is " + shortest_fixed(other, 2) +
                              " mm across";
    doubts.ask(across.holds(other) ? "job.units" : "profile", "size",
               "the largest lobe is " + doubts.length(largest) + " across",
               across.holds(other) ? units : decimal);
    return true;
}

bool has_usual_blank(const Doubts& doubts) {
    const auto blank = doubts.job.shaft.blank();
    return !blank || *blank <= usual_blank(doubts).most;
}

bool has_usual_lift(const Doubts& doubts, const SolvedLobe& lobe) {
    return usual_lift(doubts, lobe).holds(lobe.lift);
}

void doubt_sizes(Doubts& doubts) {
    doubt_blank(doubts);
    doubt_measured_blank(doubts);
    for (std::size_t i = 0; i < doubts.job.lobes.size(); ++i)
        doubt_width(doubts, i);
    for (const SolvedLobe& lobe : doubts.lobes) {
        doubt_lift(doubts, lobe);
        doubt_smoothing(doubts, lobe);
    }
}

}  // namespace lobewright::plausibility
