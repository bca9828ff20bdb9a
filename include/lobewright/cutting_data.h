/// What a plan asks of cutter and machine: cutting speed, chips, metal removed, where the time goes; the
/// ranges that are commonly held; and what would be quicker or kinder, worked out by planning anew.
///
/// The thickest chip. Teeth on a circle of radius R, whose centre moves by f from one tooth to the next past
/// the work: at the angle θ from the point of contact the chip is f sin θ thick, the most where the teeth
/// meet the uncut surface. On straight work with the depth a that is at cos θ = 1 - a/R:
///
///     h = f sqrt(u (2 - u)),    u = a / R        (= 2 f sqrt(a/D (1 - a/D)), D = 2R)
///
/// as in El-Hofy, Fundamentals of Machining Processes, chapter 6 (maximum chip thickness in plain milling;
/// its form for shallow cuts is 2 f sqrt(a/D)). On round work that is left with the radius ρ the centre runs
/// by f = (1 + R/ρ) times the contact's way, and the surface that stands has the radius ρ + a: by the law of
/// cosines between the two centres
///
///     u = a (2 + a/ρ) / (2 R (1 + R/ρ))
///
/// (derived here). A convex lobe so thickens a shallow chip by sqrt(1 + R/ρ), a hollow one thins it. Beyond
/// u = 1 the chip is f. With the end of a cutter R is its corner's, a square corner thins nothing; with edges
/// across the shaft R is the cutter's, the work straight.
#pragma once

#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// mm: over straight work, for `way` mm from tooth to tooth, at `depth` mm; `radius` 0: as thick as the way.
double chip_on_straight(double way, double depth, double radius);

/// mm: while the contact runs `arc` mm along the surface and its normal turns by `turn` radians (negative in
/// a hollow), both from tooth to tooth.
double chip_on_curve(double arc, double turn, double depth, double radius);

/// A disc without teeth.
bool is_wheel(const Cutter& cutter);

/// m/min at the cutter's rim.
double cutting_speed(const Cutter& cutter, double spindle_speed);

/// mm³ a minute where the pass takes its whole depth, at the feed that it is to run at, over the lobe's width
/// or as much of it as the cutter covers in one place.
double metal_removed(const Job& job, const SolvedLobe& lobe, const Pass& pass);

/// A range that is commonly held, and where it is from.
struct CommonRange {
    double least = 0.0;
    double most = 0.0;
    std::string source;
};
/// Of shallow cuts: m/min at the rim, and mm of the thickest chip.
struct CommonData {
    CommonRange speed;
    CommonRange chip;
};
/// Nothing where such teeth are not run in such metal.
std::optional<CommonData> common_data(EdgeMaterial edge, ShaftMaterial shaft);
/// "high speed steel", "soft steel".
const char* words_of(EdgeMaterial edge);
const char* words_of(ShaftMaterial shaft);

/// Something to change, with what comes of it.
struct Advice {
    std::string key;       ///< of the job, "cut.rough_depth"
    double value = 0.0;    ///< to be set, in the units of the file
    double saves = 0.0;    ///< minutes of the whole; negative: it takes longer
    std::string text;      ///< a sentence with both
    bool outside = false;  ///< what the job says, or what is common, is not kept now
};

/// What would be quicker by a twentieth at least: fewer rings of roughing, no spring passes, blending; and
/// what cures a rim that runs outside what is common, and chips that rub, or are outside the cutter's own
/// limits or, where the job says none, outside what is common: both where the job says what cutter and shaft
/// are made of. Each is planned anew for its figure. `path` is the job's plan.
std::vector<Advice> cutting_advice(const Job& job, const std::vector<SolvedLobe>& lobes,
                                   const Toolpath& path);

/// Which cutting speeds and chips are common, with what, in what, and by whom: for the job's own materials
/// where it says them, else for all that may be meant; empty for a wheel.
std::string common_ranges_text(const Job& job);

/// Some lines: the cutting speed; a line for each kind of pass (depth,
/// feed, chip, metal removed, time); the time of moves between cuts.
std::string cutting_text(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path);

}  // namespace lobewright
