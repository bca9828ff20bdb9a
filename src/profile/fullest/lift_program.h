/// The largest area on given knots, every limit kept between them too.
#pragma once

#include "profile/fullest/lift_limits.h"
#include "profile/fullest/lift_spline.h"

#include <optional>
#include <vector>

namespace lobewright::profile {

/// Angles from the opening ramp's end on, radians.
struct FullestTask {
    double peak = 0.0;
    double end = 0.0;
    std::optional<double> lift;  ///< at the peak; absent: what gives the largest area
    Lift at_start, at_end;       ///< lift and velocity
    bool rises = true;           ///< all the way to the peak, and falls all the way after it
    std::vector<LiftLimit> limits;
};

/// What is to be made of a task.
enum class Aim {
    area,    ///< the largest
    lift,    ///< the largest at the peak; the task's own does not count
    excess,  ///< of the limits, the least
};

/// A lift with what limits it.
struct LimitedLift {
    LiftSpline spline;
    double excess =
        0.0;  ///< by which limits are exceeded, as a part of them: Aim::excess, or where none keeps all
    /// What a limit does at a place: area for one more of its excess there, as a part of the whole area.
    struct Hold {
        std::size_t limit = 0;  ///< of the task's
        Lift lift;
        double price = 0.0;
    };
    std::vector<Hold> holds;
};

/// Limits aim so far below themselves, as a part of them. The linear ones are held between knots by their
/// control points; another is held where it comes within half of that between knots.
inline constexpr double limit_margin = 1e-9;
inline constexpr double bent_limit_margin = 2e-7;

/// The lift about which limits that are not linear are planes.
struct About {
    const LiftSpline* lift = nullptr;  ///< null: these limits are left out
    double trust = 0.0;                ///< mm by which it may differ from that; 0: by as much as may be
    bool between_knots = true;         ///< these limits are held there, too
};

/// The lift of that aim on the knots, nowhere higher than at the peak. Nothing where the linear limits
/// contradict each other. Required: five knots or more, ascending, the peak among them.
std::optional<LimitedLift> limited_lift(const FullestTask& task, const std::vector<double>& knots, Aim aim,
                                        const About& about = {});

/// The greatest excess of a limit, at knots and between them.
double greatest_excess(const LiftLimit& limit, const LiftSpline& spline);

}  // namespace lobewright::profile
