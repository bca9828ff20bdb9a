/// The index wheel of an offset fixture: marks and angles, the best zero, the wheels that have every mark
/// wanted.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/job.h>

#include <optional>
#include <vector>

namespace lobewright {

/// A wheel of equal divisions on the shaft. Mark 0 brings the shaft angle `zero` to face the cutter; marks
/// grow the way `counts` says, seen from the drive end.
struct IndexWheel {
    int divisions = 1;
    ShaftAngle zero;
    Sense counts = Sense::ccw;
    std::optional<ShaftAngle>
        vernier;  ///< smallest setting past a mark: a vernier, or a second pin's set-over

    [[nodiscard]] double step_degrees() const { return 360.0 / divisions; }
    /// The shaft angle that faces the cutter at a mark (or a fraction between two), unwrapped.
    [[nodiscard]] ShaftAngle facing(double mark) const;
    /// Where on the wheel a shaft angle comes to face the cutter: in [0, divisions).
    [[nodiscard]] double mark_of(ShaftAngle facing) const;
    /// The nearest that can be set: a whole mark, or with a vernier a mark and a whole number of its steps
    /// past it. In [0, divisions).
    [[nodiscard]] double nearest_setting(ShaftAngle facing) const;
};

/// An angle nearer than this to a mark is on it, degrees: finer than any shop's wheel is true.
inline constexpr double mark_tolerance_degrees = 0.001;

/// How the marks of a wheel fall on the angles wanted, once its zero has been turned on the shaft so that the
/// worst of them is as small as it can be.
struct BestZero {
    ShaftAngle shift;  ///< to add to the wheel's zero: within half a division either way
    ShaftAngle worst;  ///< the largest distance that is left, >= 0
};
/// Exact: the angles' places within a division lie on a circle, and the best zero faces the middle of its
/// widest gap. Required: `wanted` is not empty.
BestZero best_zero(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted);

/// The largest distance from an angle wanted to the nearest mark (no vernier), >= 0.
ShaftAngle worst_error(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted);

inline constexpr int largest_wheel = 360;

/// Wheels of up to 360 divisions that have a mark for every angle, ascending: with the zero where it is, and
/// with the zero turned where that helps.
struct WheelsWithAllMarks {
    std::vector<int> as_zero_stands;
    std::vector<int> with_zero_turned;  ///< only those that are not in the other list
};
WheelsWithAllMarks wheels_with_all_marks(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted);

/// The wheel of up to 360 divisions whose worst error, its zero turned, is smallest; the smallest of equals.
struct NearestWheel {
    int divisions = 1;
    BestZero zero;
};
NearestWheel nearest_wheel(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted);

}  // namespace lobewright
