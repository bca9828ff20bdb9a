/// What a second cut is to take off a lobe, by readings of what the first has left on it.
///
/// The readings give the lobe's own error along its normal, phase and base circle (or zero) fitted as
/// inspect_lobe does. The second cut is led along a contour of its own, the aim: the design lowered by what
/// stands proud of it, nowhere above the design and nowhere more than `most` below.
///
/// One set of readings can't tell why material was left: a cutter that is smaller than the job says leaves as
/// much again, the spring of a deep cut doesn't. So the one who cuts says how much of the error comes again;
/// all of it, if nothing is said: the aim then is the design less the error.
#pragma once

#include <lobewright/inspect_fit.h>

#include <string>
#include <vector>

namespace lobewright {

struct CorrectionRequest {
    InspectRequest inspect;    ///< its tolerance is not asked for: that of [cut] counts
    double most = 0.0;         ///< mm along the normal that the aim may lie below the design, > 0
    double comes_again = 1.0;  ///< share of the error that the next cut makes again, 0 to 1
    /// By lobe: what the first program leaves by itself (surface_left, on correction_places rays), which is
    /// no error of the cutting. Empty: nothing.
    std::vector<std::vector<double>> programmed = {};
};

/// Places round a lobe for which a correction has a figure, evenly from -pi of the lobe's own frame on.
inline constexpr std::size_t correction_places = 180;
/// Rays on which what the first program leaves is known: its blocks are shorter.
inline constexpr std::size_t programmed_rays = 1440;

/// A figure along the outward normal and the shaft angle at which it stands, on the lobe as it was read (its
/// phase error not counted).
struct ErrorOnLobe {
    Estimate along_normal;  ///< mm
    ShaftAngle at;
};

struct LobeCorrection {
    LobeInspection inspection;  ///< with the tolerance of [cut]
    /// Something is to be taken off: the surface stands proud of the design by more than the tolerance, and
    /// that by more than two of its standard errors or a tenth of the tolerance.
    bool cut = false;
    SolvedLobe aim;        ///< the lobe with the lowered contour; without `cut` the lobe as it is
    double lowered = 0.0;  ///< mm: the most by which the aim lies below the design, along the normal
    ShaftAngle lowered_at;
    bool held_by_most = false;   ///< `most` keeps some of it on
    bool held_by_reach = false;  ///< some of it lies in a hollow that is too narrow for the cutter
    double standing = 0.0;       ///< mm: what stands over the aim at most, along the normal
    ErrorOnLobe proudest;        ///< as read
    ErrorOnLobe deepest;
    ErrorOnLobe left_proudest;  ///< as foretold for after the second cut, if it errs as is assumed
    ErrorOnLobe left_deepest;
    ShaftAngle unseen;  ///< all round: where no readings are, or the probe bridges a hollow
    [[nodiscard]] bool gouged(double tolerance) const { return deepest.along_normal.value < -tolerance; }
};

/// Required: the job meets the needs of Purpose::cut. Refused: what inspect_lobe refuses; readings too far
/// apart to lead a cutter by.
///
/// The error of the cutting is what was read less what the first program leaves by itself, within its
/// tolerance: that comes from its own blocks and not from the machine. Where the error is no more than its
/// own standard error the surface is left alone, from three of them on it is taken for what it is, and
/// between the two a growing share of it. On the base circle, where it is the same all round but for the
/// readings' scatter, one figure counts, so that the cutter stands still there. The lowering is a cubic
/// B-spline of the reciprocal radius over the direction, every two degrees: nowhere more than its highest
/// value, and with two derivatives for the path. It bends no more than the job's cutter can follow.
Outcome<LobeCorrection> lobe_correction(const Job& job, const std::vector<SolvedLobe>& lobes,
                                        const MeasuredLobe& measured, const CorrectionRequest& request);

/// Sentences about one lobe: what is taken off and what is not, what is foretold; about gouges warnings.
std::vector<std::string> correction_sentences(const Job& job, const LobeCorrection& correction);
Diagnostics correction_warnings(const Job& job, const LobeCorrection& correction);

}  // namespace lobewright
