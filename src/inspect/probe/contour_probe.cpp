#include "inspect/probe/contour_probe.h"

#include "profile/roots.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

namespace lobewright::inspection {
namespace {

constexpr int spans_of_a_curve = 64;
constexpr std::size_t bin_count = 720;

/// Radians: a turn of the normal smaller than this is rounding, and no corner.
constexpr double least_corner = 1e-9;
/// Radians: how far past a stretch's end a direction still counts as its end, for rounding.
constexpr double end_slack = 1e-11;
/// Of 1 / base radius: an arc flatter than this has its centre so far away that the closed form would lose
/// digits.
constexpr double flattest_circle = 1e-3;

/// From the start of the first bin, [0, 2π).
double in_bins(double direction) {
    const double turned = direction + std::numbers::pi;
    return turned - full_turn * std::floor(turned / full_turn);
}
std::size_t bin_of(double direction) {
    return std::min(bin_count - 1, static_cast<std::size_t>(in_bins(direction) *
                                                            (static_cast<double>(bin_count) / full_turn)));
}

}  // namespace

ContourProbe::ContourProbe(const Contour& contour, double base_radius, const Probe& probe)
    : pieces_(contour.pieces()),
      base_radius_(base_radius),
      flat_(probe.kind == ProbeKind::flat),
      radius_(probe.radius) {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const ContourPiece& before = pieces_[(i + pieces_.size() - 1) % pieces_.size()];
        add_corner(before.at(before.end), pieces_[i].at(pieces_[i].start));
        add_piece(i);
    }
    sort_into_bins();
}

/// What lies on the ray where the probe touches here: the ball's centre, or the anvil's normal.
Vec2 ContourProbe::pointing(const ContourPoint& at) const {
    return flat_ ? at.normal : at.point + radius_ * at.normal;
}

/// Positive where that direction grows along the contour; negative where a hollow is too tight for the probe.
double ContourProbe::opening(const ContourPoint& at) const {
    return flat_ ? at.curvature : 1.0 + radius_ * at.curvature;
}

void ContourProbe::add(Stretch stretch, Vec2 first, Vec2 last) {
    stretch.from = direction(first);
    stretch.to = stretch.from + std::max(0.0, angle_between(first, last));
    stretches_.push_back(stretch);
}

void ContourProbe::add_corner(const ContourPoint& before, const ContourPoint& after) {
    if (angle_between(before.normal, after.normal) < least_corner) return;
    Stretch corner;
    corner.form = Stretch::Form::corner;
    corner.centre = after.point;
    add(corner, pointing(before), pointing(after));
}

void ContourProbe::add_piece(std::size_t index) {
    const ContourPiece& piece = pieces_[index];
    const double step = (piece.end - piece.start) / spans_of_a_curve;
    // An arc of more than half a turn in two or more parts, so that directions at their ends tell them apart.
    constexpr int parts_of_an_arc = 4, spans_of_a_part = spans_of_a_curve / parts_of_an_arc;
    const int parts = piece.circular ? parts_of_an_arc : spans_of_a_curve;
    const double part = piece.circular ? step * spans_of_a_part : step;
    for (int k = 0; k < parts; ++k) {
        const double end = k + 1 == parts ? piece.end : piece.start + (k + 1) * part;
        add_curve(index, piece.start + k * part, end);
    }
}

/// Leaves out what the probe can't touch, to where it begins.
void ContourProbe::add_curve(std::size_t index, double start, double end) {
    const auto& at = pieces_[index].at;
    const auto opens = [&](double t) { return opening(at(t)); };
    const bool first = opens(start) > 0.0, last = opens(end) > 0.0;
    if (first && last) return add_span(index, start, end);
    if (!first && !last) return;
    const double edge = profile::root_of(opens, start, end);
    first ? add_span(index, start, edge) : add_span(index, edge, end);
}

void ContourProbe::add_span(std::size_t index, double start, double end) {
    const ContourPiece& piece = pieces_[index];
    const ContourPoint first = piece.at(start);
    Stretch stretch;
    stretch.piece = index, stretch.start = start, stretch.end = end;
    const double bend = std::abs(first.curvature) * base_radius_;
    if (piece.circular && bend > flattest_circle) {
        stretch.form = Stretch::Form::circle;
        stretch.radius = 1.0 / first.curvature;
        stretch.centre = first.point - stretch.radius * first.normal;
    } else if (piece.circular && bend == 0.0) {
        stretch.form = Stretch::Form::line;
        stretch.centre = first.normal;
        stretch.radius = dot(first.point, first.normal);
    }
    add(stretch, pointing(first), pointing(piece.at(end)));
}

void ContourProbe::sort_into_bins() {
    const auto each_bin = [this](const auto& visit) {
        for (std::size_t i = 0; i < stretches_.size(); ++i) {
            const std::size_t last = bin_of(stretches_[i].to + end_slack);
            std::size_t bin = bin_of(stretches_[i].from - end_slack);
            for (visit(bin, i); bin != last; visit(bin, i))
                bin = (bin + 1) % bin_count;
        }
    };
    bin_starts_.assign(bin_count + 1, 0);
    each_bin([this](std::size_t bin, std::size_t) { ++bin_starts_[bin + 1]; });
    std::partial_sum(bin_starts_.begin(), bin_starts_.end(), bin_starts_.begin());
    in_bins_.resize(bin_starts_.back());
    std::vector<std::size_t> next = bin_starts_;
    each_bin([&](std::size_t bin, std::size_t i) { in_bins_[next[bin]++] = i; });
}

/// Newton's steps inside a bracket that halves where they would leave it.
ContourPoint ContourProbe::on_curve(const Stretch& stretch, Vec2 ray, double share) const {
    const auto& at = pieces_[stretch.piece].at;
    double low = stretch.start, high = stretch.end;
    double t = low + share * (high - low);
    ContourPoint spot = at(t);
    for (int step = 0; step < 100; ++step) {
        const Vec2 pointer = pointing(spot);
        const double off = cross(ray, pointer);
        if (std::abs(off) <= std::numeric_limits<double>::epsilon() * length(pointer)) break;
        (off < 0.0 ? low : high) = t;
        double next = t - off / (spot.speed * opening(spot) * cross(ray, quarter_turn(spot.normal)));
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        if (next <= low || next >= high) break;
        t = next;
        spot = at(t);
    }
    return spot;
}

/// The point of the stretch that touches; its curvature and speed are not asked for.
ContourPoint ContourProbe::on_stretch(const Stretch& stretch, Vec2 ray, double share) const {
    using Form = Stretch::Form;
    switch (stretch.form) {
        case Form::curve:
            return on_curve(stretch, ray, share);
        case Form::corner:
            return {stretch.centre, ray};
        case Form::line: {
            const Vec2 centre = ray * ((stretch.radius + radius_) / dot(stretch.centre, ray));
            return {centre - radius_ * stretch.centre, stretch.centre};
        }
        case Form::circle: {
            if (flat_) return {stretch.centre + stretch.radius * ray, ray};
            const double from_centre = stretch.radius + radius_;
            const double across = cross(stretch.centre, ray);
            const double half = std::sqrt(std::max(0.0, from_centre * from_centre - across * across));
            const double distance = dot(stretch.centre, ray) + std::copysign(half, from_centre);
            const Vec2 normal = (distance * ray - stretch.centre) / from_centre;
            return {stretch.centre + stretch.radius * normal, normal};
        }
    }
    return {};
}

/// Along the ray from the axis to the probe (its centre, the anvil's face), where it touches that point.
double ContourProbe::reach(Vec2 point, Vec2 ray) const {
    const double along = dot(point, ray), across = cross(point, ray);
    return flat_ ? along : along + std::sqrt(std::max(0.0, radius_ * radius_ - across * across));
}

ProbeTouch ContourProbe::touch_of(const ContourPoint& at, double distance, Vec2 ray) const {
    ProbeTouch touch;
    touch.point = at.point;
    touch.height = distance - base_radius_ - radius_;
    if (flat_) {
        touch.slope = dot(at.point, quarter_turn(ray));
        return touch;
    }
    const Vec2 normal = radius_ > 0.0 ? (distance * ray - at.point) / radius_ : at.normal;
    touch.growth = 1.0 / dot(ray, normal);
    touch.slope = -distance * dot(quarter_turn(ray), normal) * touch.growth;
    return touch;
}

ProbeTouch ContourProbe::touch(double beta) const {
    const Vec2 ray = unit(beta);
    const double ahead = direction(ray);
    double highest = -std::numeric_limits<double>::infinity();
    ContourPoint touching;
    const std::size_t bin = bin_of(ahead);
    for (std::size_t k = bin_starts_[bin]; k < bin_starts_[bin + 1]; ++k) {
        const Stretch& stretch = stretches_[in_bins_[k]];
        const double past = wrapped_radians(ahead - stretch.from);
        const double width = stretch.to - stretch.from;
        if (past < -end_slack || past > width + end_slack) continue;
        const double share = width > 0.0 ? std::clamp(past / width, 0.0, 1.0) : 0.0;
        const ContourPoint spot = on_stretch(stretch, ray, share);
        const double distance = reach(spot.point, ray);
        if (distance > highest) highest = distance, touching = spot;
    }
    return touch_of(touching, highest, ray);
}

}  // namespace lobewright::inspection
