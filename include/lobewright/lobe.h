/// Solved lobes: for each entry of the job the motion of its follower and the contour, whichever way it was
/// given.
#pragma once

#include <lobewright/contour.h>
#include <lobewright/job.h>
#include <lobewright/known_shapes.h>
#include <lobewright/motion.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// The numbers of an arcs contour; flank_radius is straight_flank for a tangent cam and negative for a hollow
/// flank.
struct ArcGeometry {
    double base_radius = 0.0;
    double lift = 0.0;
    CamAngle action_angle;
    double flank_radius = 0.0;
    double nose_radius = 0.0;
};

/// The limits that a fullest lift may have.
enum class FullestLimit {
    velocity,
    acceleration,
    deceleration,
    jerk,
    smallest_radius,
    contact_stress,
    float_speed,
};

/// A limit that a fullest lift reaches, and the part of its area that it would gain if the limit gave way by
/// a hundredth (a radius or a float speed that much lower, else that much higher): by the programme's
/// multipliers, true of small changes.
struct ReachedLimit {
    FullestLimit limit = FullestLimit::jerk;
    double gain = 0.0;
};

struct SolvedLobe {
    std::string name;
    std::size_t entry = 0;  ///< index in Job::lobes
    ShaftAngle at;  ///< direction of the nose (arcs) or the direction that faces the follower at the peak
    Sense turns = Sense::ccw;
    double z = 0.0;
    double width = 0.0;
    int repeat = 1;
    double base_radius = 0.0;
    double lift = 0.0;      ///< largest follower lift, mm
    CamAngle action_angle;  ///< arcs: tangent point to tangent point; else from leaving the base circle to
                            ///< returning
    Follower follower;
    Motion motion;
    Contour contour;
    std::optional<ArcGeometry> arcs;  ///< of arcs whose flanks are alike, without ramps
    /// Of any arcs: what each side would be a half of, were the lobe its own mirror image.
    std::optional<ArcGeometry> opening_arcs, closing_arcs;
    double smoothing_moved = 0.0;  ///< table: the largest change that smoothing made to a reading, mm
    double reading_step = 0.0;     ///< table: the step that its readings are rounded to, mm; 0: none is seen
    CamAngle table_shift;          ///< table: where its own angles have the peak, if that is not at their 0
    std::vector<ReachedLimit> limited_by;  ///< fullest: in the order of FullestLimit
};

/// Solves every lobe of the job, in the job's order: refuses impossible ones (undercut, impossible nose, flat
/// follower on a hollow flank, ...), all in one go, each with the quantity, its limit and the remedy, at the
/// key's place.
Outcome<std::vector<SolvedLobe>> solve_lobes(const Job& job);
/// The same lobes; only shapes that `known` doesn't hold are solved, and put there.
Outcome<std::vector<SolvedLobe>> solve_lobes(const Job& job, KnownShapes& known);

/// The contour's point that touches the follower at a cam angle, in the *shaft's* frame.
///
/// The pressure angle lies between the follower's way as it lifts (of a pivoted one, its centre's) and the
/// normal at the contact, which is the way the lobe pushes. Positive where the lobe pushes the follower aside
/// the way its surface runs under it: so it is on the rise without an offset, whichever way the shaft turns,
/// and on the fall it is negative. Of a translating follower its tangent is (dl/dα + s e) / (sqrt(Rp² - e²) +
/// l), e the offset, Rp base radius and follower's radius: with s e > 0 an offset adds to it on the rise and
/// takes from it on the fall. A flat follower's is 0.
struct FollowerContact {
    ShaftAngle facing;  ///< the shaft direction that faces the follower: at - s·α
    Lift lift;
    ContourPoint contact;
    double pressure_angle = 0.0;  ///< radians
};
FollowerContact contact_at(const SolvedLobe& lobe, CamAngle angle);

}  // namespace lobewright
