#include "toolpath/neighbours/cutter_bodies.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// How far the rounding of radius r stands over its own tip, `from_axis` of its middle away.
double height_of_rounding(double r, double from_axis) {
    return r - std::sqrt(std::max(0.0, r * r - from_axis * from_axis));
}

std::vector<RoundBody> parallel_bodies(const Setup& setup) {
    const Cutter& cutter = setup.cutter;
    const bool disc = cutter.kind == CutterKind::disc;
    const double to_spindle = setup.machine.spindle_side == SpindleSide::far ? 1.0 : -1.0;
    const double edge = disc ? -0.5 * cutter.width : 0.0,
                 end = disc ? 0.5 * cutter.width : *cutter.flute_length;
    const double neck = disc ? cutter.neck_diameter.value_or(cutter.diameter)
                             : cutter.shank_diameter.value_or(cutter.diameter);
    const auto body = [&](BodyPart part, double diameter, double from, double to) {
        const double a = to_spindle * from, b = to_spindle * to;
        return RoundBody{part, 0.5 * diameter, {std::min(a, b), std::max(a, b)}};
    };
    std::vector<RoundBody> bodies{body(BodyPart::edge, cutter.diameter, edge, end),
                                  body(BodyPart::shank, neck, end, endless)};
    if (!disc)
        bodies[0].rounded = cutter.kind == CutterKind::ball_nose ? bodies[0].radius : cutter.corner_radius;
    if (cutter.reach && cutter.holder_diameter)
        bodies.push_back(body(BodyPart::holder, *cutter.holder_diameter, edge + *cutter.reach, endless));
    return bodies;
}

/// Where the tip of a cutter lies that lies across the shaft: its straight flutes' middle faces the axis.
double tip_beside(const Setup& setup) {
    if (setup.cutter.kind == CutterKind::disc) return -0.5 * setup.cutter.width;
    const double half = setup.section.half_flat;
    return -half - (*setup.cutter.flute_length - 2.0 * half);
}

std::vector<RoundBody> crossing_bodies(const Setup& setup) {
    const Cutter& cutter = setup.cutter;
    const bool lying = setup.machine.cutter_axis == CutterAxis::tangential;
    const bool disc = cutter.kind == CutterKind::disc;
    const double tip = lying ? tip_beside(setup) : 0.0;
    const auto body = [&](BodyPart part, double diameter, double along) {
        RoundBody made{part, 0.5 * diameter, {}};
        (lying ? made.beside : made.above) = tip + along;
        return made;
    };
    std::vector<RoundBody> bodies{body(BodyPart::edge, cutter.diameter, 0.0)};
    const double cutting = disc ? cutter.width : cutter.flute_length.value_or(endless);
    const auto& neck = disc ? cutter.neck_diameter : cutter.shank_diameter;
    if (neck && *neck > cutter.diameter) bodies.push_back(body(BodyPart::shank, *neck, cutting));
    if (cutter.reach && cutter.holder_diameter)
        bodies.push_back(body(BodyPart::holder, *cutter.holder_diameter, *cutter.reach));
    return bodies;
}

std::optional<Slice> parallel_slice(const Setup& setup, const RoundBody& body, double place,
                                    Interval stretch) {
    const bool apart = place + body.along.high <= stretch.low + hairline ||
                       place + body.along.low >= stretch.high - hairline;
    if (apart) return std::nullopt;
    const bool far = setup.machine.spindle_side == SpindleSide::far;
    const double from_tip =
        far ? stretch.high - place - body.along.low : place + body.along.high - stretch.low;
    const double radius =
        body.radius - height_of_rounding(body.rounded, std::max(0.0, body.rounded - from_tip));
    return Slice{{0.0, radius, 0.0, 0.0, true}, setup.section.corner - radius};
}

/// `half`: of the body's width in a slice that lies `off` its axis.
Slice radial_slice(const PlaneSection& cutter, const RoundBody& body, double off, double half) {
    if (body.part != BodyPart::edge) return {{half, 0.0, cutter.shift, 0.0, true}, body.above};
    if (cutter.half_flat == 0.0) return {{0.0, half, cutter.shift, 0.0, true}, body.radius - half};
    const double corner = std::min(cutter.corner, half);
    const double raise = height_of_rounding(cutter.corner, std::max(0.0, off - cutter.half_flat));
    return {{half - corner, corner, cutter.shift, 0.0, true}, raise};
}

}  // namespace

std::vector<RoundBody> bodies_of(const Setup& setup) {
    return setup.machine.cutter_axis == CutterAxis::parallel ? parallel_bodies(setup)
                                                             : crossing_bodies(setup);
}

std::optional<Slice> slice_of(const Setup& setup, const RoundBody& body, double place, Interval stretch) {
    if (setup.machine.cutter_axis == CutterAxis::parallel) return parallel_slice(setup, body, place, stretch);
    const double off = std::max({0.0, stretch.low - place, place - stretch.high});
    if (off >= body.radius - hairline) return std::nullopt;
    const double half = std::sqrt(body.radius * body.radius - off * off);
    if (setup.machine.cutter_axis == CutterAxis::radial) return radial_slice(setup.section, body, off, half);
    const double radius = 0.5 * setup.cutter.diameter;
    return Slice{{0.5 * (endless - body.beside), 0.0, 0.5 * (endless + body.beside), 0.0, true},
                 radius - half};
}

}  // namespace lobewright::toolpath
