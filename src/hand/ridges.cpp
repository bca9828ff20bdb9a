#include "hand/ridges.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// The angle at the surface's centre between a cut's centre at `distance` and a ridge's tip at `tip` from it,
/// where the tip is `reach` from the cut's centre.
double half_step(double distance, double tip, double reach) {
    const double cosine = (distance * distance + tip * tip - reach * reach) / (2.0 * distance * tip);
    return std::acos(std::clamp(cosine, -1.0, 1.0));
}

}  // namespace

double ridge_between_flats(double radius, double step) {
    return radius * (1.0 / std::cos(step / 2.0) - 1.0);
}

double ridge_between_rounds(double radius, double cutter_radius, double step) {
    const double centre = radius + cutter_radius;
    const double side = centre * std::sin(step / 2.0);
    return centre * std::cos(step / 2.0) - std::sqrt(cutter_radius * cutter_radius - side * side) - radius;
}

double ridge_between_arcs(double radius, double swept_radius, double step) {
    const double offset = swept_radius - radius;
    const double side = offset * std::sin(step / 2.0);
    return std::sqrt(swept_radius * swept_radius - side * side) - offset * std::cos(step / 2.0) - radius;
}

double step_for_flats(double radius, double height) {
    return 2.0 * std::acos(radius / (radius + height));
}

double step_for_rounds(double radius, double cutter_radius, double height) {
    const double meet = 2.0 * std::asin(cutter_radius / (radius + cutter_radius));
    const double tip =
        std::sqrt(radius * radius + 2.0 * radius * cutter_radius);  // of the highest ridge, where they meet
    if (radius + height >= tip) return meet;
    return 2.0 * half_step(radius + cutter_radius, radius + height, cutter_radius);
}

double step_for_arcs(double radius, double swept_radius, double height) {
    const double offset = swept_radius - radius;
    if (2.0 * offset <= height) return 2.0 * std::numbers::pi;
    return 2.0 * (std::numbers::pi - half_step(offset, radius + height, swept_radius));
}

}  // namespace lobewright
