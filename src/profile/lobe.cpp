#include "base/text/typed_length.h"
#include "job/complaint.h"
#include "profile/follower/follower_kinematics.h"
#include "profile/shape/lobe_shape.h"
#include "profile/shape/shape_refusals.h"
#include "profile/timing/nose_direction.h"

#include <lobewright/lobe.h>

#include <algorithm>
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
    };
    return std::visit(Visitor{request}, profile);
}

/// A lobe with a cylinder, whose valve the engine times, must open that valve.
std::optional<NeverOpens> never_opens(const ShapeRequest& request, double lift) {
    const ValveTiming* timing = timing_of(request.job, request.entry);
    if (timing == nullptr || clearance_lift(*timing, request.follower) < lift) return std::nullopt;
    return NeverOpens{lift * request.follower.valve_ratio, timing->clearance};
}

double lift_of(const Profile& profile) {
    if (const auto* arcs = std::get_if<ArcsProfile>(&profile)) return arcs->lift;
    if (const auto* motion = std::get_if<MotionProfile>(&profile)) return motion->lift;
    double largest = 0.0;
    for (const Reading& reading : std::get<TableProfile>(profile).readings)
        largest = std::max(largest, reading.lift);
    return largest;
}

/// Shapes already solved: lobes of one profile, follower and valve are alike, whatever their place on the
/// shaft.
class Shapes {
  public:
    explicit Shapes(const Job& job) : job_(job) {}

    const Outcome<SolvedLobe>& of(const ShapeRequest& request) {
        const LobeEntry& entry = request.entry;
        const Key key{entry.profile, entry.follower, entry.repeat, timing_of(job_, entry)};
        const auto known = shapes_.find(key);
        if (known != shapes_.end()) return known->second;
        return shapes_.emplace(key, shape_of(request, job_.profiles.at(entry.profile))).first->second;
    }

  private:
    using Key = std::tuple<std::string, std::string, int, const ValveTiming*>;
    const Job& job_;
    std::map<Key, Outcome<SolvedLobe>> shapes_;
};

Outcome<SolvedLobe> solve_lobe(const Job& job, std::size_t index, Shapes& shapes) {
    const LobeEntry& entry = job.lobes[index];
    const ShapeRequest request{job, entry, job.followers.at(entry.follower)};
    if (!entry.at && timing_of(job, entry) == nullptr) return refusal_of(request, NoseUnplaced{index});
    if (const auto why = never_opens(request, lift_of(job.profiles.at(entry.profile))))
        return refusal_of(request, *why);
    Outcome<SolvedLobe> shape = shapes.of(request);
    if (!shape) return shape;

    SolvedLobe& lobe = shape.value();
    if (const auto why = never_opens(request, lobe.lift)) return refusal_of(request, *why);
    lobe.name = entry.name;
    lobe.entry = index;
    lobe.turns = job.shaft.turns;
    lobe.z = entry.z;
    lobe.width = entry.width;
    lobe.repeat = entry.repeat;
    lobe.follower = request.follower;
    lobe.at = entry.at ? *entry.at : nose_direction(job, entry, request.follower, lobe.motion);
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
    return lobewright::refusal(job, key, std::move(code), std::move(what), std::move(remedy));
}

}  // namespace profile

Outcome<std::vector<SolvedLobe>> solve_lobes(const Job& job) {
    using namespace profile;
    std::vector<SolvedLobe> lobes;
    Diagnostics complaints;
    Shapes shapes(job);
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
    if (lobe.follower.kind != FollowerKind::flat)
        found.pressure_angle = sense * angle_between(touch.motion, touch.contact.normal);
    const Vec2 by = unit(lobe.at.radians());
    found.contact = touch.contact;
    found.contact.point = turned(touch.contact.point, by);
    found.contact.normal = turned(touch.contact.normal, by);
    return found;
}

}  // namespace lobewright
