/// Why a lobe can't be cut by the job's cutter: facts and figures. What is said of them stands in refusals.h.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>

namespace lobewright::toolpath {

/// cut.side_shift puts the cutter beside the lobe.
struct ShiftTooLarge {
    double most = 0.0;  ///< mm that it may be, to either side
};

/// The cutter doesn't get into a hollow.
struct TooLargeForHollow {
    double hollow_radius = 0.0;              ///< mm, of the tightest
    std::optional<double> largest_diameter;  ///< mm, of a cutter of its kind that gets in, if there is one
};

/// The contact runs past the end of a radial cutter, so far that the corner would climb the flank.
struct EndTooNarrow {
    std::optional<double> smallest_diameter;  ///< mm, of a cutter of its kind that does, if there is one
};

/// The contact runs past the straight edges of a cutter that lies across the shaft.
struct EdgesTooNarrow {
    double travel = 0.0;  ///< mm that the contact runs to the side
    double reach = 0.0;   ///< mm that the edges reach to the side
    double length = 0.0;  ///< mm of flutes, or of a disc's width, that reach so far
};

/// The hollow end of a radial mill does not leave the lobe's width straight: its corner leads, and cuts
/// deeper at the lobe's faces than in its middle.
struct DishTooDeep {
    double crown =
        0.0;  ///< mm that the middle stands over the faces; infinite where the axis is over the lobe
    double allowed = 0.0;  ///< mm of it that the tolerance has room for
    struct Shifts {
        double least = 0.0, most = 0.0;  ///< mm of side_shift, both of one sign
    };
    std::optional<Shifts> works;      ///< with which it would do
    std::optional<double> tolerance;  ///< mm that would do, at `shift`; nothing where none does
    double shift = 0.0;
};

/// The flutes of a parallel end mill span no lobe so wide, and its shank is too thick to step along it.
struct FlutesTooShort {
    double straight = 0.0;  ///< mm of them that are straight
    double least = 0.0;     ///< mm of flutes that span it
};

/// A cutter that crosses the shaft would have to step along it more finely than is sensible.
struct AxialStepsTooFine {
    double step = 0.0;  ///< mm
};

/// Which part of the cutter: its edges, the neck or shank behind them, the holder.
enum class BodyPart { edge, shank, holder };
enum class ObstacleKind { finished_lobe, blank, journal };

/// What a part of the cutter touches.
struct Clash {
    BodyPart part = BodyPart::edge;
    ObstacleKind with = ObstacleKind::finished_lobe;
    std::size_t index = 0;  ///< of the solved lobe, or of the journal
};

/// A size of the cutter; `neck` is a disc's neck and a mill's shank.
enum class CutterSize { width, diameter, flute_length, neck, reach };

/// A helix would move the cutter along the shaft slower than the controller runs anything.
struct HelixTooSlow {
    double speed = 0.0;  ///< mm/min
    double least = 0.0;  ///< mm/min
};

/// The cutter touches something while it cuts the lobe at full depth.
struct NeighbourInTheWay {
    Clash clash;
    CutterSize size = CutterSize::diameter;  ///< that the clash hangs on
    std::optional<double> fits;  ///< mm, of that size, nearest to the cutter's own: nothing is touched
    std::optional<double>
        larger_cutter;  ///< mm of diameter with which the same neck goes clear, where no slimmer neck does
};

/// The cutter's neck, shank or holder touches a lobe that is only roughed, while it roughs this one; lobe by
/// lobe it would go clear.
struct RoughedNeighbour {
    Clash clash;
};

/// A depth is so near to what passes leave uneven, by tolerance and grid, that they would take more.
struct DepthTooFine {
    bool roughs = true;  ///< rough_depth, or finish_depth
    double depth = 0.0;  ///< mm
    double least = 0.0;  ///< mm that would do
    double step = 0.0;   ///< mm of the radial word, where it counts
};

using CannotCut =
    std::variant<ShiftTooLarge, TooLargeForHollow, EndTooNarrow, EdgesTooNarrow, DishTooDeep, FlutesTooShort,
                 AxialStepsTooFine, HelixTooSlow, NeighbourInTheWay, RoughedNeighbour, DepthTooFine>;

/// What was looked for, or why there is none.
template <class T>
using Possible = std::variant<T, CannotCut>;

/// Why not; null where it is possible.
template <class T>
const CannotCut* why_not(const Possible<T>& possible) {
    return std::get_if<CannotCut>(&possible);
}

}  // namespace lobewright::toolpath
