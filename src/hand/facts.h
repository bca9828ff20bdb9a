/// What the planners find out, in figures: why there can be no plan, and what is worth knowing about one.
/// wording/ makes sentences of it. Lengths in mm; `lobe` counts in the solved lobes.
#pragma once

#include "hand/dividing/index_grid.h"
#include "hand/fixture/index_wheel.h"

#include <lobewright/hand.h>

#include <optional>
#include <variant>
#include <vector>

namespace lobewright::hand {

// ---- obstacles: along the shaft

/// What stands beside a lobe on the shaft.
struct Neighbour {
    enum class Kind { lobe, journal };
    Kind kind = Kind::lobe;
    std::size_t index = 0;  ///< in the solved lobes, or in Shaft::journals
};
struct ToolTooWide {
    std::size_t lobe = 0;
    double width = 0.0;  ///< of the tool
    Neighbour beside;
    double gap = 0.0;  ///< between the lobe and that neighbour
};
struct NoRoomAlong {
    std::size_t lobe = 0;
    double width = 0.0;  ///< of the tool
    double gap = 0.0;    ///< on the roomier side of the lobe
};
struct CutterFouls {
    std::size_t lobe = 0;
    Neighbour towards_drive_end, away_from_it;
};

// ---- obstacles: offset fixture

/// What would put a lobe on a fixture of some offset: nothing does, or a larger offset, or another flank.
struct NoFlankFits {};
struct OffsetTooSmall {
    double least = 0.0;      ///< where the nose comes to nothing
    double suggested = 0.0;  ///< leaves `nose`
    double nose = 0.0;
};
struct FlankFits {
    double flank_radius = 0.0;
    double nose = 0.0;
};
using FlankCure = std::variant<NoFlankFits, OffsetTooSmall, FlankFits>;

struct NotArcs {
    std::size_t lobe = 0;
    FlankCure cure;
};
struct FlankNotConvex {
    std::size_t lobe = 0;
    bool hollow = false;  ///< false: straight
    FlankCure cure;
};
struct NoseTooRound {
    std::size_t lobe = 0;
};
struct FlankMisfits {
    std::size_t lobe = 0;
    double flank_radius = 0.0;
    double own_offset = 0.0;  ///< that this flank asks for
    double offset = 0.0;      ///< the fixture's
    FlankCure cure;
};
struct NoNoseLeft {  ///< at any offset
    std::size_t lobe = 0;
};
struct NoRoomForOffset {
    double least = 0.0;  ///< that the lobes need
    double most = 0.0;   ///< for which the blank swings
};
struct NoOffset {  ///< given, nor one that the lobes agree on
    struct FittingProfile {
        std::size_t lobe = 0;  ///< the first of its profile
        double flank_radius = 0.0;
        double nose = 0.0;
    };
    double least = 0.0;
    std::optional<double> most;  ///< for which the blank swings, where the lathe's room is known
    double suggested = 0.0;
    std::vector<FittingProfile> profiles;  ///< what fits the suggestion
};

enum class SwingsOver { bed, cross_slide };
/// Circles, as diameters.
struct WheelSwings {  ///< too wide over the bed
    double circle = 0.0;
    double room = 0.0;
    double largest_wheel = 0.0;  ///< <= 0: none is small enough
};
struct BlankSwings {
    SwingsOver over = SwingsOver::bed;
    double circle = 0.0;
    double room = 0.0;
    double largest_offset = 0.0;
};
struct TooManyPasses {
    double infeed = 0.0;
    double passes = 0.0;
};

// ---- obstacles: dividing head, rotary table

struct OddVernier {
    ShaftAngle step;
};
struct NoCircleCloses {};
struct GridTooCoarse {
    double cusp = 0.0;  ///< wanted
    ShaftAngle finest;
    std::optional<double> ridge;  ///< that the finest leaves; nothing: walls
};
struct TooManyFacets {
    double count = 0.0;  ///< on one lobe
};
struct CutsApart {
    std::size_t lobe = 0;
    std::optional<double> cutter_radius;
};
struct HollowTooTight {
    std::size_t lobe = 0;
    double hollow_radius = 0.0;
    std::optional<double> cutter_radius;  ///< nothing: flats
};

using Obstacle =
    std::variant<ToolTooWide, NoRoomAlong, CutterFouls, NotArcs, FlankNotConvex, NoseTooRound, FlankMisfits,
                 NoNoseLeft, NoRoomForOffset, NoOffset, WheelSwings, BlankSwings, TooManyPasses, OddVernier,
                 NoCircleCloses, GridTooCoarse, TooManyFacets, CutsApart, HollowTooTight>;
using Obstacles = std::vector<Obstacle>;

// ---- remarks: offset fixture

struct OffsetFound {
    double offset = 0.0;
};
struct WheelOverCrossSlide {
    double circle = 0.0;
    double room = 0.0;
    double largest_wheel = 0.0;
};
struct BetweenMarks {
    std::size_t lobe = 0;
    HandPart part = HandPart::opening_flank;
    double wanted_mark = 0.0;
    double set_mark = 0.0;
    CamAngle late;
};
struct ZeroShift {
    ShaftAngle shift;
    ShaftAngle zero;   ///< with the shift
    ShaftAngle worst;  ///< of the flanks, then
    ShaftAngle now;
};
struct WheelsForMarks {
    std::vector<WheelChoice> wheels;  ///< the best, first
};
struct NoseOffDesign {
    std::size_t lobe = 0;
    std::optional<int> nose;
    double radius = 0.0, design_radius = 0.0;
    std::optional<double> lift_for_design_radius;
};
struct FlanksMeetLow {  ///< below the nose's height
    std::size_t lobe = 0;
    std::optional<int> nose;
    double radius = 0.0;    ///< that it can be blended with all the same
    double short_by = 0.0;  ///< of its lift
};
struct QuickerTravel {  ///< than the job's
    HandEffort plunging, along;
};
struct WheelForRidge {
    double cusp = 0.0;  ///< wanted
    int divisions = 0;  ///< or more
    std::optional<int> with_all_marks;
};
struct NoLand {
    std::size_t lobe = 0;
};

// ---- remarks: dividing head, rotary table

/// From one facet to the next.
struct Advance {
    ShaftAngle angle;
    std::optional<CrankSetting> crank;
};
struct StepsByCurvature {
    std::optional<int> circle;
    Advance narrowest, widest;
};
struct AngularIndexing {
    std::optional<int> circle;
    ShaftAngle worst;  ///< between a facet's setting and its angle
};
struct CompoundIndexing {
    CompoundMove move;
    long long divisions = 0;
};
struct SimpleIndexing {
    std::optional<int> circle;
    Advance step;
    std::optional<Advance> last;  ///< where the last facet does not close on the first
};

// ---- remarks: the finish, by whatever method

struct ValveHeldOpen {
    std::size_t lobe = 0;
    double ridge = 0.0;
};
struct ValveNeverOpens {
    std::size_t lobe = 0;
    double depth = 0.0;  ///< below the design
};
struct HighRidges {
    std::size_t lobe = 0;
    double ridge = 0.0;
};
struct Gouge {
    std::size_t lobe = 0;
    double depth = 0.0;
};
struct LeftOn {
    std::size_t lobe = 0;
    double height = 0.0;
};
struct OffTime {
    std::size_t lobe = 0;
    CrankAngle opens_late, closes_late;
};

using Remark = std::variant<OffsetFound, WheelOverCrossSlide, BetweenMarks, ZeroShift, WheelsForMarks,
                            AnglesOnMarks, NoseOffDesign, FlanksMeetLow, QuickerTravel, WheelForRidge, NoLand,
                            StepsByCurvature, AngularIndexing, CompoundIndexing, SimpleIndexing,
                            ValveHeldOpen, ValveNeverOpens, HighRidges, Gouge, LeftOn, OffTime>;
using Remarks = std::vector<Remark>;

/// What a planner comes to: where there are obstacles, the plan is worth nothing.
struct Planned {
    HandPlan plan;  ///< without its findings
    Remarks remarks;
    Obstacles obstacles;
};

}  // namespace lobewright::hand
