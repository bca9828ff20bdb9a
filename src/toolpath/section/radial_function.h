/// The radial word as a function of the rotary one: how far out the cutter must stand for each direction of
/// the shaft.
///
/// The contact runs once round the contour. Where it stands at the point P with outward normal N and tangent
/// T, a section (see section.h) leaving `a` on the lobe along the normal faces the direction φ at the tip
/// distance X:
///
///     flat:     φ = arg N,                     X = P·N + a,             while |P·T - d| <= w
///     corner:   φ = arg Q - asin(k / |Q|),     X = sqrt(|Q|² - k²) - r,  Q = P + (a + r) N,  k = d + w or d
///     - w
///
/// With the lean ψ of N from the radial direction, the contour's speed σ and turning ν = κσ, q = σ + (a + r)
/// ν and s = sqrt(|Q|² - k²), the derivatives are exact:
///
///     flat:     φ' = ν,            dX/dφ = P·T,           d²X/dφ² = σ/ν - P·N
///     corner:   φ' = q cos ψ / s,  dX/dφ = k - s tan ψ,   d²X/dφ² = -(dX/dφ) tan ψ - s (dψ/dφ) / cos² ψ
///               dψ/dφ = ν s / (q cos ψ) - 1
///
/// (the section rule of the design, differentiated; for w = 0 it is the outer parallel curve in polar form,
/// for a flat the support function). The families hand over where |P·T - d| = w, with equal φ, X and dX/dφ.
#pragma once

#include "toolpath/section/section.h"

#include <lobewright/contour.h>

#include <vector>

namespace lobewright::toolpath {

/// One place of the section on the lobe.
struct CutterContact {
    ShaftAngle facing;        ///< φ, unwrapped: in the lobe's frame, or along the travel (see along_travel)
    double radial = 0.0;      ///< X, mm
    double slope = 0.0;       ///< dX/dφ, mm/rad
    double bend = 0.0;        ///< d²X/dφ²; 0 at a kink, where the contact jumps along a straight flank
    ShaftAngle lean;          ///< ψ: from the radial direction to the normal, in the sense in which φ grows
    double lean_slope = 0.0;  ///< dψ/dφ
    double effective_radius =
        0.0;  ///< mm: radius that settles how a radial error grows off the normal (see tunnel.h); may be inf
    double arc = 0.0;      ///< mm of contour that the contact has run since the first node
    double lateral = 0.0;  ///< mm: where on the section, from the cutter's axis towards v
    Vec2 point;            ///< of the contour, frame of the lobe
    Vec2 normal;
    bool on_corner = false;
    bool backward = false;  ///< the contact would run backwards here: the section can't get into this hollow
};

/// How densely the function is known: nodes stand so close that its chord leaves it by at most `sag`, mm.
struct Spacing {
    double sag = 1e-5;
    ShaftAngle widest = ShaftAngle::from_radians(0.35);
};

/// Of a pass's margin: the sag of its nodes, the tunnel's own loss by their spacing.
inline constexpr double sag_share = 0.01;
/// Of the sag: what X may be off by between nodes, the most where its bend passes 0 and they lie furthest
/// apart; but not where the contact passes a corner all but upright.
inline constexpr double cubic_share = 0.25;

/// All nodes of one turn, as the contact runs ccw round the chain; the last is the first, one turn on.
/// Between nodes the cubic through values and slopes is off by no more than cubic_share of the sag. Backward
/// stretches are still in it. Required: |shift| - half_flat is less than every distance of the contour from
/// the axis.
std::vector<CutterContact> contacts(const Contour& contour, const PlaneSection& section, double left_on,
                                    Spacing spacing);

/// The stretches in which the section can't lie against the contour cut away: what is left is the upper
/// envelope, with a kink where the section bridges a hollow. Nodes ascend in `facing`.
std::vector<CutterContact> bridged(std::vector<CutterContact> nodes);

/// The same nodes as the machine meets them: `facing` becomes direction·(β + at), ascending; slopes, leans
/// and arcs follow. direction is +1 or -1: whether the facing direction φ rises or falls. Where it falls they
/// are those of the lobe's mirror image, whose φ rises.
std::vector<CutterContact> along_travel(const std::vector<CutterContact>& nodes, ShaftAngle at,
                                        int direction);

/// A function over the whole line of travel, periodic in one turn, read from ascending nodes.
class RadialFunction {
  public:
    explicit RadialFunction(std::vector<CutterContact> nodes);
    /// The contact at any direction of travel, between nodes by the cubic through values and slopes.
    [[nodiscard]] CutterContact at(ShaftAngle facing) const;
    /// The contacts from `start` to `end`, both included, with every node between; start < end. Where the
    /// contact leaps just at one of them, the one on this side of the leap.
    [[nodiscard]] std::vector<CutterContact> between(ShaftAngle start, ShaftAngle end) const;
    /// mm of contour that the contact runs from `start` to `end`.
    [[nodiscard]] double arc_between(ShaftAngle start, ShaftAngle end) const;
    [[nodiscard]] const std::vector<CutterContact>& nodes() const { return nodes_; }
    [[nodiscard]] double least() const { return least_; }
    [[nodiscard]] double greatest() const { return greatest_; }

  private:
    struct Turned {
        ShaftAngle facing;  // within the nodes' turn
        double turns;       // whole turns taken off
    };
    [[nodiscard]] Turned turned(ShaftAngle facing) const;
    [[nodiscard]] double arc_at(ShaftAngle facing) const;
    std::vector<CutterContact> nodes_;
    double least_ = 0.0;
    double greatest_ = 0.0;
};

/// A part of the turn on which X stands at its least: base circle. Passes start and end on it. `end` >=
/// `start`.
struct Heel {
    ShaftAngle start;
    ShaftAngle end;
    [[nodiscard]] ShaftAngle width() const { return end - start; }
};
/// All of them, ascending, each begun within the nodes' turn; several where a ring bears several lobes. None
/// where the lobe has no dwell there.
std::vector<Heel> heels_of(const RadialFunction& function);
/// The widest, all that are as wide; where there is none, the places where X turns at its least, without
/// width.
std::vector<Heel> widest_heels(const RadialFunction& function);

}  // namespace lobewright::toolpath
