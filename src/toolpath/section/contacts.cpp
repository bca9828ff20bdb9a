#include "base/elementary/elementary.h"
#include "toolpath/section/radial_function.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace lobewright::toolpath {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// A point of the contour moving with its own parameter.
struct Moving {
    Vec2 point;
    Vec2 normal;
    double speed = 0.0;    ///< σ = |dP/dt|
    double turning = 0.0;  ///< ν = d(arg N)/dt
};

/// A link of the chain: a piece of the contour, or a corner of it, at which only the normal turns.
struct ChainLink {
    double start = 0.0;
    double end = 0.0;
    const ContourPiece* piece = nullptr;
    Vec2 corner;
    [[nodiscard]] Moving at(double t) const {
        if (piece == nullptr) return {corner, unit(t), 0.0, 1.0};
        const ContourPoint p = piece->at(t);
        return {p.point, p.normal, p.speed, p.curvature * p.speed};
    }
};

/// A turn of the normal at a joint of pieces below this, radians, is rounding, not a corner: a corner that a
/// follower makes turns by far more.
constexpr double joint_turn = 1e-7;

/// The contact runs backward where it turns so fast the wrong way, in radians per mm of contour: less is
/// rounding on a straight flank, where it stands still.
constexpr double backward_rate = 1e-9;

/// A corner that passes beside the shaft's axis has its root of |Q|² - k² kept off 0 by this share of |Q|²:
/// such a section can't be asked for (shift_too_large), only met while a size is tried.
constexpr double least_share = 1e-12;

/// Steps of the walk are not halved below this share of a link.
constexpr double smallest_step = 1e-9;

std::vector<ChainLink> links_of(const Contour& contour) {
    std::vector<ChainLink> links;
    const auto& pieces = contour.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const ContourPiece& piece = pieces[i];
        const ContourPiece& next = pieces[(i + 1) % pieces.size()];
        links.push_back({piece.start, piece.end, &piece, {}});
        const ContourPoint here = piece.at(piece.end);
        const Vec2 there = next.at(next.start).normal;
        const double turn = angle_between(here.normal, there);
        if (turn > joint_turn) {
            const double from = direction(here.normal);
            links.push_back({from, from + turn, nullptr, here.point});
        }
    }
    return links;
}

/// Which part of the section touches: its flat (0), or the corner on the v side (+1) or the other (-1).
struct SectionTouch {
    int part = 0;
    CutterContact contact;
    double rate = 0.0;      ///< dφ/dt
    double arc_rate = 0.0;  ///< σ
    double offset = 0.0;    ///< P·T - d
};

int part_of(double offset, const PlaneSection& section) {
    if (section.half_flat == 0.0) return 1;
    return offset > section.half_flat ? 1 : offset < -section.half_flat ? -1 : 0;
}

void touch_flat(const Moving& m, double left_on, SectionTouch& touch) {
    CutterContact& c = touch.contact;
    const Vec2 tangent = quarter_turn(m.normal);
    c.facing = ShaftAngle::from_radians(direction(m.normal));
    c.radial = dot(m.point, m.normal) + left_on;
    c.slope = dot(m.point, tangent);
    c.bend = m.turning != 0.0 ? m.speed / m.turning - dot(m.point, m.normal) : 0.0;
    touch.rate = m.turning;
}

/// X = max P·(u - slope v) - rise + d slope: the support function in the direction of that vector, which is
/// longer than 1 and lies a fixed angle behind φ.
void touch_inclined(const Moving& m, const PlaneSection& section, double left_on, SectionTouch& touch) {
    CutterContact& c = touch.contact;
    const double longer = std::sqrt(1.0 + section.slope * section.slope);
    const ShaftAngle inclination = ShaftAngle::from_radians(elementary::atan(section.slope));
    touch_flat(m, left_on, touch);
    c.facing += inclination;
    c.radial = longer * c.radial - section.rise + section.shift * section.slope;
    c.slope *= longer;
    c.bend *= longer;
    c.lean = -inclination;
}

void touch_corner(const Moving& m, const PlaneSection& section, double left_on, SectionTouch& touch) {
    CutterContact& c = touch.contact;
    const double lifted = left_on + section.corner;
    const Vec2 q = m.point + lifted * m.normal;
    const double k = section.shift + touch.part * section.half_flat;
    const double square = dot(q, q);
    const double s = std::sqrt(std::max(square - k * k, least_share * square));
    const Vec2 u = (s * q - k * quarter_turn(q)) / square;
    const double cosine = dot(m.normal, u);
    const double tangent = dot(m.normal, quarter_turn(u)) / cosine;
    const double drive = m.speed + lifted * m.turning;
    c.facing = ShaftAngle::from_radians(direction(u));
    c.radial = s - section.corner;
    c.slope = k - s * tangent;
    c.lean = ShaftAngle::from_radians(elementary::atan(tangent));
    c.on_corner = section.half_flat > 0.0;
    touch.rate = drive * cosine / s;
    c.lean_slope = touch.rate != 0.0 ? m.turning / touch.rate - 1.0 : 0.0;
    c.bend = -c.slope * tangent - s * c.lean_slope / (cosine * cosine);
}

/// The radius by which a radial error grows off the normal: the lobe's own where convex, what a hollow leaves
/// round the corner where hollow.
double effective_radius_of(const Moving& m, const PlaneSection& section, double left_on) {
    if (m.turning == 0.0) return infinite;
    if (m.turning > 0.0) return m.speed / m.turning + left_on;
    return std::max(0.0, -m.speed / m.turning - left_on - section.corner);
}

/// `part`: of the section; nothing: whichever touches.
SectionTouch touch_at(const Moving& m, const PlaneSection& section, double left_on, const int* part) {
    SectionTouch touch;
    touch.offset = dot(m.point, quarter_turn(m.normal)) - section.shift;
    touch.part = section.inclined() ? 0 : part != nullptr ? *part : part_of(touch.offset, section);
    if (section.inclined()) {
        touch_inclined(m, section, left_on, touch);
    } else if (touch.part == 0) {
        touch_flat(m, left_on, touch);
    } else {
        touch_corner(m, section, left_on, touch);
    }
    CutterContact& c = touch.contact;
    c.effective_radius = effective_radius_of(m, section, left_on);
    c.point = m.point + left_on * m.normal;
    c.normal = m.normal;
    c.lateral = dot(c.point, quarter_turn(unit(c.facing.radians()))) - section.shift;
    c.backward = touch.rate < -backward_rate * m.speed;
    touch.arc_rate = m.speed + left_on * m.turning;
    return touch;
}

/// Walks the chain, choosing its own steps.
class Walk {
  public:
    Walk(const PlaneSection& section, double left_on, Spacing spacing)
        : section_(section), left_on_(left_on), spacing_(spacing) {}

    void along(const ChainLink& link) {
        double t = link.start;
        SectionTouch here = touch_at(link.at(t), section_, left_on_, nullptr);
        keep(here, 0.0);
        const double smallest = (link.end - link.start) * smallest_step;
        while (t < link.end) {
            double step = wanted_step(here, link);
            double to = std::min(link.end, t + step);
            while (step > smallest && too_far(here, touch_at(link.at(to), section_, left_on_, &here.part))) {
                step /= 2.0;
                to = std::min(link.end, t + step);
            }
            const SectionTouch there = touch_at(link.at(to), section_, left_on_, nullptr);
            if (there.part != here.part) {
                hand_over(link, t, to, here, there);
            } else {
                keep(there, arc_of(link, t, here, to, there));
                here = there;
                t = to;
            }
        }
    }

    std::vector<CutterContact> finish() { return std::move(nodes_); }

  private:
    /// Radians: no nodes lie closer; where a corner all but climbs a flank, the tunnel pays instead.
    static constexpr double closest = 1e-4;
    [[nodiscard]] double widest_for(double bend) const {
        const double size = std::abs(bend), widest = spacing_.widest.radians();
        if (size * widest * widest <= 8.0 * spacing_.sag) return widest;
        return std::max(closest, std::sqrt(8.0 * spacing_.sag / size));
    }
    [[nodiscard]] double wanted_step(const SectionTouch& from, const ChainLink& link) const {
        const double whole = link.end - link.start;
        const double most = link.piece != nullptr && !link.piece->circular ? whole / 8.0 : whole / 2.0;
        const double rate = std::abs(from.rate);
        return rate * most <= widest_for(from.contact.bend) ? most : widest_for(from.contact.bend) / rate;
    }
    /// The step has outrun its spacing: the bend grew on the way.
    [[nodiscard]] bool too_far(const SectionTouch& from, const SectionTouch& to) const {
        const double gone = wrapped(to.contact.facing - from.contact.facing).radians();
        if (std::abs(gone) <= closest) return false;
        if (std::abs(gone) > 1.4 * spacing_.widest.radians()) return true;
        const double chord = (to.contact.radial - from.contact.radial) / gone;
        const double off = std::max(std::abs(from.contact.slope - chord), std::abs(to.contact.slope - chord));
        return 0.25 * std::abs(gone) * off > 2.0 * spacing_.sag;
    }
    /// Finds where the contact passes between flat and corner, and keeps a node of either kind there. From
    /// one corner to the other it passes over the flat.
    void hand_over(const ChainLink& link, double& t, double to, SectionTouch& here,
                   const SectionTouch& there) {
        const int part = here.part != 0 ? 0 : there.part;
        const double edge = (here.part + part) * section_.half_flat;
        const auto beyond = [&](double s) {
            return touch_at(link.at(s), section_, left_on_, &here.part).offset - edge;
        };
        const double a = beyond(t), b = beyond(to);
        double at = a == 0.0 ? t : to;
        if (a * b < 0.0) {
            std::uintmax_t most = 60;
            const boost::math::tools::eps_tolerance<double> close(46);
            at = boost::math::tools::toms748_solve(beyond, t, to, a, b, close, most).second;
        }
        const SectionTouch last = touch_at(link.at(at), section_, left_on_, &here.part);
        keep(last, arc_of(link, t, here, at, last));
        here = touch_at(link.at(at), section_, left_on_, &part);
        keep(here, 0.0);
        t = at;
    }
    /// mm of contour from `from` to `to`, by Simpson's rule: each node's arc is then the contour's own,
    /// however far apart the nodes stand.
    [[nodiscard]] double arc_of(const ChainLink& link, double from, const SectionTouch& at_from, double to,
                                const SectionTouch& at_to) const {
        if (at_from.arc_rate == at_to.arc_rate && (link.piece == nullptr || link.piece->circular))
            return at_from.arc_rate * (to - from);
        const Moving middle = link.at(0.5 * (from + to));
        const double rate = middle.speed + left_on_ * middle.turning;
        return (at_from.arc_rate + 4.0 * rate + at_to.arc_rate) * (to - from) / 6.0;
    }
    void keep(SectionTouch touch, double arc) {
        CutterContact& c = touch.contact;
        if (!nodes_.empty()) {
            const CutterContact& last = nodes_.back();
            c.facing = last.facing + wrapped(c.facing - last.facing);
            c.arc = last.arc + arc;
        }
        nodes_.push_back(c);
    }

    const PlaneSection& section_;
    double left_on_;
    Spacing spacing_;
    std::vector<CutterContact> nodes_;
};

}  // namespace

std::vector<CutterContact> contacts(const Contour& contour, const PlaneSection& section, double left_on,
                                    Spacing spacing) {
    Walk walk(section, left_on, spacing);
    for (const ChainLink& link : links_of(contour))
        walk.along(link);
    std::vector<CutterContact> nodes = walk.finish();
    CutterContact last = nodes.front();  // the same place, one turn on
    last.facing += ShaftAngle::from_radians(full_turn);
    last.arc = nodes.back().arc;
    nodes.push_back(last);
    return nodes;
}

}  // namespace lobewright::toolpath
