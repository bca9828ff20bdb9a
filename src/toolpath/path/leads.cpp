#include "toolpath/path/leads.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace lobewright::toolpath {
namespace {

/// mm: X that moves less than this over a lead stands still, to any word of a machine.
constexpr double level = 1e-6;
/// Of a turn: what rounding may put a start that is due after whole turns past it.
constexpr double turn_rounding = 1e-12;
/// Length of a lead by its drop, and its angles on the heel. Common practice, no source.
constexpr double run_by_drop = 5.0;
constexpr ShaftAngle least_in = ShaftAngle::from_degrees(6.0), most_in = ShaftAngle::from_degrees(40.0);
constexpr ShaftAngle least_out = ShaftAngle::from_degrees(3.0), most_out = ShaftAngle::from_degrees(10.0);
/// A lead-in shorter than this drops rather than leads.
constexpr ShaftAngle shortest_in = ShaftAngle::from_degrees(2.0);
/// Length of a sector's lead-in by its drop.
constexpr double slant_by_drop = 2.0;
/// Most parts that a lead is cut into for the sake of radial_jump.
constexpr double most_parts = 60.0;

/// How far X may bow from a straight line over the stretch; where it stands still, by how much it doesn't.
double whole_bow(const PassFrame& frame, long long from, long long to) {
    const std::vector<CutterContact> stretch = frame.function().between(frame.travel(from), frame.travel(to));
    double low = stretch.front().radial, high = low, bend = 0.0;
    for (const CutterContact& c : stretch) {
        low = std::min(low, c.radial), high = std::max(high, c.radial);
        bend = std::max({bend, std::abs(c.bend), std::abs(c.slope)});
    }
    const double length = (frame.travel(to) - frame.travel(from)).radians();
    return high - low <= level ? high - low : std::max(bend * length * length / 8.0, 2.0 * level);
}

/// Parts of a lead: so fine that its chords stand no more than a step of the radial word off a surface that
/// bows by `bow`, as far as lead.parts will do; that the radial speed, which falls evenly along the parabola,
/// steps within radial_jump; and that none turns more than the dialect's longest block.
int parts_of(const PassFrame& frame, const Lead& lead, double bow) {
    const double by_bow = std::sqrt(bow / frame.setup().steps.radial);
    int parts = std::clamp(static_cast<int>(step_above(std::min(by_bow, most_parts))), lead_parts_on_level,
                           lead.parts);
    const ShaftAngle from = frame.travel(lead.from), to = frame.travel(lead.to);
    if (const auto& jump = frame.limits().radial_jump) {
        const double fastest = 2.0 * lead.drop / frame.function().arc_between(from, to) * frame.layout_feed();
        parts = std::max(parts, static_cast<int>(step_above(std::min(fastest / *jump, most_parts))));
    }
    const ShaftAngle longest = frame.longest_block();
    if (longest > ShaftAngle{})
        parts = std::max(parts, static_cast<int>(step_above((to - from) / longest)) + 1);
    return parts;
}

}  // namespace

LeadAngles lead_angles(const Heel& heel, double surface_radius, double drop_in, double drop_out,
                       ShaftAngle overlap) {
    LeadAngles leads;
    leads.in =
        std::clamp(ShaftAngle::from_radians(run_by_drop * drop_in / surface_radius), least_in, most_in);
    leads.out =
        std::clamp(ShaftAngle::from_radians(run_by_drop * drop_out / surface_radius), least_out, most_out);
    const ShaftAngle room = heel.width() - overlap;
    if (room < leads.in + leads.out) {
        const double share = std::max(room, ShaftAngle{}) / (leads.in + leads.out);
        leads.on_heel = share * leads.in >= shortest_in;
        if (leads.on_heel) leads.in = leads.in * share, leads.out = leads.out * share;
    }
    return leads;
}

long long start_after(const Heel& heel, const LeadAngles& leads, ShaftAngle overlap, ShaftAngle earliest,
                      double step) {
    ShaftAngle from = heel.start + leads.in, to = heel.end - overlap - leads.out;
    if (!leads.on_heel) from = to = 0.5 * (heel.start + heel.end);
    const double turns = std::ceil((earliest - std::max(to, from)).radians() / full_turn - turn_rounding);
    const ShaftAngle start = std::max(earliest, from + ShaftAngle::from_radians(turns * full_turn));
    return step_above(start.radians() / step);
}

Start soonest_start(const PassFrame& frame, double drop_in, double drop_out, long long now) {
    const RadialFunction& function = frame.function();
    const ShaftAngle overlap = frame.setup().cut.overlap;
    std::optional<Start> soonest;
    const std::vector<Heel>& given = frame.order().heels;
    for (const Heel& heel : given.empty() ? widest_heels(function) : given) {
        const double radius = length(function.at(0.5 * (heel.start + heel.end)).point);
        const LeadAngles leads = lead_angles(heel, radius, drop_in, drop_out, overlap);
        const long long in = frame.steps(leads.in), out = frame.steps(leads.out);
        const ShaftAngle earliest = frame.travel(now + in);
        const long long at = start_after(heel, leads, overlap, earliest, frame.setup().steps.rotary);
        if (!soonest || at - in < soonest->at - soonest->in) soonest = Start{at, in, out};
    }
    return *soonest;
}

Knots lead_knots(const PassFrame& frame, const Lead& lead) {
    const double bow = whole_bow(frame, lead.from, lead.to);
    const int parts = parts_of(frame, lead, bow);
    const double lift = bow > level ? bow / (parts * parts) : bow;
    Knots knots;
    for (int i = lead.in ? 0 : 1; i < (lead.in ? parts : parts + 1); ++i) {
        const double share = static_cast<double>(i) / parts;
        const double left = lead.in ? 1.0 - share : share;
        const long long at = lead.from + (lead.to - lead.from) * i / parts;
        const double over = lead.drop * left * left + lift;
        knots.push_back({at, frame.radial_steps(frame.function().at(frame.travel(at)).radial + over)});
    }
    return knots;
}

Knots rise_from(const PassFrame& frame, const GridKnot& last, long long to) {
    Knots knots = lead_knots(frame, {last.rotary, to, frame.setup().air, false, lead_parts_of_sector});
    const double air = frame.setup().air / frame.setup().steps.radial;
    for (GridKnot& knot : knots) {
        const double share =
            static_cast<double>(knot.rotary - last.rotary) / static_cast<double>(to - last.rotary);
        knot.radial = std::max(knot.radial, last.radial + step_above(air * share * share));
    }
    return knots;
}

Knots slanting_lead_in(const PassFrame& frame, long long start) {
    const RadialFunction& function = frame.function();
    const CutterContact first = function.at(frame.travel(start));
    const double air = frame.setup().blank_touch + frame.setup().air;
    if (first.radial >= air) return {};
    const auto x_before = [&](long long steps) { return function.at(frame.travel(start - steps)).radial; };
    long long before = std::max(
        1LL,
        frame.steps(ShaftAngle::from_radians(slant_by_drop * (air - first.radial) / length(first.point))));
    if (x_before(before) >= air) {  // the curve itself is steeper
        for (long long near = 0; before - near > 1;) {
            const long long middle = (before + near) / 2;
            (x_before(middle) >= air ? before : near) = middle;
        }
    }
    const double drop = std::max(0.0, air - x_before(before));
    return lead_knots(frame, {start - before, start, drop, true, lead_parts_of_sector});
}

}  // namespace lobewright::toolpath
