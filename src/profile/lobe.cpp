#include "base/text/typed_length.h"
#include "job/complaint.h"
#include "profile/follower/follower_kinematics.h"
#include "profile/shape/lobe_shape.h"
#include "profile/shape/shape_refusals.h"
#include "profile/shape/shape_shelf.h"
#include "profile/timing/nose_direction.h"

#include <lobewright/lobe.h>
#include <lobewright/valve_train.h>

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>
#include <variant>

namespace lobewright {
namespace profile {
namespace {

Outcome<SolvedLobe> shape_of(const ShapeRequest& request, const Profile& profile) {
    struct Visitor {
        const ShapeRequest& request;
        Outcome<SolvedLobe> operator()(const ArcsProfile& arcs) const {
            return shape_from_arcs(request, arcs);
        }
        Outcome<SolvedLobe> operator()(const MotionProfile& motion) const {
            return shape_from_law(request, motion);
        }
        Outcome<SolvedLobe> operator()(const TableProfile& table) const {
            return shape_from_table(request, table);
        }
        Outcome<SolvedLobe> operator()(const SegmentsProfile& segments) const {
            return shape_from_segments(request, segments);
        }
        Outcome<SolvedLobe> operator()(const FullestProfile& fullest) const {
            return shape_from_fullest(request, fullest);
        }
    };
    return std::visit(Visitor{request}, profile);
}

/// A lobe with a cylinder, whose valve the engine times, must open that valve, and as far as its card is told
/// at.
std::optional<NeverOpens> never_opens(const ValveTiming* timing, const Follower& follower, double lift) {
    if (timing == nullptr) return std::nullopt;
    const double valve_lift = valve_lift_of(follower, lift);
    if (clearance_lift(*timing, follower) >= lift) return NeverOpens{valve_lift, timing->clearance, false};
    if (card_lift(*timing, follower) >= lift) return NeverOpens{valve_lift, *timing->at_lift, true};
    return std::nullopt;
}

/// Of the lift: what a rocker is measured short by for nothing but rounding.
constexpr double rocker_slack = 1e-9;

/// Of the follower, as far as the profile tells before it is solved.
struct LiftOf {
    double operator()(const ArcsProfile& arcs) const {
        return arcs.lift + (arcs.ramps ? arcs.ramps->lift : 0.0);
    }
    double operator()(const MotionProfile& motion) const { return motion.lift; }
    double operator()(const FullestProfile& fullest) const {
        return fullest.lift.value_or(std::numeric_limits<double>::infinity());
    }
    double operator()(const TableProfile& table) const {
        double largest = 0.0;
        for (const Reading& reading : table.readings)
            largest = std::max(largest, reading.lift);
        return largest;
    }
    double operator()(const SegmentsProfile& segments) const {
        double largest = 0.0;
        for (const Segment& segment : segments.segments)
            largest = std::max(largest, segment.to.value_or(0.0));
        return largest;
    }
};

/// The shapes of one job: lobes of one profile, follower and valve are alike, whatever their place on the
/// shaft.
class Shapes {
  public:
    Shapes(const Job& job, KnownShapes::Shelf& shelf) : job_(job), shelf_(shelf) {}

    const Outcome<SolvedLobe>& of(const LobeEntry& entry) {
        const Key key{entry.profile, entry.follower, entry.repeat, timing_of(job_, entry)};
        const auto known = shapes_.find(key);
        if (known != shapes_.end()) return known->second;
        return shapes_.emplace(key, found_or_solved({job_, entry, job_.followers.at(entry.follower)}))
            .first->second;
    }

  private:
    Outcome<SolvedLobe> found_or_solved(const ShapeRequest& request) {
        if (const SolvedLobe* found = shelf_.find(request.cause)) return *found;
        Outcome<SolvedLobe> shape = shape_of(request, request.cause.profile);
        if (shape && shape.diagnostics().empty()) shelf_.put(request.cause, *shape);
        return shape;
    }

    using Key = std::tuple<std::string, std::string, int, const ValveTiming*>;
    const Job& job_;
    KnownShapes::Shelf& shelf_;
    std::map<Key, Outcome<SolvedLobe>> shapes_;
};

Outcome<SolvedLobe> solve_lobe(const Job& job, std::size_t index, Shapes& shapes) {
    const LobeEntry& entry = job.lobes[index];
    const Follower& follower = job.followers.at(entry.follower);
    const ValveTiming* timing = timing_of(job, entry);
    const auto refused = [&](const CannotBe& why) { return refusal_of({job, entry, follower}, why); };
    if (!entry.at && timing == nullptr) return refused(NoseUnplaced{index});
    const double lift = std::visit(LiftOf{}, job.profiles.at(entry.profile));
    if (const auto why = never_opens(timing, follower, lift)) return refused(*why);
    Outcome<SolvedLobe> shape = shapes.of(entry);
    if (!shape) return shape;

    SolvedLobe& lobe = shape.value();
    if (const auto why = never_opens(timing, follower, lobe.lift)) return refused(*why);
    const auto& rocker = follower.valve_lift;
    if (!rocker.empty() && rocker.back().follower < lobe.lift * (1.0 - rocker_slack))
        return refused(RockerMeasuredTooShort{lobe.lift, rocker.back().follower});
    lobe.name = entry.name;
    lobe.entry = index;
    lobe.turns = job.shaft.turns;
    lobe.z = entry.z;
    lobe.width = entry.width;
    lobe.repeat = entry.repeat;
    lobe.follower = follower;
    lobe.at = entry.at ? *entry.at : nose_direction(job, entry, follower, lobe.motion);
    return shape;
}

/// Lobes that share a profile fail alike; one complaint is enough.
void add_once(Diagnostics& all, const Diagnostic& diagnostic) {
    const bool known = std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
        return d.code == diagnostic.code && to_text(d) == to_text(diagnostic);
    });
    if (!known) all.push_back(diagnostic);
}

}  // namespace

Diagnostic ShapeRequest::refusal(const std::string& key, std::string code, std::string what,
                                 std::string remedy) const {
    return lobewright::refusal(job_, key, std::move(code), std::move(what), std::move(remedy));
}

}  // namespace profile

Outcome<std::vector<SolvedLobe>> solve_lobes(const Job& job) {
    KnownShapes none(0);
    return solve_lobes(job, none);
}

Outcome<std::vector<SolvedLobe>> solve_lobes(const Job& job, KnownShapes& known) {
    using namespace profile;
    std::vector<SolvedLobe> lobes;
    Diagnostics complaints;
    Shapes shapes(job, known.shelf());
    for (std::size_t i = 0; i < job.lobes.size(); ++i) {
        auto lobe = solve_lobe(job, i, shapes);
        if (lobe)
            lobes.push_back(std::move(lobe).value());
        else
            for (const Diagnostic& diagnostic : lobe.diagnostics())
                add_once(complaints, diagnostic);
    }
    if (has_errors(complaints)) return complaints;
    return lobes;
}

FollowerContact contact_at(const SolvedLobe& lobe, CamAngle angle) {
    using namespace profile;
    const double sense = sign_of(lobe.turns), beta = -sense * angle.radians();
    const auto [piece, at] = lobe.motion.piece_at(angle);
    FollowerContact found;
    found.facing = lobe.at + ShaftAngle::from_radians(beta);
    found.lift = piece.at(at);
    Touch touch =
        Kinematics(lobe.follower, lobe.base_radius).touch(beta, by_other_angle(found.lift, lobe.turns));
    // Arcs give a straight flank as straight and a radius to its last digit.
    if (piece.curvature) touch.contact.curvature = *piece.curvature;
    const bool square_face =
        lobe.follower.kind == FollowerKind::flat && lobe.follower.face_tilt.radians() == 0.0;
    if (!square_face) found.pressure_angle = sense * angle_between(touch.motion, touch.contact.normal);
    const Vec2 by = unit(lobe.at.radians());
    found.contact = touch.contact;
    found.contact.point = turned(touch.contact.point, by);
    found.contact.normal = turned(touch.contact.normal, by);
    return found;
}

}  // namespace lobewright
