/// What else the cutter would touch while it cuts a lobe at full depth: other lobes, journals, and with its
/// neck, shank or holder the lobe's own blank. This room holds that search, and the outlines across the shaft
/// that it lays against each other.
///
/// Along the shaft everything is an interval; across it, a section against a section. What isn't cut yet is a
/// disc of the blank's radius; a lobe that is cut already is its contour, with what is left on. (The body of
/// a parallel end mill lies over the lobes that follow on the spindle's side: on a shaft of several lobes it
/// takes a disc with a slim neck, or a radial cutter.)
#pragma once

#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <optional>

namespace lobewright::toolpath {

/// The cutter over one lobe at full depth.
struct CutterOverLobe {
    std::size_t lobe = 0;                     ///< index in the solved lobes
    std::vector<double> places;               ///< the axial word, mm, in the order of cutting
    const std::vector<CutterContact>& nodes;  ///< contacts of the finish pass, frame of the lobe
};

/// Which part of the cutter.
enum class BodyPart { edge, shank, holder };

struct Clash {
    BodyPart part = BodyPart::edge;
    std::string with;  ///< "lobe 2 inlet", "the blank of lobe 2 inlet", "the journal at z 10 mm"
};

/// The first thing that the cutter touches; nothing if it goes clear.
std::optional<Clash> find_clash(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                const CutterOverLobe& standing);

/// Nothing where the cutter goes clear; else the refusal, with the largest diameter, the slimmest neck, the
/// narrowest width or the shortest overhang that fits, found by bisection with the same test.
std::optional<Diagnostic> refuse_neighbours(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                            const CutterOverLobe& standing);

}  // namespace lobewright::toolpath
