/// The least value of a function that is smooth but for edges, and not known to have one valley.
#pragma once

#include <functional>

namespace lobewright::hand {

/// Over [low, high]: the least of some samples, refined round it. Of functions along a contour's piece, whose
/// valleys are wider than a sample's distance.
double least_value(const std::function<double(double)>& function, double low, double high);

}  // namespace lobewright::hand
