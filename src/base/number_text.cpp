#include "base/elementary/elementary.h"
#include "base/exact_decimal.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace lobewright {
namespace {

bool only_zeros(std::string_view text) {
    return text.find_first_of("123456789") == std::string_view::npos;
}

}  // namespace

std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) throw std::logic_error("a figure to print is not a finite number");
    constexpr double exact_enough = 1e12;  // steps, whose double is a few thousandths of one off
    const double steps = value * elementary::power(10.0, decimals);
    if (std::abs(steps) < exact_enough) return digits(nearest_step(steps), decimals);
    std::string text = exactly_fixed(value, decimals);
    if (text.front() == '-' && only_zeros(text)) text.erase(0, 1);
    return text;
}

std::string shortest_fixed(double value, int most_decimals) {
    std::string text = fixed(value, most_decimals);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string digits(long long steps, int decimals) {
    const bool negative = steps < 0;
    std::string text = std::to_string(steps);
    if (negative) text.erase(0, 1);
    if (decimals > 0) {
        const auto places = static_cast<std::size_t>(decimals);
        if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
        text.insert(text.size() - places, 1, '.');
    }
    return negative ? '-' + text : text;
}

std::optional<double> parse_decimal(std::string_view text) {
    if (!text.empty() && text.front() == '+') {
        text.remove_prefix(1);
        if (!text.empty() && text.front() == '-') return std::nullopt;
    }
    if (text.empty() || text.find_first_not_of("0123456789.-") != std::string_view::npos) return std::nullopt;
    return nearest_double(text);
}

}  // namespace lobewright
