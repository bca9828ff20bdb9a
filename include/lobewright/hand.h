/// Cutting by hand: the settings of an offset fixture, a dividing head or a rotary table, and what they
/// leave.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

enum class HandWork { flank, clear, facet };
/// What a cut makes of the lobe.
enum class HandPart { opening_flank, closing_flank, heel, facet };

/// One cut, or one ladder of cuts, at one index. Lengths in mm; nothing where a value does not apply.
struct HandSetting {
    int order = 0;  ///< running count from 1
    HandWork work = HandWork::facet;
    std::size_t lobe = 0;
    HandPart part = HandPart::facet;
    std::optional<double> mark;        ///< of the fixture's wheel; with a vernier, a fraction past it
    std::optional<ShaftAngle> turned;  ///< of the work on the head or table, from its zero: [0, 360 degrees)
    std::optional<int> turns;          ///< of the head's crank, from the head's zero
    std::optional<int> hole;
    std::optional<int> circle;
    ShaftAngle shaft_angle;  ///< direction on the shaft that faces the cutter, as set
    ShaftAngle wanted;       ///< as computed, before it was put on a mark or in a hole
    /// Offset fixture: as the dial shows (radius or diameter, its own zero). Facets: from the shaft's axis to
    /// the flat, or to the cutter's centre where its side cuts.
    std::optional<double> start;  ///< at the blank's outside
    std::optional<double>
        touches;  ///< where the tool first meets metal there, after the cuts that stand above
    std::optional<double> finish;
    int passes = 1;   ///< of the method's infeed, from `touches` to `finish`; 1 where no infeed is given
    int strokes = 1;  ///< offset fixture: feeds of the tool, place by place or along, in all its passes
};

/// Cuts for which the cross slide's stop of an offset fixture stays where it is, with the wheel always turned
/// on the same way: every flank of one base radius in one turn; every heel of it, each begun beside its own
/// flank, for which the wheel runs on past a turn, up to a second one, where heels overlap all round.
struct StopRound {
    HandWork work = HandWork::flank;  ///< flank or clear
    double stop = 0.0;                ///< as the dial shows it
    std::size_t first = 0;            ///< in the settings
    std::size_t count = 0;
};

/// What cutting all of the shaft in one of the two ways takes.
struct HandEffort {
    HandTravel travel = HandTravel::plunge;
    long long strokes = 0;
    double length = 0.0;   ///< of all feeds, mm
    double minutes = 0.0;  ///< feeds at the spindle's speed, and a usual time for handling
};

/// The blank left standing between the two flanks of one nose, measured on the blank's outside before going
/// on.
struct Land {
    std::size_t lobe = 0;
    std::optional<int> nose;  ///< which of a ring, from 1; nothing where the lobe has but one
    double chord = 0.0;       ///< 0: the flanks meet below the blank's outside
    double arc = 0.0;
    /// Metal left on both flanks, mm of depth, for every mm that the arc measures more than it should.
    double stock_for_excess = 0.0;
};

/// A finish further off than this is worth a warning: by common practice (no source) what a fine stone still
/// takes off a ridge, and what a valve clearance set once more can't hide.
inline constexpr double most_off_design = 0.05;  // mm along the normal: of ridges, flanks, gouges
inline constexpr CrankAngle most_off_time = CrankAngle::from_degrees(2.0);  // of a valve's event

/// What the cuts make of one lobe, against the design, along the normal.
struct HandFinish {
    std::size_t lobe = 0;
    double highest_ridge = 0.0;  ///< corners between neighbouring cuts
    double deepest = 0.0;        ///< < 0: a gouge
    double proudest = 0.0;
    /// False: ridges hold the valve open at its clearance, or so much is cut away that it never opens to it;
    /// either way the two below are not known.
    bool valve_shuts = true;
    bool valve_opens = true;
    CrankAngle opens_late;   ///< of the valve at its clearance (without [engine], at a twentieth of the lift;
                             ///< the crank
    CrankAngle closes_late;  ///< then turns twice a cam's turn), after minus design; later is positive
};

/// A nose of an offset fixture's lobe, to be filed between its flanks as they are cut; the allowance is on
/// it.
struct HandNose {
    std::size_t lobe = 0;
    std::optional<int> nose;       ///< which of a ring, from 1; nothing where the lobe has but one
    std::optional<double> radius;  ///< of the arc at full height that meets both flanks smoothly; nothing
                                   ///< where they meet below that height
    ShaftAngle at;                 ///< where its top points: midway between the flanks
    double design_radius = 0.0;    ///< with the allowance
    double filed_radius = 0.0;     ///< to file to: `radius`, or where there is none a quarter of the design's
    double short_by = 0.0;         ///< what the top then lacks of its height
    /// What the top would lack if it were filed to the design's radius all the same; nothing where that
    /// stands no lower.
    std::optional<double> lift_for_design_radius;
    double corner_stock = 0.0;    ///< comes off each corner there
    double top_stock = 0.0;       ///< comes off the middle of the land
    double template_mouth = 0.0;  ///< its template: a notch of filed_radius, so wide at its mouth, where the
    double template_depth = 0.0;  ///< nose meets the flanks, and so deep
};

/// An index wheel with its zero, as they would be set in the job.
struct WheelChoice {
    int divisions = 0;
    ShaftAngle zero;
    ShaftAngle worst;  ///< largest distance of a flank from where the wheel then sets it, >= 0
    bool zero_kept = true;
};

/// One lobe's action angle and place that would land on the marks of the wheel in hand, and what they do to
/// the valve.
struct AnglesOnMarks {
    struct Choice {
        CamAngle action_angle;
        ShaftAngle at;
        CrankAngle opens_late, closes_late;
        CrankAngle more_overlap;  ///< of the valves' opening, by this lobe
    };
    std::size_t lobe = 0;
    ShaftAngle zero;              ///< of the wheel, for the whole shaft
    std::vector<Choice> choices;  ///< the nearest first, one or two
};

/// Where the tool goes along the shaft: mm from the drive end; nothing where no tool width is given.
struct HandPlunge {
    std::size_t lobe = 0;
    std::vector<double> z;                       ///< middles of the tool, plunged place by place
    std::optional<double> along_from, along_to;  ///< middle of the tool fed along: clear, and flush
};

/// Figures of an offset fixture.
struct FixtureSetup {
    double offset = 0.0;
    double blank_radius = 0.0;
    std::vector<double> ladder;  ///< the dial's readings of the first cut's passes, the last is its finish
    std::vector<StopRound> rounds;
    HandEffort plunging, along;  ///< the whole shaft, each way
};

/// Compound indexing, for one facet: the crank goes on by holes of one circle, then plate and crank together
/// by holes of another circle of the same plate.
struct CompoundMove {
    int circle = 1;
    int holes = 0;
    int plate_circle = 1;
    int plate_holes = 0;  ///< < 0: against the crank's way
    bool operator==(const CompoundMove&) const = default;
};

/// Figures of a dividing head or rotary table.
struct FacetSetup {
    std::optional<int> circle;                   ///< of holes that the whole shaft is divided on
    std::optional<int> plate;                    ///< that has it, from 1 in the job's order
    std::optional<CompoundMove> compound;        ///< in its place, where no single circle does it
    std::optional<ShaftAngle> smallest_setting;  ///< rotary table: one step of its vernier
    std::vector<int> arms;                       ///< spaces between the sector arms, the ones used, ascending
    std::optional<double> cutter_radius;         ///< parallel: its side cuts
    double widest_flat = 0.0;  ///< mm across the shaft, at the blank; 0 where the side of a cutter cuts
};

struct HandPlan {
    std::string method;  ///< its name in [hand]
    std::vector<HandSetting> settings;
    std::vector<Land> lands;
    std::vector<HandNose> noses;
    std::vector<WheelChoice>
        wheels;  ///< offset fixture: of the wheels of 24 to 400 divisions the best, first
    std::vector<AnglesOnMarks> angles;  ///< offset fixture: by lobe, where a flank has no mark
    std::vector<HandFinish> finish;     ///< by lobe
    Diagnostics findings;
    std::vector<HandPlunge> plunges;  ///< by lobe
    std::optional<FixtureSetup> fixture;
    std::optional<FacetSetup> facets;
};

/// The whole shaft by one method of [hand]. Refusals name the quantity, its limit and the remedy.
///
/// Offset fixture: arcs contours with a convex flank of radius offset + base radius (to 0.001 mm), and no
/// others; without an offset in the job, the one that all lobes ask for, or a refusal that tells the range
/// and a suggestion. Dividing head and rotary table: any convex contour; with the side of a round cutter,
/// hollows too, down to its radius.
Outcome<HandPlan> plan_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method);

enum class HandFormat { csv, json, markdown };
/// CSV and JSON by the names and the number format of examples/job-file.md; markdown is the sheet for the
/// bench.
std::string hand_text(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan,
                      HandFormat format);

/// One line for `check`: how many cuts, what they leave, the worst timing error.
std::string hand_summary(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

}  // namespace lobewright
