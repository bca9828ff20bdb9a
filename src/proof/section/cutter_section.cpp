#include "proof/section/cutter_section.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::proof {
namespace {

/// Longer than any shaft: the length of a part of which the job doesn't say where it ends.
constexpr double endless = 1e4;

double half_chord(double radius, double off) {
    return std::sqrt(std::max(0.0, radius * radius - off * off));
}

/// A turned body seen from its side, its rounded or square end at the lowest: the plane misses its axis by
/// `off`.
std::optional<PlaneSection> upright_section(const CutterPart& part, double off) {
    if (off >= part.radius) return std::nullopt;
    const double ring = part.radius - part.corner;
    PlaneSection section{part.height, 0.0, 0.0, part.shift};
    if (part.dish > 0.0) {
        section.half_flat = half_chord(ring, off);
        section.corner = part.corner;
        section.ring = ring;
        section.off = off;
        section.dish = part.dish;
        if (off > ring) section.raise += part.corner - half_chord(part.corner, off - ring);
    } else if (part.corner == 0.0) {
        section.half_flat = half_chord(part.radius, off);
    } else if (off == 0.0) {
        section.half_flat = ring;
        section.corner = part.corner;
    } else if (ring == 0.0) {
        section.corner = half_chord(part.radius, off);
        section.raise += part.radius - section.corner;
    } else {
        section.half_flat = half_chord(ring, off);
        if (off > ring) section.raise += part.corner - half_chord(part.corner, off - ring);
        section.corner = part.corner;
        section.ring = ring;
        section.off = off;
    }
    return section;
}

std::optional<PlaneSection> round_section(const CutterPart& part, double off) {
    if (off < part.first || off > part.last) return std::nullopt;
    const double from_end = part.rounded_end < 0 ? off - part.first : part.last - off;
    double radius = part.radius;
    if (part.rounded_end != 0 && from_end < part.corner) {
        radius += half_chord(part.corner, part.corner - from_end) - part.corner;
    }
    if (radius <= 0.0) return std::nullopt;
    return PlaneSection{part.height + part.radius - radius, 0.0, radius, part.shift};
}

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

double end_rounding(const Cutter& cutter) {
    return cutter.kind == CutterKind::ball_nose ? cutter.diameter / 2.0 : cutter.corner_radius;
}

/// A round part on the spindle's side of a parallel cutter, from `from` on to `to`, both counted from the
/// axial word towards the spindle.
CutterPart round_part(const char* name, double diameter, double from, double to, int way,
                      double cutter_radius) {
    CutterPart part;
    part.name = name;
    part.radius = diameter / 2.0;
    part.first = way > 0 ? from : -to;
    part.last = way > 0 ? to : -from;
    part.height = cutter_radius - part.radius;
    return part;
}

CutterBody parallel_body(const Job& job, const Cutter& cutter) {
    const int way = job.machine->spindle_side == SpindleSide::far ? 1 : -1;
    const double radius = cutter.diameter / 2.0;
    const bool disc = cutter.kind == CutterKind::disc;
    CutterBody body;
    body.along_shaft = true;
    if (job.machine->cutter_zero == CutterZero::centre) body.tip_from_word = -radius;
    const double start = disc ? -cutter.width / 2.0 : 0.0;
    const double end = disc ? cutter.width / 2.0 : *cutter.flute_length;
    body.cutting = round_part("cutter", cutter.diameter, start, end, way, radius);
    if (!disc) {
        body.cutting.corner = end_rounding(cutter);
        body.cutting.rounded_end = -way;
    }
    const double tip = disc ? end : 0.0;
    const double out = cutter.reach ? tip + *cutter.reach : endless;
    if (cutter.neck_diameter)
        body.blunt.push_back(round_part("neck", *cutter.neck_diameter, end, out, way, radius));
    if (cutter.shank_diameter)
        body.blunt.push_back(round_part("shank", *cutter.shank_diameter, end, out, way, radius));
    if (cutter.holder_diameter && cutter.reach) {
        body.blunt.push_back(round_part("holder", *cutter.holder_diameter, out, endless, way, radius));
    }
    return body;
}

CutterPart upright_part(const char* name, double diameter, double height, double shift) {
    CutterPart part;
    part.shape = CutterPart::Shape::upright;
    part.name = name;
    part.radius = diameter / 2.0;
    part.first = -part.radius;
    part.last = part.radius;
    part.height = height;
    part.shift = shift;
    return part;
}

CutterBody radial_body(const Job& job, const Cutter& cutter) {
    const double shift = job.cut->side_shift;
    CutterBody body;
    body.cutting = upright_part("cutter", cutter.diameter, 0.0, shift);
    body.cutting.corner = end_rounding(cutter);
    if (cutter.kind == CutterKind::end_mill) body.cutting.dish = elementary::tan(cutter.end_dish.radians());
    if (cutter.shank_diameter && cutter.flute_length) {
        body.blunt.push_back(upright_part("shank", *cutter.shank_diameter, *cutter.flute_length, shift));
    }
    if (cutter.holder_diameter && cutter.reach) {
        body.blunt.push_back(upright_part("holder", *cutter.holder_diameter, *cutter.reach, shift));
    }
    return body;
}

CutterBody tangential_body(const Cutter& cutter) {
    CutterBody body;
    CutterPart& part = body.cutting;
    part.shape = CutterPart::Shape::lying;
    part.name = "cutter";
    part.radius = cutter.diameter / 2.0;
    part.first = -part.radius;
    part.last = part.radius;
    part.half_length =
        (cutter.kind == CutterKind::disc ? cutter.width : *cutter.flute_length - end_rounding(cutter)) / 2.0;
    return body;
}

}  // namespace

double PlaneSection::half_width() const {
    if (!turned()) return half_flat + corner;
    return half_chord(ring + corner, off);
}

double PlaneSection::distance_from_axis(double tip) const {
    const double low = tip + raise;
    const double beyond = std::abs(shift) - (turned() ? half_width() : half_flat);
    if (beyond <= 0.0) return low;
    const double rounding = turned() ? 0.0 : corner;
    const double up = std::max(0.0, low + rounding);
    return std::sqrt(up * up + beyond * beyond) - rounding;
}

std::optional<PlaneSection> CutterPart::section(double off) const {
    switch (shape) {
        case Shape::round:
            return round_section(*this, off);
        case Shape::upright:
            return upright_section(*this, std::abs(off));
        case Shape::lying:
            break;
    }
    if (std::abs(off) >= radius) return std::nullopt;
    return PlaneSection{height + radius - half_chord(radius, off), half_length, 0.0, shift};
}

bool holds(const PlaneSection& a, const PlaneSection& b) {
    if (a == b) return true;
    if (a.shift != b.shift || a.dish != 0.0 || b.dish != 0.0) return false;
    if (b.turned()) {  // further off the axis of one rounded end
        const double ring = a.turned() ? a.ring : a.half_flat;
        return ring == b.ring && a.corner == b.corner && a.off <= b.off;
    }
    if (a.turned()) return false;
    if (a.corner == 0.0 && b.corner == 0.0) return a.half_flat >= b.half_flat && a.raise <= b.raise;
    constexpr double rounding = 1e-12;
    const double apart = std::abs((a.raise + a.corner) - (b.raise + b.corner));
    return a.half_flat == b.half_flat && apart <= a.corner - b.corner + rounding;
}

double CutterPart::widest_offset(double off_a, double off_b) const {
    const double low = std::min(off_a, off_b), high = std::max(off_a, off_b);
    if (shape != Shape::round) return std::clamp(0.0, low, high);
    if (rounded_end < 0) return std::min(high, last);
    return std::max(low, first);
}

std::optional<PlaneSection> CutterPart::widest_section(double off_a, double off_b) const {
    return section(widest_offset(off_a, off_b));
}

bool CutterPart::uniform(double off_a, double off_b) const {
    if (off_a == off_b) return true;
    if (shape != Shape::round) return false;
    const double low = std::min(off_a, off_b), high = std::max(off_a, off_b);
    if (rounded_end < 0) return low >= first + corner;
    return rounded_end == 0 || high <= last - corner;
}

std::vector<double> CutterPart::breaks() const {
    std::vector<double> breaks{first, last};
    if (rounded_end < 0 && corner > 0.0) breaks.insert(breaks.begin() + 1, first + corner);
    if (rounded_end > 0 && corner > 0.0) breaks.insert(breaks.begin() + 1, last - corner);
    if (shape != Shape::round) breaks.insert(breaks.begin() + 1, 0.0);
    return breaks;
}

std::pair<double, double> CutterPart::changing() const {
    if (shape != Shape::round) return {first, last};
    if (rounded_end < 0) return {first, first + corner};
    if (rounded_end > 0) return {last - corner, last};
    return {last, first};
}

CutterBody worn_body(CutterBody body, double worn) {
    CutterPart& wheel = body.cutting;
    if (worn <= 0.0 || wheel.shape == CutterPart::Shape::upright) return body;
    wheel.radius -= worn;
    wheel.height += worn;
    if (wheel.shape == CutterPart::Shape::lying) wheel.first = -wheel.radius, wheel.last = wheel.radius;
    return body;
}

CutterBody cutter_body(const Job& job) {
    const Cutter& cutter = cutter_of(job);
    CutterBody body = job.machine->cutter_axis == CutterAxis::parallel ? parallel_body(job, cutter)
                      : job.machine->cutter_axis == CutterAxis::radial ? radial_body(job, cutter)
                                                                       : tangential_body(cutter);
    body.facing_per_degree = -sign_of(job.machine->rotary_positive) * std::numbers::pi / 180.0;
    return body;
}

}  // namespace lobewright::proof
