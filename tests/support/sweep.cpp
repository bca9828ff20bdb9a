#include "sweep.h"

#include "golden_section.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

using namespace lobewright;

namespace sweep {
namespace {

constexpr double nowhere = std::numeric_limits<double>::infinity();
constexpr double sample_step = 0.5 * std::numbers::pi / 180.0;

/// The body's section in a slab: a flat of half width `flat` at height `tip`, with round corners; or a disc.
struct Slice {
    bool there = true;
    double tip = 0.0;
    double flat = 0.0;
    double corner = 0.0;
    double side = 0.0;
};

/// Where the ray (c, s) from the origin enters the disc about (u, v), or nowhere.
double into_disc(double u, double v, double radius, double c, double s) {
    const double along = u * c + v * s;
    const double reach = along * along - (u * u + v * v - radius * radius);
    if (reach < 0.0) return nowhere;
    const double t = along - std::sqrt(reach);
    return t >= 0.0 ? t : nowhere;
}

double into_slice(const Slice& slice, double c, double s) {
    if (!slice.there) return nowhere;
    double best = nowhere;
    if (c > 0.0) {
        const double t = slice.tip / c;
        if (std::abs(t * s - slice.side) <= slice.flat) best = t;
    }
    for (const int way : {-1, 1}) {
        const double v = slice.side + way * slice.flat;
        if (slice.corner > 0.0)
            best = std::min(best, into_disc(slice.tip + slice.corner, v, slice.corner, c, s));
        if (s == 0.0) continue;
        const double wall = (v + way * slice.corner) / s;
        if (wall > 0.0 && wall * c >= slice.tip + slice.corner) best = std::min(best, wall);
    }
    return best;
}

/// How high an end stands over its lowest circle at a distance from its axis: a circular rounding, and inside
/// of it the tangent that leaves it at the angle of the dish.
double height_of_end(const Body& body, double from_axis) {
    const double inward = body.radius - body.corner - from_axis;
    const double tangent_at = body.corner * std::sin(body.dish);
    if (inward >= tangent_at)
        return body.corner * (1.0 - std::cos(body.dish)) + (inward - tangent_at) * std::tan(body.dish);
    if (body.dish == 0.0 && inward >= 0.0) return 0.0;
    return body.corner - std::sqrt(std::max(0.0, body.corner * body.corner - inward * inward));
}

/// An end with corners seen off its axis by `dz`: its height over the tip grows with the distance from the
/// axis, which no circle describes. The ray is stepped through for the first point inside, then halved.
double into_torus(const Body& body, double tip, double dz, double c, double s) {
    const auto inside = [&](double t) {
        const double v = t * s - body.side;
        const double from_axis = std::sqrt(v * v + dz * dz);
        if (from_axis > body.radius) return false;
        return t * c >= tip + height_of_end(body, from_axis);
    };
    if (c <= 0.0) return nowhere;
    const double first = std::max(0.0, tip / c);
    const double step = body.radius / 200.0;
    for (double t = first; t < first + 3.0 * body.radius; t += step) {
        if (!inside(t)) continue;
        double out = std::max(first, t - step);
        double in = t;
        if (inside(out)) return out;
        for (int i = 0; i < 40; ++i) {
            const double middle = 0.5 * (out + in);
            (inside(middle) ? in : out) = middle;
        }
        return in;
    }
    return nowhere;
}

double chord(double radius, double off) {
    return std::sqrt(std::max(0.0, radius * radius - off * off));
}

double cylinder_radius(const Body& body, double dz) {
    const double from_end = body.tip_end > 0 ? body.to - dz : body.tip_end < 0 ? dz - body.from : nowhere;
    if (from_end >= body.corner) return body.radius;
    return body.radius - body.corner + chord(body.corner, body.corner - from_end);
}

/// Entry into the body whose nearest point to the shaft stands at `tip`, facing along (1, 0), in the slab at
/// `dz`.
double into_body(const Body& body, double tip, double dz, double c, double s) {
    switch (body.shape) {
        case Body::Shape::cylinder: {
            if (dz < body.from || dz > body.to) return nowhere;
            return into_disc(tip + body.radius, body.side, cylinder_radius(body, dz), c, s);
        }
        case Body::Shape::end: {
            if (std::abs(dz) >= body.radius) return nowhere;
            const double flat = body.radius - body.corner;
            if (body.dish > 0.0) return into_torus(body, tip, dz, c, s);
            if (flat <= 0.0) {
                const double round = chord(body.radius, dz);
                return into_slice({true, tip + body.radius - round, 0.0, round, body.side}, c, s);
            }
            if (body.corner == 0.0) return into_slice({true, tip, chord(flat, dz), 0.0, body.side}, c, s);
            if (dz == 0.0) return into_slice({true, tip, flat, body.corner, body.side}, c, s);
            return into_torus(body, tip, dz, c, s);
        }
        case Body::Shape::lying: {
            if (std::abs(dz) >= body.radius) return nowhere;
            return into_slice(
                {true, tip + body.radius - chord(body.radius, dz), body.half_length, 0.0, body.side}, c, s);
        }
    }
    return nowhere;
}

double wrapped_angle(double angle) {
    return std::remainder(angle, 2.0 * std::numbers::pi);
}

const Cutter& cutter_named(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

double sense(const Job& job) {
    return (job.machine->rotary_positive == Sense::ccw ? -1.0 : 1.0) * std::numbers::pi / 180.0;
}

Body parallel_body(const Job& job, const Cutter& cutter) {
    Body body;
    body.shape = Body::Shape::cylinder;
    body.radius = cutter.diameter / 2.0;
    if (job.machine->cutter_zero == CutterZero::centre) body.tip_from_word = -body.radius;
    if (cutter.kind == CutterKind::disc) {
        body.from = -cutter.width / 2.0;
        body.to = cutter.width / 2.0;
        return body;
    }
    const bool far = job.machine->spindle_side == SpindleSide::far;
    const double length = cutter.flute_length.value_or(0.0);
    body.from = far ? 0.0 : -length;
    body.to = far ? length : 0.0;
    body.tip_end = far ? -1 : 1;
    body.corner = cutter.kind == CutterKind::ball_nose ? body.radius : cutter.corner_radius;
    return body;
}

}  // namespace

std::vector<Position> positions_of(const Toolpath& path) {
    const auto place = [&](const Words& words) {
        return Position{static_cast<double>(words.radial) * path.grid.radial_step,
                        static_cast<double>(words.axial) * path.grid.axial_step,
                        static_cast<double>(words.rotary) * path.grid.rotary_step};
    };
    std::vector<Position> positions = {place(path.start)};
    positions.front().rapid = true;
    for (const Move& move : path.moves) {
        Position position = place(move.to);
        position.rapid = move.kind == MoveKind::rapid;
        position.seconds = move.seconds;
        positions.push_back(position);
    }
    return positions;
}

Body cutting_body(const Job& job) {
    const Cutter& cutter = cutter_named(job);
    Body body;
    if (job.machine->cutter_axis == CutterAxis::parallel) {
        body = parallel_body(job, cutter);
    } else {
        body.radius = cutter.diameter / 2.0;
        const double end = cutter.kind == CutterKind::ball_nose ? body.radius : cutter.corner_radius;
        if (job.machine->cutter_axis == CutterAxis::radial) {
            body.shape = Body::Shape::end;
            body.corner = end;
            if (cutter.kind == CutterKind::end_mill) body.dish = cutter.end_dish.radians();
            body.side = job.cut->side_shift;
        } else {
            body.shape = Body::Shape::lying;
            body.half_length = cutter.kind == CutterKind::disc
                                   ? cutter.width / 2.0
                                   : (cutter.flute_length.value_or(0.0) - end) / 2.0;
        }
    }
    body.facing_per_degree = sense(job);
    return body;
}

std::vector<Body> blunt_bodies(const Job& job) {
    const Cutter& cutter = cutter_named(job);
    std::vector<Body> bodies;
    if (job.machine->cutter_axis != CutterAxis::parallel) return bodies;
    const double way = job.machine->spindle_side == SpindleSide::far ? 1.0 : -1.0;
    const double centre = job.machine->cutter_zero == CutterZero::centre ? 0.0 : cutter.diameter / 2.0;
    const auto add = [&](double diameter, double start, double end) {
        Body body;
        body.radius = diameter / 2.0;
        body.from = std::min(way * start, way * end);
        body.to = std::max(way * start, way * end);
        body.tip_from_word = centre - body.radius;
        body.facing_per_degree = sense(job);
        bodies.push_back(body);
    };
    const bool disc = cutter.kind == CutterKind::disc;
    const double cutting_end = disc ? cutter.width / 2.0 : cutter.flute_length.value_or(0.0);
    const double neck = disc ? cutter.neck_diameter.value_or(cutter.diameter)
                             : cutter.shank_diameter.value_or(cutter.diameter);
    const double beyond = 1e4;
    add(neck, cutting_end, beyond);
    if (cutter.reach && cutter.holder_diameter) {
        add(*cutter.holder_diameter, disc ? *cutter.reach - cutter.width / 2.0 : *cutter.reach, beyond);
    }
    return bodies;
}

Slab::Slab(const std::vector<Position>& positions, const Body& body, double z, double blank_radius,
           bool rapids_too, std::size_t from, std::size_t to)
    : body_(body), blank_radius_(blank_radius) {
    for (std::size_t i = std::max<std::size_t>(from, 1); i < std::min(to, positions.size()); ++i) {
        const Position& a = positions[i - 1];
        const Position& b = positions[i];
        if (b.rapid && !rapids_too) continue;
        Block block{a.rotary * body.facing_per_degree,
                    b.rotary * body.facing_per_degree,
                    a.radial + body.tip_from_word,
                    b.radial + body.tip_from_word,
                    z - a.axial,
                    z - b.axial,
                    4};
        const double low = body.shape == Body::Shape::cylinder ? body.from : -body.radius;
        const double high = body.shape == Body::Shape::cylinder ? body.to : body.radius;
        if (std::max(block.dz0, block.dz1) < low || std::min(block.dz0, block.dz1) > high) continue;
        if (std::min(block.tip0, block.tip1) >= blank_radius) continue;
        block.samples =
            std::max(4, static_cast<int>(std::ceil(std::abs(block.facing1 - block.facing0) / sample_step)));
        if (block.dz0 != block.dz1) block.samples = std::max(block.samples, 200);
        blocks_.push_back(block);
    }
}

double Slab::entry(const Block& block, double way, double phi) const {
    const double off = phi - (block.facing0 + way * (block.facing1 - block.facing0));
    const double tip = block.tip0 + way * (block.tip1 - block.tip0);
    const double dz = block.dz0 + way * (block.dz1 - block.dz0);
    return into_body(body_, tip, dz, std::cos(off), std::sin(off));
}

/// Whether any place of the block can leave less than `best` on the ray: its tip must lie lower, and within
/// the angle at which a plane at that height would.
bool Slab::reaches(const Block& block, double phi, double best) const {
    const double tip = std::min(block.tip0, block.tip1);
    if (tip >= best) return false;
    if (tip <= 0.0) return true;
    const double off = std::abs(wrapped_angle(phi - 0.5 * (block.facing0 + block.facing1)));
    return off - 0.5 * std::abs(block.facing1 - block.facing0) <= std::acos(tip / best);
}

double Slab::least_on(const Block& block, double phi, double best) const {
    const int n = block.samples;
    const auto at = [&](double way) { return entry(block, way, phi); };
    double before = nowhere;
    double here = at(0.0);
    for (int i = 0; i <= n; ++i) {
        const double after = i < n ? at(static_cast<double>(i + 1) / n) : nowhere;
        if (here < nowhere && here <= before && here <= after) {
            // A minimum near a sample can't lie lower than the sample by more than the neighbours lie higher.
            const double gain = std::max(i > 0 ? before - here : 0.0, i < n ? after - here : 0.0);
            if (here - gain < best) {
                const double a = static_cast<double>(std::max(0, i - 1)) / n;
                const double b = static_cast<double>(std::min(n, i + 1)) / n;
                best = std::min(best, close_in(at, a, static_cast<double>(i) / n, b, here, 30).second);
            }
        }
        before = here;
        here = after;
    }
    return best;
}

double Slab::radius_on(double phi) const {
    // A block that faces the ray, deep, comes first (by a rough measure): what it leaves rules most of the
    // others out.
    const auto off = [&](const Block& block) {
        const double middle = std::abs(wrapped_angle(phi - 0.5 * (block.facing0 + block.facing1)));
        return std::max(0.0, middle - 0.5 * std::abs(block.facing1 - block.facing0)) +
               0.1 * std::min(block.tip0, block.tip1);
    };
    const Block* nearest = nullptr;
    double least = nowhere;
    for (const Block& block : blocks_) {
        if (const double here = off(block); here < least) {
            least = here;
            nearest = &block;
        }
    }
    double best = blank_radius_;
    if (nearest != nullptr) best = std::min(best, least_on(*nearest, phi, best));
    for (const Block& block : blocks_) {
        if (&block != nearest && reaches(block, phi, best)) best = std::min(best, least_on(block, phi, best));
    }
    return best;
}

int rapids_in_stock(const std::vector<Position>& positions, const Body& body, double blank_radius,
                    const std::vector<double>& zs) {
    constexpr double touch = 1e-4;
    constexpr int rays = 720;
    int found = 0;
    for (std::size_t i = 1; i < positions.size(); ++i) {
        if (!positions[i].rapid) continue;
        bool cuts = false;
        for (const double z : zs) {
            const Slab rapid(positions, body, z, blank_radius, true, i, i + 1);
            std::vector<double> suspects;
            for (int ray = 0; ray < rays; ++ray) {
                const double phi = ray * 2.0 * std::numbers::pi / rays;
                if (rapid.radius_on(phi) < blank_radius - touch) suspects.push_back(phi);
            }
            if (suspects.empty()) continue;
            const Slab before(positions, body, z, blank_radius, false, 1, i);
            cuts = std::any_of(suspects.begin(), suspects.end(), [&](double phi) {
                return rapid.radius_on(phi) < before.radius_on(phi) - touch;
            });
            if (cuts) break;
        }
        if (cuts) ++found;
    }
    return found;
}

}  // namespace sweep
