#include "toolpath/section/dished_end.h"

#include "base/elementary/elementary.h"
#include "toolpath/section/radial_function.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::toolpath {
namespace {

/// mm on either side of the contact's way over which the chord lies under the end, too.
constexpr double beside_contact = 0.25;
/// mm: nearer to the axis nothing cuts that is worth the name. Common practice, no source.
constexpr double least_off_axis = 0.1;
/// Within this part of the diameter the middle of a square end is as good as dead. Common practice, no
/// source.
constexpr double dead_part = 20.0;

/// Part of a line.
struct Span {
    double low = 0.0, high = 0.0;
};

class DishedEndPlanner {
  public:
    DishedEndPlanner(const Setup& setup, const SolvedLobe& lobe, double allowed)
        : setup_(setup),
          lobe_(lobe),
          allowed_(allowed),
          sine_(elementary::sin(setup.cutter.end_dish.radians())),
          tangent_(elementary::tan(setup.cutter.end_dish.radians())),
          face_(0.5 * lobe.width + setup.grid.axial_step) {}

    [[nodiscard]] Possible<DishedEnd> plan() const {
        const double shift = setup_.section.shift;
        const Span way = contact_from_axis(shift);
        if (way.low < least_off_axis || corner_comes_in(way)) return refused(way);
        DishedEnd end{setup_.section, crown(way.low)};
        if (end.proud > allowed_) return refused(way);
        const double low = over_tip(way.low), high = over_tip(way.high);
        const double slope = (high - low) / (way.high - way.low);  // by |x|
        end.section.slope = shift > 0.0 ? -slope : slope;          // x is negative there
        end.section.rise = low - slope * way.low;
        return end;
    }

  private:
    /// Where the contact lies on the section, |x|, with what the chord needs beside it: x = P·v - d.
    [[nodiscard]] Span contact_from_axis(double shift) const {
        PlaneSection turned = setup_.section;
        turned.shift = shift;
        turned.slope = shift > 0.0 ? tangent_ : -tangent_;
        Span way{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
        const double side = shift > 0.0 ? -1.0 : 1.0;
        for (const CutterContact& c :
             contacts(lobe_.contour, turned, setup_.cut.allowance, {0.1, ShaftAngle::from_radians(0.01)})) {
            way.low = std::min(way.low, side * c.lateral);
            way.high = std::max(way.high, side * c.lateral);
        }
        return {way.low - beside_contact, way.high + beside_contact};
    }

    [[nodiscard]] double ring() const { return setup_.section.half_flat - setup_.section.corner * sine_; }
    [[nodiscard]] double from_axis(double x) const { return std::sqrt(x * x + face_ * face_); }
    [[nodiscard]] bool corner_comes_in(const Span& way) const { return from_axis(way.high) > ring(); }
    /// mm that the middle stands over the faces where the contact lies at x.
    [[nodiscard]] double crown(double x) const { return tangent_ * (from_axis(x) - x); }
    /// f in the lobe's faces.
    [[nodiscard]] double over_tip(double x) const {
        const double cosine = sine_ / tangent_;
        return (setup_.section.half_flat - from_axis(x)) * tangent_ -
               setup_.section.corner * (1.0 / cosine - 1.0);
    }

    /// Shifts to one side (+1 or -1) with which the contact keeps off both the axis and the corner; the crown
    /// falls as they grow.
    [[nodiscard]] std::optional<Span> shifts(double side) const {
        const Span way = contact_from_axis(side);  // from a shift of 1 mm
        const double room = ring() * ring() - face_ * face_;
        if (room <= 0.0) return std::nullopt;
        const Span found{1.0 + least_off_axis - way.low, 1.0 + std::sqrt(room) - way.high};
        if (found.low > found.high) return std::nullopt;
        return found;
    }

    [[nodiscard]] DishTooDeep refused(const Span& way) const {
        DishTooDeep why;
        why.allowed = allowed_;
        why.crown = way.low < least_off_axis ? std::numeric_limits<double>::infinity() : crown(way.low);
        const double side = setup_.section.shift < 0.0 ? -1.0 : 1.0;
        const auto possible = shifts(side);
        if (!possible) return why;
        const double nearest = contact_from_axis(side).low - 1.0;  // plus the shift: the contact's least |x|
        why.shift = side * possible->high;
        why.tolerance = crown(possible->high + nearest) * setup_.cut.tolerance / allowed_;
        const double ratio = allowed_ / tangent_;
        const double least = (face_ * face_ - ratio * ratio) / (2.0 * ratio) - nearest;
        const double from = std::max(possible->low, least);
        if (from <= possible->high) why.works = DishTooDeep::Shifts{side * from, side * possible->high};
        return why;
    }

    const Setup& setup_;
    const SolvedLobe& lobe_;
    double allowed_;
    double sine_, tangent_;
    double face_;  // mm from the cutter's axis to the lobe's faces
};

}  // namespace

bool has_dished_end(const Setup& setup) {
    return setup.machine.cutter_axis == CutterAxis::radial && setup.cutter.kind == CutterKind::end_mill &&
           setup.cutter.end_dish.radians() > 0.0;
}

std::optional<DeadMiddle> dead_middle(const Setup& setup, const std::vector<SolvedLobe>& lobes) {
    const double dead = setup.cutter.diameter / dead_part;
    const bool square = setup.machine.cutter_axis == CutterAxis::radial &&
                        setup.cutter.kind == CutterKind::end_mill && setup.section.half_flat > 0.0;
    if (!square || has_dished_end(setup) || std::abs(setup.section.shift) >= dead) return std::nullopt;
    DeadMiddle found{dead, dead};
    for (const SolvedLobe& lobe : lobes) {
        for (const CutterContact& c : contacts(lobe.contour, setup.section, setup.cut.allowance,
                                               {0.1, ShaftAngle::from_radians(0.01)}))
            found.off_all_round =
                std::max(found.off_all_round, dead + std::abs(c.lateral + setup.section.shift));
    }
    return found;
}

Possible<DishedEnd> dished_end(const Setup& setup, const SolvedLobe& lobe, double allowed) {
    return DishedEndPlanner(setup, lobe, allowed).plan();
}

}  // namespace lobewright::toolpath
