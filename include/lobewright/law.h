/// The named laws of follower motion, dimensionless: S(x) rises from 0 to 1 as x goes from 0 to 1.
#pragma once

#include <lobewright/job.h>

#include <vector>

namespace lobewright {

/// S and its first three derivatives by x.
struct LawValue {
    double s = 0.0;
    double ds = 0.0;
    double dds = 0.0;
    double ddds = 0.0;
};

/// Simple harmonic, cycloidal, 3-4-5, 4-5-6-7, modified sine, modified trapezoid, parabolic: closed forms
/// (common handbook laws; the constants are derived from continuity, see src/profile/law/rise_law.cpp). Power
/// polynomial: with u = 1 - x, S = 1 + Σ c_i u^p_i, c_i = -Π_{j≠i} p_j / (p_j - p_i), so that S and its first
/// n-1 derivatives vanish at x = 0; `powers` (ascending, from 2) is used by it alone. x outside [0, 1] is not
/// asked for; at a joint the derivatives are those of the piece that ends there.
LawValue law_value(LawKind law, const std::vector<int>& powers, double x);

/// Interior joints of a law's pieces, where its third derivative jumps (the parabolic law's second):
/// ascending x in (0, 1); empty where smooth.
std::vector<double> law_joints(LawKind law);

/// The coefficients c_i of the power polynomial, in the order of `powers`.
std::vector<double> power_coefficients(const std::vector<int>& powers);

}  // namespace lobewright
