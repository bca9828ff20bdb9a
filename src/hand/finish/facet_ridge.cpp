#include "hand/finish/facet_ridge.h"

#include "hand/finish/least_value.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace lobewright::hand {
namespace {

/// Largest value of a function of a map's parameter, smooth within each of its parts.
double largest_between(const std::function<double(double)>& function, double from, double to) {
    double largest = std::max(function(from), function(to));
    for (double start = from; start < to;) {
        const double end = std::min(to, std::floor(start) + 1.0);
        const auto negative = [&](double parameter) { return -function(parameter); };
        largest = std::max(largest, -least_value(negative, start, end));
        start = end;
    }
    return largest;
}

}  // namespace

std::optional<double> ridge_between(const TouchMap& map, const Facet& first, const Facet& second,
                                    FacetStock stock) {
    const auto& [blank_radius, allowance] = stock;
    const auto corner = corner_between(first.cut, second.cut);
    if (corner && (!blank_radius || length(*corner) <= *blank_radius)) {
        const ContourPoint foot = map.foot(first.parameter, second.parameter, *corner);
        return std::max(0.0, dot(*corner - foot.point, foot.normal) - allowance);
    }
    if (!blank_radius) return std::nullopt;
    const auto left = [&](double parameter) {
        const ContourPoint here = map.at(parameter);
        return std::min({exit_of_blank(*stock.blank_radius, here.point, here.normal),
                         exit_along(first.cut, here.point, here.normal),
                         exit_along(second.cut, here.point, here.normal)});
    };
    return std::max(0.0, largest_between(left, first.parameter, second.parameter) - allowance);
}

}  // namespace lobewright::hand
