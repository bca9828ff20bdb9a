/// From the blank to the finish pass: which rings, what each leaves. This room holds the rings of roughing
/// and where they meet stock.
///
/// A ring is the parallel curve of the finished surface: every ring leaves the same along the normal
/// everywhere, so the depth of cut is the same on heel, flank and nose, and the cutter's engagement stays
/// even; where the ring lies outside the blank the cutter goes over at rapid. All rings of a lobe are equally
/// deep. A ring never goes below its curve, so it never eats into what the next one is to find.
///
/// What a roughing is depends on how many rings it has, and never on rough_depth: that only says which are
/// deep no more than it allows. So with a larger rough_depth all that was allowed still is, and the fastest
/// of what is allowed never takes longer.
#pragma once

#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"
#include "toolpath/tunnel/tunnel.h"

#include <lobewright/toolpath.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

struct Roughing {
    int rings = 0;
    double depth = 0.0;        ///< mm, of each ring
    bool semi_finish = false;  ///< a pass at the finish pass's feed goes between, and takes as much as that
    double left = 0.0;         ///< mm that the finish pass finds
    double margin = 0.0;       ///< mm: how proud a ring may leave its surface, a tenth of its depth
};

/// mm of the tolerance by which rings are laid out: beyond this a looser one would only leave more for the
/// finish pass, and the path of a ring, which may stand proud by a tenth of its depth, hardly gains by it.
inline constexpr double loosest_of_rings = 0.01;

/// The roughing of `total` mm in so many rings. The finish pass (and a semi-finish pass) finds half of a
/// ring's depth, but 0.25 mm at most and four tolerances at least. Nothing, if that many can't do it, or are
/// more than it takes.
std::optional<Roughing> roughing_in(int rings, bool semi_finish, double total, double tolerance);

/// Of the roughings that go no deeper than `rough_depth` the ones with fewest rings, then with up to three
/// more; each number without a semi-finish pass and with one.
std::vector<Roughing> allowed_roughings(double total, double tolerance, double rough_depth);

/// Times rough_depth: a pass takes no more than that, what the one before it left proud and what the path may
/// go too deep with it.
inline constexpr double most_by_depth = 1.2;
/// Tolerances of rough_depth with which rings keep to that.
inline constexpr double least_depth_by_tolerance = 6.0;
/// Times finish_depth, likewise, where nothing is roughed: even passes leave an eighth of themselves.
inline constexpr double most_by_finish_depth = 1.25;
inline constexpr double least_finish_depth_by_tolerance = 8.0;

/// A wheel's way down `total` mm: how many turns, how deep each, and how proud of it the path may stand. What
/// a place finds in one turn is then no more than most_by_depth times rough_depth: the turn's own, what the
/// one before it left proud (as little as the radial word's steps let it), and at size the tolerance that the
/// path may go below it.
struct Infeed {
    int turns = 0;
    double depth = 0.0;  ///< mm along the normal in a turn
    double proud = 0.0;  ///< mm
};
/// Nothing where rough_depth leaves less than a fifth of itself for the turns' own depth.
std::optional<Infeed> infeed_of(double total, double rough_depth, double tolerance, double radial_step);
/// mm of rough_depth with which it leaves that.
double least_infeed_depth(double tolerance, double radial_step);

/// At rough_depth a lobe takes so many passes from the bar's outside that one of the figures is a slip of the
/// pen.
struct TooManyPasses {
    double passes = 0.0;
    double least_depth = 0.0;  ///< mm of rough_depth that is accepted
};
/// Nothing where `deepest` mm (from the bar to the base circle) are roughed in a number of passes that
/// somebody may want.
std::optional<TooManyPasses> too_many_passes(double deepest, double rough_depth);

struct Ring {
    PassKind kind = PassKind::roughing;
    int number = 0;        ///< of a roughing ring, from 1
    double left_on = 0.0;  ///< mm along the normal, over the design
    Margins margins;
    double stock = 0.0;  ///< mm over this ring on the heel
};

/// The passes before the finish pass, in order: none where there is nothing to rough. The last ring lies off
/// by no more than a quarter of what it leaves, so that what follows finds an even stock.
std::vector<Ring> rings(const Roughing& roughing, double allowance, double tolerance);

/// mm that a pass may take at once where nothing is roughed: the job's finish_depth, or 0.5 (common practice,
/// no source).
double finish_depth_of(const Cut& cut);

/// The passes before the finish pass of a lobe that stands already and isn't roughed, `total` mm over what it
/// is to leave: evenly deep, no deeper than `depth`, at the finish pass's feed.
std::vector<Ring> even_passes(double total, double depth, double allowance, double tolerance);

/// What all passes over the blank take at least, by feed and the length that they cut. `nodes` are the
/// contacts of the finish pass, whose surface is the design with its allowance.
double least_seconds(const Setup& setup, const std::vector<CutterContact>& nodes,
                     const std::vector<Ring>& rings);

/// mm/min along the surface in passes of that kind.
double feed_of(const Cut& cut, PassKind kind);

}  // namespace lobewright::toolpath
