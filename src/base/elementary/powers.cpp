#include "base/elementary/elementary.h"

#include <charconv>
#include <cmath>
#include <iterator>
#include <string_view>

namespace lobewright::elementary {

double power(double base, int exponent) {
    double product = 1.0;
    for (int i = 0; i < std::abs(exponent); ++i)
        product *= base;
    return exponent < 0 ? 1.0 / product : product;
}

int decimal_exponent(double x) {
    char text[32];  // as -1.2345678901234567e-308
    const auto end = std::to_chars(std::begin(text), std::end(text), x, std::chars_format::scientific).ptr;
    const std::string_view all(text, static_cast<std::size_t>(end - text));
    std::string_view digits = all.substr(all.find('e') + 1);
    if (digits.front() == '+') digits.remove_prefix(1);
    int exponent = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    return exponent;
}

}  // namespace lobewright::elementary
