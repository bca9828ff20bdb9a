#include "base/elementary/elementary.h"
#include "base/exact_decimal.h"

#include <cmath>

namespace lobewright::elementary {

double power(double base, int exponent) {
    double product = 1.0;
    for (int i = 0; i < std::abs(exponent); ++i)
        product *= base;
    return exponent < 0 ? 1.0 / product : product;
}

int decimal_exponent(double x) {
    return shortest_decimal(x).exponent;
}

}  // namespace lobewright::elementary
