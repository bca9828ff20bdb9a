/// A whole camshaft job as plain data: what the job file says, in millimetres and typed angles.
///
/// A member's initial value is the default of its key; a key without a default that examples/job-file.md
/// needs is missed by the reader. Nothing here is solved: the engine's timing, the lobes' contours and the
/// paths come from the stages to the right. Every length is in mm and every speed in mm/min or degrees/min,
/// whatever `units` the file used; `units` only says what outputs print.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/diagnostic.h>
#include <lobewright/follower.h>
#include <lobewright/units.h>

#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lobewright {

struct Journal {
    double z = 0.0;  ///< middle, mm from the drive end
    double width = 0.0;
    double diameter = 0.0;
};

/// An oil hole or the like, drilled across the shaft. Its direction is told from the datum or, where `lobe`
/// names one, from that lobe's nose.
struct Hole {
    double z = 0.0;    ///< middle, mm from the drive end
    std::string lobe;  ///< its name; empty: none
    ShaftAngle at;     ///< counter-clockwise from the datum, or from the lobe's nose
    double diameter = 0.0;
};

/// What a shaft is made of, as far as cutting goes: steel as it is bought, heat-treated to a strength that
/// can still be milled, hardened; grey or ductile iron.
enum class ShaftMaterial { soft_steel, tempered_steel, hardened_steel, cast_iron };

struct Shaft {
    Sense turns = Sense::ccw;  ///< running direction seen from the drive end
    std::optional<double> blank_diameter;
    std::optional<double> blank_measured;  ///< the bar as it really is
    std::optional<double> length;
    std::optional<ShaftMaterial> material;  ///< absent: unknown
    std::vector<Journal> journals;
    std::vector<Hole> holes;

    /// Diameter of the stock over the lobes as every stage takes it: measured, where it has been.
    [[nodiscard]] std::optional<double> blank() const {
        return blank_measured ? blank_measured : blank_diameter;
    }
};

/// How a lobe stands before it is cut: parallel to its design, `left_on` over it, give or take `within`.
struct StandingLobe {
    double left_on = 0.0;  ///< mm along the normal
    double within = 0.0;   ///< mm
    std::string left_by;   ///< the operation that left it so; empty: [stock] says so
    [[nodiscard]] double most() const { return left_on + within; }
    [[nodiscard]] double least() const { return left_on - within; }
};

/// What stands there before the cut at hand; nowhere more than the round bar.
struct Stock {
    std::optional<double> left_on;  ///< mm along the normal (roughed, hardened or cast); absent: the bar
    /// By lobe: what the operations before the one at hand leave, where they cut it.
    std::map<std::string, StandingLobe, std::less<>> after;

    /// How a lobe stands; nothing: the bar about it is untouched.
    [[nodiscard]] std::optional<StandingLobe> of(std::string_view lobe) const {
        if (const auto left = after.find(lobe); left != after.end()) return left->second;
        return left_on ? std::optional(StandingLobe{*left_on, 0.0, ""}) : std::nullopt;
    }
};

enum class Valve { inlet, exhaust };

/// How a timing card was written: by its two events, by duration and centre, or by the duration alone, the
/// centre coming from the lobes' separation and advance.
enum class CardForm { events, centre, separation };

/// Crank angles as on a timing card. Inlet: opens before TDC, closes after BDC; exhaust: opens before BDC,
/// closes after TDC. Negative: on the other side of the dead centre. A card of another form is turned into
/// these: opens = duration / 2 - centre and closes = duration / 2 + centre - 180 for an inlet, the other way
/// round for an exhaust.
struct ValveTiming {
    CrankAngle opens;
    CrankAngle closes;
    double clearance = 0.0;  ///< mm at the valve
    std::optional<double> at_lift =
        std::nullopt;  ///< mm that the valve train lifts, no clearance taken off, where the angles hold;
                       ///< absent: they hold at the clearance
    CardForm form = CardForm::events;
    friend bool operator==(const ValveTiming&, const ValveTiming&) = default;
};

struct Engine {
    double cam_per_crank = 0.5;
    int cylinders = 1;  ///< absent: as many as firing_order or firing_angles has, else 1
    std::vector<CrankAngle>
        firing_angles;  ///< by cylinder (index 0 is cylinder 1), whether given or from firing_order
    std::optional<ValveTiming> inlet;
    std::optional<ValveTiming> exhaust;
};

/// Flanks that are straight lines (a tangent cam) have this radius; a negative radius is a hollow flank.
inline constexpr double straight_flank = std::numeric_limits<double>::infinity();

/// The base circle is cut deeper than the circle that the flanks spring from, and ramps lead from it to the
/// flanks, which stay where they are: each rises like a Ramp of that lift and angle and meets its flank where
/// that runs at the ramp's speed.
struct ArcRamps {
    double lift = 0.0;  ///< mm, by which the base circle is cut deeper
    CamAngle opening;
    CamAngle closing;
    friend bool operator==(const ArcRamps&, const ArcRamps&) = default;
};

/// Geometry first: base circle, two flanks, nose, all circular arcs. Of action_angle, flank_radius and
/// nose_radius two are set and the third is solved, or one of the radii alone, and the action angle comes
/// from [engine].
struct ArcsProfile {
    double base_radius = 0.0;              ///< of the circle that the flanks spring from
    double lift = 0.0;                     ///< nose above that circle
    std::optional<CamAngle> action_angle;  ///< flank tangent point to flank tangent point
    std::optional<double> flank_radius;    ///< of both, or of the opening one
    std::optional<double> nose_radius;
    std::optional<double> closing_flank_radius = std::nullopt;  ///< where it differs; with flank_radius alone
    std::optional<ArcRamps> ramps = std::nullopt;
    friend bool operator==(const ArcsProfile&, const ArcsProfile&) = default;
};

enum class LawKind {
    simple_harmonic,
    cycloidal,
    polynomial_345,
    polynomial_4567,
    modified_sine,
    modified_trapezoid,
    power_polynomial,
    parabolic,
};

/// Lift r over angle R, beside the base circle; its constant speed is r / (0.875 R) (see law.h).
struct Ramp {
    double lift = 0.0;
    CamAngle angle;
    friend bool operator==(const Ramp&, const Ramp&) = default;
};

/// Motion first: a law of the follower's lift, from base circle to base circle: ramp, law, dwell, law, ramp.
///
/// Continuous everywhere: lift and velocity; the acceleration is finite everywhere. It is continuous, too,
/// with or without ramps and dwell, for cycloidal, 3-4-5, 4-5-6-7, modified sine and modified trapezoid; for
/// a power polynomial of three powers or more but for the peak, where it steps unless both sides have the
/// same angle and the same ramp and there is no dwell; for simple harmonic it steps where the law starts, and
/// at the peak as for the power polynomial. The jerk steps at a ramp's quarter and at both ends of the law,
/// but not, without a ramp, at either end of 4-5-6-7 or where a power polynomial of four powers or more
/// starts, nor inside the modified laws, where only its slope does. For parabolic the acceleration steps at
/// both ends of the law and in its middle, and the jerk is 0 elsewhere. With two laws it steps at the peak
/// wherever theirs differ there.
struct MotionProfile {
    double base_radius = 0.0;
    double lift = 0.0;                      ///< of the follower, total, ramps included
    LawKind law = LawKind::polynomial_345;  ///< of both sides, or of the opening one
    std::vector<int> powers;                ///< of power_polynomial alone; ascending, the first is 2
    CamAngle
        opening_angle;  ///< the law alone: from the ramp's end (or the base circle) to the start of the dwell
    CamAngle dwell_angle;  ///< at full lift
    CamAngle closing_angle;
    std::optional<Ramp> opening_ramp;
    std::optional<Ramp> closing_ramp;
    std::optional<LawKind> closing_law = std::nullopt;  ///< where it differs
    /// The angles above are not given but solved from [engine]'s card, this part of their sum being the
    /// opening's.
    std::optional<double> opening_share = std::nullopt;

    [[nodiscard]] LawKind law_of_closing() const { return closing_law.value_or(law); }
    friend bool operator==(const MotionProfile&, const MotionProfile&) = default;
};

/// A rise or fall by a law, or a stay.
struct Segment {
    CamAngle over;
    std::optional<double> to;  ///< mm: the lift at its end; absent: the follower stays where it is
    LawKind law = LawKind::polynomial_345;
    std::vector<int> powers;  ///< of power_polynomial alone, counted from the segment's higher end
    friend bool operator==(const Segment&, const Segment&) = default;
};

/// Any sequence of rises, falls and stays, in the order of time from the base circle back to it; the rest of
/// the turn is base circle. Cam angle 0 is the middle of the first stay at the greatest lift, or the first
/// touch of it. A fall is its law run backwards. Velocity is 0 at every joint; the acceleration steps there
/// as the laws do at their ends.
struct SegmentsProfile {
    double base_radius = 0.0;
    std::vector<Segment> segments;
    friend bool operator==(const SegmentsProfile&, const SegmentsProfile&) = default;
};

/// Magnitudes that a fullest lift keeps everywhere between its ramps' ends, per radian and its powers.
struct FullestLimits {
    std::optional<double> velocity;                        ///< mm/rad
    std::optional<double> acceleration;                    ///< mm/rad², of positive acceleration
    double deceleration = 0.0;                             ///< mm/rad², of negative acceleration
    double jerk = 0.0;                                     ///< mm/rad³
    std::optional<double> smallest_radius = std::nullopt;  ///< mm, of convex places
    std::optional<double> contact_stress = std::nullopt;   ///< MPa, running, at the job's crank speed
    std::optional<double> float_speed =
        std::nullopt;  ///< crank rev/min at which the follower leaves the lobe
    friend bool operator==(const FullestLimits&, const FullestLimits&) = default;
};

/// The lift with the largest area under its limits, of all that rise to the peak and fall after it: velocity
/// and acceleration are continuous. Angles and ramps are those of a MotionProfile.
struct FullestProfile {
    double base_radius = 0.0;
    std::optional<double> lift = std::nullopt;  ///< at the peak; absent: what gives the largest area
    CamAngle opening_angle;
    CamAngle closing_angle;
    std::optional<Ramp> opening_ramp = std::nullopt;
    std::optional<Ramp> closing_ramp = std::nullopt;
    std::optional<double> opening_share =
        std::nullopt;      ///< as in MotionProfile: the angles come from the card
    std::string follower;  ///< the one that the limits are meant for; empty where none of them asks for it
    FullestLimits limits;
    friend bool operator==(const FullestProfile&, const FullestProfile&) = default;
};

struct Reading {
    CamAngle cam_angle;
    double lift = 0.0;
    Place place;  ///< its line in the table's file
    friend bool operator==(const Reading&, const Reading&) = default;
};

/// Measured or supplied follower lift.
struct TableProfile {
    double base_radius = 0.0;
    std::string file;                 ///< as written in the job
    std::optional<double> smoothing;  ///< mm: the largest change that smoothing may make to a reading;
                                      ///< absent: what the readings' own rounding asks for
    double dial_zero = 0.0;  ///< mm: what the dial shows on the base circle; taken off the readings already
    std::vector<Reading> readings;  ///< in the file's order
    friend bool operator==(const TableProfile&, const TableProfile&) = default;
};

using Profile = std::variant<ArcsProfile, MotionProfile, TableProfile, SegmentsProfile, FullestProfile>;

struct LobeEntry {
    std::string name;
    std::string profile;
    std::string follower;
    std::optional<ShaftAngle> at;  ///< nose direction; absent: from the engine, by cylinder and valve
    int cylinder = 0;              ///< from 1; 0 where `at` is given
    Valve valve = Valve::inlet;
    double z = 0.0;  ///< middle, from the drive end
    double width = 0.0;
    int repeat = 1;  ///< equal lobes round one ring
};

/// Default: steel. "cast-iron" is 105 GPa, 0.26.
struct Material {
    double young_mpa = 207000.0;
    double poisson = 0.3;
    friend bool operator==(const Material&, const Material&) = default;
};

struct ContactLoad {
    double spring_preload = 0.0;  ///< N at the follower, valve shut
    double spring_rate = 0.0;     ///< N/mm
    double moving_mass = 0.0;     ///< kg reduced to the follower
    double crank_speed = 0.0;     ///< rev/min
    Material cam_material;
    Material follower_material;
    std::optional<double> allowable_stress;  ///< MPa
    friend bool operator==(const ContactLoad&, const ContactLoad&) = default;
};

enum class CutterKind { end_mill, ball_nose, disc };

/// What a cutter's teeth are made of: high speed steel, or carbide, coated or not.
enum class EdgeMaterial { hss, carbide };

struct Cutter {
    CutterKind kind = CutterKind::end_mill;
    double diameter = 0.0;
    double corner_radius = 0.0;           ///< end mill
    std::optional<double> flute_length;   ///< end mill, ball nose
    int teeth = 0;                        ///< 0 for a wheel
    double width = 0.0;                   ///< disc
    std::optional<double> neck_diameter;  ///< disc: the arbor or neck beside it, on the spindle side
    std::optional<double> shank_diameter;
    std::optional<double> reach;  ///< length out of the holder
    std::optional<double> holder_diameter;
    std::optional<EdgeMaterial> material;  ///< absent: unknown; of a wheel never there
    int number = 1;                        ///< the tool word
    int offset_number = 1;                 ///< of its length; absent: as `number`
    std::optional<double> fastest;         ///< m/s at the rim; a wheel's marking
    std::optional<double> largest_chip;    ///< mm, the thickest chip of a tooth
    std::optional<double> smallest_chip;
    SpaceAngle end_dish;                  ///< end mill: by which its end is hollow
    std::optional<double> wear_per_lobe;  ///< wheel: mm of radius lost on each lobe
    std::optional<int> dress_every;       ///< wheel: lobes between two stops for dressing
};

enum class CutterAxis { parallel, radial, tangential };
enum class CutterZero { centre, edge };
enum class SpindleSide { far, drive };

/// The words between which an axis may move, mm, as the controller shows them: of a radial axis that counts
/// in diameters, diameters.
struct Travel {
    double least = 0.0;
    double greatest = 0.0;
};

/// Axis limits. Radial and axial in mm/min and mm/s², rotary in degrees/min and degrees/s².
struct AxisLimits {
    std::optional<double> radial_speed;
    std::optional<double> axial_speed;
    std::optional<double> rotary_speed;
    std::optional<double> radial_acceleration;
    std::optional<double> rotary_acceleration;
    std::optional<double> blocks_per_second;
    std::optional<double> radial_jump;    ///< mm/min: largest step of the axis's speed at a joint of blocks
    std::optional<double> rotary_jump;    ///< degrees/min
    std::optional<double> rotary_travel;  ///< degrees, either side of the rotary word's zero
    std::optional<Travel> radial_travel;
    std::optional<Travel> axial_travel;
};

/// Where tools change, and where a program begins and ends: mm from the program's zeros, the radial one as a
/// radius in every dialect.
struct ToolChange {
    double radial = 0.0;
    double axial = 0.0;
};

struct Machine {
    std::string post;  ///< a name in postprocessors/, or a path to a TOML file
    CutterAxis cutter_axis = CutterAxis::radial;
    CutterZero cutter_zero = CutterZero::centre;  ///< parallel only
    SpindleSide spindle_side = SpindleSide::far;  ///< parallel only
    Sense rotary_positive = Sense::ccw;
    std::optional<ToolChange> tool_change;  ///< absent: the dialect's own way home
    AxisLimits limits;
};

enum class CutDirection { climb, conventional };
/// All lobes roughed and then all finished, or each lobe done before the next.
enum class CutOrder { by_stage, by_lobe };
/// How a lobe that needs several axial places is finished: place beside place, or in one continuous helix.
enum class CutAlong { steps, helix };

struct Cut {
    std::string cutter;
    double tolerance = 0.0;
    double allowance = 0.0;
    std::optional<double> rough_depth;
    std::optional<double> finish_depth;        ///< without rough_depth: most that the finish pass may take
    double surface_feed = 0.0;                 ///< mm/min along the lobe's surface at the contact
    std::optional<double> rough_surface_feed;  ///< absent: as surface_feed
    double spindle_speed = 0.0;                ///< rev/min
    CutDirection direction = CutDirection::climb;
    double clearance = 3.0;
    ShaftAngle overlap = ShaftAngle::from_degrees(5.0);
    int spring_passes = 0;
    CutOrder order = CutOrder::by_stage;
    CutAlong along = CutAlong::steps;
    double side_shift = 0.0;
    double blend =
        0.0;  ///< part of the tolerance given to the controller's path blending, where the dialect has it
};

/// One of several cuts, in the order in which they are made: each starts from what the ones before it leave.
struct Operation {
    std::string name;
    std::string machine;             ///< a name in Job::machines; empty: the one that [machine] describes
    std::vector<std::string> lobes;  ///< empty: all
    Cut cut;
};

enum class HandKind { offset_fixture, dividing_head, rotary_table };
/// What a dial shows: the distance from its axis, twice that, or (head and table) how far the work has come
/// up since the cutter touched the bar.
enum class DialReading { radius, diameter, depth };
/// How an offset fixture's tool takes its cuts: straight in, place beside place, or along the lobe with the
/// cross slide locked at its stop.
enum class HandTravel { plunge, along };

/// One way of cutting by hand. Fields that the method doesn't use keep their defaults.
struct HandMethod {
    HandKind kind = HandKind::offset_fixture;
    ShaftAngle zero;               ///< shaft angle that faces the cutter at index 0
    Sense counts = Sense::ccw;     ///< way round the shaft in which index numbers grow
    std::optional<double> offset;  ///< offset fixture: shaft axis to lathe axis
    int divisions = 0;             ///< of the index wheel
    std::optional<double> infeed;
    DialReading dial = DialReading::radius;
    double dial_zero = 0.0;  ///< offset fixture: what the dial shows when the tool touches the lathe's axis
    std::optional<ShaftAngle>
        vernier;  ///< smallest setting: rotary table; offset fixture: between the wheel's marks
    std::optional<double> tool_width;
    std::optional<double> wheel_diameter;
    std::optional<double> swing_over_bed;
    std::optional<double> swing_over_cross_slide;
    double ratio =
        0.0;  ///< turns of the crank in one turn of the work: head, 40 if absent; table, 0 if absent
    std::vector<std::vector<int>> plates;
    std::optional<double> cusp;  ///< highest ridge to leave; exactly one of cusp and step, for head and table
    std::optional<ShaftAngle> step;
    CutterAxis cutter_axis = CutterAxis::radial;  ///< radial | parallel
    std::string cutter;                           ///< parallel only
    std::optional<double> handwheel_divisions;    ///< rotary table: divisions on the handwheel's dial
    HandTravel travel = HandTravel::plunge;       ///< offset fixture
    double allowance = 0.0;                       ///< left on, along the normal, for stone, lap or grinder
    std::optional<double> feed;                   ///< offset fixture: mm a turn of the spindle
    std::optional<double> heel_infeed;  ///< offset fixture, along: the most that one stroke takes off a heel
    std::optional<double> spindle_speed;  ///< rev/min
    std::optional<double> dial_turn;      ///< head, table: what a turn of the knee's handwheel comes to, mm
};

enum class ProbeKind { flat, ball, knife };

/// What touches the finished lobe when it is measured; it moves on a line through the shaft's axis. Absent: a
/// flat anvil.
struct Probe {
    ProbeKind kind = ProbeKind::flat;
    double radius = 0.0;  ///< ball; 0 for the others
    /// Where it stands, counted ccw from the place of the cutter: for the marks of a hand method's wheel.
    SpaceAngle direction;
};

/// The job. Lobes keep the file's order; tables that the user names are in the order of their names.
struct Job {
    std::string file;  ///< as the user named it
    std::string title;
    Units units = Units::mm;
    Shaft shaft;
    Stock stock;
    std::optional<Engine> engine;
    std::map<std::string, Profile, std::less<>> profiles;
    std::map<std::string, Follower, std::less<>> followers;
    std::vector<LobeEntry> lobes;
    std::optional<ContactLoad> contact;
    std::map<std::string, Cutter, std::less<>> cutters;
    std::optional<Machine> machine;
    std::optional<Cut> cut;
    std::string operation;  ///< the one at hand, whose `machine` and `cut` these are; empty: [cut]
    std::map<std::string, Machine, std::less<>> machines;  ///< by name, where operations name them
    std::vector<Operation> operations;                     ///< in order; empty where [cut] is the one
    std::map<std::string, HandMethod, std::less<>> hand;
    std::optional<Probe> probe;

    /// Places of keys by path: "shaft.turns", "profile.inlet.nose_radius", "lobe[0].profile", "cutter.em10".
    std::map<std::string, Place, std::less<>> places;

    /// Where `path` stands in the file; where it is absent, the nearest table above it; else the file alone.
    [[nodiscard]] Place place_of(std::string_view path) const;
};

}  // namespace lobewright
