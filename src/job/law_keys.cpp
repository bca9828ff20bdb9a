#include "job/law_keys.h"

#include "job/job_reading.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <numbers>

namespace lobewright {
namespace {

// In the order of LawKind.
const std::vector<std::string> laws = {"simple-harmonic",  "cycloidal",     "polynomial-345",
                                       "polynomial-4567",  "modified-sine", "modified-trapezoid",
                                       "power-polynomial", "parabolic"};

constexpr NumberRange part_of_turn{1e-3, 360.0, true, false};
constexpr NumberRange share_of_angles{0.1, 0.9};

std::vector<int> read_powers(JobTable& table) {
    std::vector<int> powers = table.whole_numbers("powers", 1, 200);
    const Node* node = table.any("powers");
    if (node == nullptr) table.missing("powers", "add them, e.g. powers = [2, 10, 18, 26]");
    if (node == nullptr || node->kind != Node::Kind::array) return powers;
    if (powers.size() != node->members.size()) return powers;  // complained about already
    bool ascending = powers.size() >= 2 && powers.size() <= 10 && powers.front() == 2;
    for (std::size_t i = 1; i < powers.size(); ++i)
        ascending = ascending && powers[i - 1] < powers[i];
    if (ascending) return powers;
    table.complain("powers", "powers",
                   "'" + table.path_of("powers") + "' are not two to ten powers ascending from 2",
                   "write them so, e.g. [2, 10, 18, 26]");
    return powers;
}

/// The powers of the power polynomial, which no other law has.
std::vector<int> read_powers_of(JobTable& table, const std::vector<std::optional<LawKind>>& kinds) {
    const auto has = [&](std::optional<LawKind> kind) {
        return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
    };
    if (has(LawKind::power_polynomial)) return read_powers(table);
    if (has(std::nullopt))
        table.any("powers");
    else
        table.refuse_unused("the " + laws[static_cast<std::size_t>(*kinds.front())] + " law", {"powers"});
    return {};
}

/// One law for both sides, or one for each.
void read_laws(JobTable& table, MotionProfile& motion) {
    const bool apart = table.has("opening_law") || table.has("closing_law");
    if (!apart) {
        const auto law = table.required_choice<LawKind>("law", laws);
        motion.law = law.value_or(motion.law);
        motion.powers = read_powers_of(table, {law});
        return;
    }
    const auto opening = table.required_choice<LawKind>("opening_law", laws);
    const auto closing = table.required_choice<LawKind>("closing_law", laws);
    if (table.any("law") != nullptr) {
        table.complain("law", "excluded-key", "law is given beside opening_law or closing_law",
                       "give law where both sides have the same, else opening_law and closing_law");
    }
    motion.law = opening.value_or(motion.law);
    if (closing != opening) motion.closing_law = closing;
    motion.powers = read_powers_of(table, {opening, closing});
}

/// Both angles, or neither: then they come from the timing card.
void read_angles(JobTable& table, MotionProfile& motion) {
    const auto share = table.number("opening_share", share_of_angles);
    if (!table.has("opening_angle") && !table.has("closing_angle")) {
        motion.opening_share = share.value_or(0.5);
        return;
    }
    for (const auto& [key, angle] : {std::pair{"opening_angle", &MotionProfile::opening_angle},
                                     {"closing_angle", &MotionProfile::closing_angle}}) {
        if (!table.has(key)) table.missing(key, "add it; without both, they are solved from the timing card");
        motion.*angle = table.angle_or<CamAngle>(key, CamAngle{}, part_of_turn);
    }
    if (!table.has("opening_share")) return;
    table.complain("opening_share", "excluded-key",
                   "opening_share is given beside the angles that it shares out",
                   "remove it, or both angles to have them solved from the timing card");
}

std::optional<Ramp> read_ramp(JobTable& profile, std::string_view key) {
    const Node* node = profile.table(key);
    if (node == nullptr) return std::nullopt;
    JobTable table(*node, profile.path_of(key), profile.reading());
    Ramp ramp;
    ramp.lift = table.required_length("lift", positive_length);
    ramp.angle = table.required_angle<CamAngle>("angle", part_of_turn);
    table.finish();
    return ramp;
}

/// A ramp is a part of the lift, and all angles together are a part of a turn.
void check_motion(JobTable& table, const MotionProfile& motion) {
    double sum =
        motion.opening_angle.degrees() + motion.dwell_angle.degrees() + motion.closing_angle.degrees();
    for (const auto& [key, ramp] :
         {std::pair{"opening_ramp", motion.opening_ramp}, {"closing_ramp", motion.closing_ramp}}) {
        if (!ramp) continue;
        sum += ramp->angle.degrees();
        if (motion.lift > 0.0 && ramp->lift >= motion.lift) {
            table.complain(key, "ramp-lift",
                           "the lift of '" + table.path_of(key) + "' is not less than the whole lift",
                           "'lift' is the total, ramps included: make it larger, or the ramp lower");
        }
    }
    if (sum <= 360.0) return;
    table.complain(
        "opening_angle", "angles-too-large",
        "the angles of [" + table.path() + "] make " + shortest_fixed(sum, 6) + " degrees together",
        "opening, dwell, closing and ramps share one turn of 360");
}

/// Lengths per degree, its square and its cube.
constexpr NumberRange per_degree_limit{1e-9, 1e4};
constexpr double degrees = 180.0 / std::numbers::pi;  // in a radian

/// Their magnitudes, per radian.
std::optional<double> read_limit(JobTable& table, std::string_view key, double unit) {
    const auto limit = table.length(key, per_degree_limit);
    return limit ? std::optional(*limit * unit) : std::nullopt;
}

/// A limit on the contact is meant for a follower, or for spring and mass.
void check_limits(JobTable& profile, JobTable& limits) {
    for (const char* key : {"smallest_radius", "contact_stress"}) {
        if (limits.has(key) && !profile.has("follower"))
            profile.missing("follower", std::string("add it: ") + key + " is meant for one");
    }
    for (const char* key : {"contact_stress", "float_speed"}) {
        if (!limits.has(key) || profile.reading().root.find("contact") != nullptr) continue;
        limits.complain(key, "no-contact", "'" + limits.path_of(key) + "' asks for [contact]",
                        "add [contact] with spring_preload, spring_rate, moving_mass and crank_speed, or "
                        "leave it out");
    }
}

FullestLimits read_limits(JobTable& profile) {
    FullestLimits limits;
    const Node* node = profile.table("limits");
    if (node == nullptr) {
        if (!profile.has("limits"))
            profile.missing("limits", "add them, e.g. limits = { deceleration = 0.004, jerk = 0.002 }");
        return limits;
    }
    JobTable table(*node, profile.path_of("limits"), profile.reading());
    for (const char* key : {"deceleration", "jerk"})
        if (!table.has(key)) table.missing(key, "add it: without it there is no fullest lift");
    limits.velocity = read_limit(table, "velocity", degrees);
    limits.acceleration = read_limit(table, "acceleration", degrees * degrees);
    limits.deceleration = read_limit(table, "deceleration", degrees * degrees).value_or(0.0);
    limits.jerk = read_limit(table, "jerk", degrees * degrees * degrees).value_or(0.0);
    limits.smallest_radius = table.length("smallest_radius", positive_length);
    limits.contact_stress = table.number("contact_stress", {1e-3, 1e5});
    limits.float_speed = table.number("float_speed", {1e-3, 1e6});
    check_limits(profile, table);
    table.finish();
    return limits;
}

/// One segment; `lift` is where the one before it ends, and then where this one does.
Segment read_segment(JobTable& table, double& lift) {
    Segment segment;
    segment.over = table.required_angle<CamAngle>("over", part_of_turn);
    segment.to = table.length("to", length_or_none);
    if (!table.has("to")) {
        table.refuse_unused("a segment without 'to', which stays where it is,", {"law", "powers"});
        return segment;
    }
    const auto law = table.required_choice<LawKind>("law", laws);
    segment.law = law.value_or(segment.law);
    segment.powers = read_powers_of(table, {law});
    if (segment.to && *segment.to == lift) {
        table.complain("to", "segment-stays", "the follower is at this lift already",
                       "leave out 'to' and 'law' for a stay, or give another lift");
    }
    lift = segment.to.value_or(lift);
    return segment;
}

/// The follower comes back to the base circle within one turn.
void check_segments(JobTable& table, const SegmentsProfile& profile, double last_lift) {
    double sum = 0.0;
    for (const Segment& segment : profile.segments)
        sum += segment.over.degrees();
    if (sum > 360.0) {
        table.complain(
            "segments", "angles-too-large",
            "the segments of [" + table.path() + "] make " + shortest_fixed(sum, 6) + " degrees together",
            "they share one turn of 360");
    }
    const bool moves = std::any_of(profile.segments.begin(), profile.segments.end(),
                                   [](const Segment& segment) { return segment.to.value_or(0.0) > 0.0; });
    if (!moves) {
        table.complain("segments", "segments", "the segments of [" + table.path() + "] never lift",
                       "begin with one that does, e.g. { over = 60.0, to = 5.0, law = \"cycloidal\" }");
    } else if (last_lift != 0.0) {
        table.complain("segments", "segments", "the last segment of [" + table.path() + "] doesn't end at 0",
                       "end with one that comes back to the base circle: to = 0.0");
    }
}

}  // namespace

const std::vector<std::string>& law_words() {
    return laws;
}

MotionProfile read_motion(JobTable& table) {
    MotionProfile motion;
    motion.base_radius = table.required_length("base_radius", positive_length);
    motion.lift = table.required_length("lift", positive_length);
    read_laws(table, motion);
    motion.dwell_angle = table.angle_or<CamAngle>("dwell_angle", CamAngle{}, {0.0, 360.0, true, false});
    read_angles(table, motion);
    motion.opening_ramp = read_ramp(table, "opening_ramp");
    motion.closing_ramp = read_ramp(table, "closing_ramp");
    check_motion(table, motion);
    return motion;
}

FullestProfile read_fullest(JobTable& table) {
    MotionProfile event;  // what a motion has, too
    event.base_radius = table.required_length("base_radius", positive_length);
    const auto lift = table.length("lift", positive_length);
    event.lift = lift.value_or(0.0);
    read_angles(table, event);
    event.opening_ramp = read_ramp(table, "opening_ramp");
    event.closing_ramp = read_ramp(table, "closing_ramp");
    check_motion(table, event);
    const std::string follower = table.string("follower").value_or("");
    if (table.has("follower")) check_reference(table, "follower", follower, "follower");
    return {event.base_radius,   lift,
            event.opening_angle, event.closing_angle,
            event.opening_ramp,  event.closing_ramp,
            event.opening_share, follower,
            read_limits(table)};
}

SegmentsProfile read_segments(JobTable& table) {
    SegmentsProfile profile;
    profile.base_radius = table.required_length("base_radius", positive_length);
    if (!table.has("segments"))
        table.missing("segments", "add them, e.g. [{ over = 60.0, to = 5.0, law = \"cycloidal\" }, ...]");
    const std::size_t before = table.reading().complaints.size();
    double lift = 0.0;
    read_list(table, "segments",
              [&](JobTable& item) { profile.segments.push_back(read_segment(item, lift)); });
    if (table.has("segments") && table.reading().complaints.size() == before)
        check_segments(table, profile, lift);
    return profile;
}

}  // namespace lobewright
