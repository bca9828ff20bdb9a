#include "base/exact_decimal.h"

#include "base/double_bits.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace lobewright {
namespace {

/// A number not below zero: 0.DIGITS times ten to the power of `point`, no zero at either end of the digits.
/// Zero has no digits.
struct Decimal {
    std::string digits;
    int point = std::numeric_limits<int>::min();
};

bool operator<(const Decimal& a, const Decimal& b) {
    return a.point != b.point ? a.point < b.point : a.digits < b.digits;
}
bool operator==(const Decimal& a, const Decimal& b) {
    return a.point == b.point && a.digits == b.digits;
}

/// Digits whose first stands after the point, and `point` moved as far as zeros are taken away in front.
Decimal without_zeros(std::string digits, int point) {
    const std::size_t first = digits.find_first_not_of('0');
    if (first == std::string::npos) return {};
    digits.erase(digits.find_last_not_of('0') + 1);
    digits.erase(0, first);
    return {std::move(digits), point - static_cast<int>(first)};
}

/// A whole number in nines of decimal digits, the lowest first.
class Nines {
  public:
    explicit Nines(std::uint64_t value) {
        for (; value > 0; value /= base)
            nines_.push_back(static_cast<std::uint32_t>(value % base));
    }

    /// Times `factor` as often as that; `bundle` of them, whose product is below 2^32, are taken at once.
    void multiply(std::uint32_t factor, int times, int bundle) {
        std::uint32_t all = 1;
        for (int i = 0; i < bundle; ++i)
            all *= factor;
        for (; times >= bundle; times -= bundle)
            multiply(all);
        for (; times > 0; --times)
            multiply(factor);
    }

    [[nodiscard]] std::string digits() const {
        std::string text;
        for (auto nine = nines_.rbegin(); nine != nines_.rend(); ++nine) {
            const std::string part = std::to_string(*nine);
            text += (nine == nines_.rbegin() ? "" : std::string(9 - part.size(), '0')) + part;
        }
        return text;
    }

  private:
    static constexpr std::uint64_t base = 1'000'000'000;

    void multiply(std::uint32_t factor) {
        std::uint64_t carried = 0;
        for (std::uint32_t& nine : nines_) {
            carried += std::uint64_t{nine} * factor;
            nine = static_cast<std::uint32_t>(carried % base);
            carried /= base;
        }
        for (; carried > 0; carried /= base)
            nines_.push_back(static_cast<std::uint32_t>(carried % base));
    }

    std::vector<std::uint32_t> nines_;
};

/// whole · 2^power. Below 1 it is whole · 5^-power / 10^-power.
Decimal decimal_of(std::uint64_t whole, int power) {
    Nines nines(whole);
    if (power >= 0)
        nines.multiply(2, power, 31);
    else
        nines.multiply(5, -power, 13);
    std::string digits = nines.digits();
    const int point = static_cast<int>(digits.size()) + std::min(power, 0);
    return without_zeros(std::move(digits), point);
}

constexpr int fraction_bits = 52;
constexpr std::uint64_t lowest_normal = std::uint64_t{1} << fraction_bits;

/// A double not below zero as whole · 2^power.
struct Parts {
    std::uint64_t whole = 0;
    int power = 0;
};
Parts parts_of(std::uint64_t bits) {
    const std::uint64_t fraction = bits & (lowest_normal - 1);
    const int biased = static_cast<int>(bits >> fraction_bits);
    constexpr int lowest = -1074;
    return biased == 0 ? Parts{fraction, lowest} : Parts{fraction | lowest_normal, biased - 1 + lowest};
}

/// Half way to the next larger double, and to the next smaller one, which is nearer where a power of two
/// begins.
Decimal middle_above(const Parts& parts) {
    return decimal_of(2 * parts.whole + 1, parts.power - 1);
}
Decimal middle_below(const Parts& parts) {
    const bool nearer = parts.whole == lowest_normal && parts.power > -1074;
    return nearer ? decimal_of(4 * parts.whole - 1, parts.power - 2)
                  : decimal_of(2 * parts.whole - 1, parts.power - 1);
}

/// The first `count` digits, as they are and one more in the last place.
Decimal cut_off(const Decimal& number, std::size_t count) {
    return without_zeros(number.digits.substr(0, count), number.point);
}
Decimal cut_off_above(const Decimal& number, std::size_t count) {
    std::string digits = '0' + number.digits.substr(0, count);
    std::size_t last = digits.size() - 1;
    while (digits[last] == '9')
        digits[last--] = '0';
    ++digits[last];
    return without_zeros(std::move(digits), number.point + 1);
}

/// Whether what stands behind the first `count` digits is more than half of the last of them, or half of an
/// odd one.
bool rounds_up(const Decimal& number, std::size_t count) {
    const std::string rest = number.digits.substr(count);
    if (rest != "5") return rest > "5";
    return count > 0 && (number.digits[count - 1] - '0') % 2 == 1;
}

Decimal shortest_of(const Parts& parts) {
    Decimal exact = decimal_of(parts.whole, parts.power);
    const Decimal below = middle_below(parts), above = middle_above(parts);
    const bool ends_too = parts.whole % 2 == 0;
    const auto is_it = [&](const Decimal& number) {
        return (below < number && number < above) || (ends_too && (number == below || number == above));
    };
    for (std::size_t count = 1; count < exact.digits.size(); ++count) {
        Decimal down = cut_off(exact, count), up = cut_off_above(exact, count);
        const bool down_is = is_it(down), up_is = is_it(up);
        if (down_is && !(up_is && rounds_up(exact, count))) return down;
        if (up_is) return up;
    }
    return exact;
}

/// Where both numbers are exact doubles, their product or quotient is rounded once.
std::optional<double> by_one_rounding(const Decimal& number) {
    constexpr int most_digits = 15, most_power = 22;
    const int size = static_cast<int>(number.digits.size()), power = number.point - size;
    if (size > most_digits || std::abs(power) > most_power) return std::nullopt;
    double whole = 0.0, ten = 1.0;
    for (const char digit : number.digits)
        whole = 10.0 * whole + (digit - '0');
    for (int i = 0; i < std::abs(power); ++i)
        ten *= 10.0;
    return power < 0 ? whole / ten : whole * ten;
}

/// The largest double that is not larger, found between two by halving; then it or the next one.
double nearest_to(const Decimal& number) {
    if (const auto exact = by_one_rounding(number)) return *exact;
    std::uint64_t low = 0, high = bits_of(std::numeric_limits<double>::infinity());
    while (high - low > 1) {
        const std::uint64_t middle = low + (high - low) / 2;
        const Parts parts = parts_of(middle);
        (number < decimal_of(parts.whole, parts.power) ? high : low) = middle;
    }
    const Decimal middle = middle_above(parts_of(low));
    const bool next = middle < number || (middle == number && low % 2 == 1);
    return double_of_bits(low + (next ? 1 : 0));
}

/// "e-12" to its number, held within what makes a difference to any double.
std::optional<int> exponent_in(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative || text.starts_with('+')) text.remove_prefix(1);
    if (text.empty() || text.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
    constexpr int most = 100'000'000;
    int exponent = 0;
    for (const char digit : text)
        exponent = std::min(10 * exponent + (digit - '0'), most);
    return negative ? -exponent : exponent;
}

std::optional<Decimal> decimal_in(std::string_view text) {
    const std::size_t e = text.find_first_of("eE");
    std::optional<int> exponent = 0;
    if (e != std::string_view::npos) exponent = exponent_in(text.substr(e + 1));
    text = text.substr(0, e);
    const std::size_t point = std::min(text.find('.'), text.size());
    std::string digits(text.substr(0, point));
    if (point < text.size()) digits += text.substr(point + 1);
    const bool wrong = digits.empty() || digits.find_first_not_of("0123456789") != std::string::npos;
    if (wrong || !exponent) return std::nullopt;
    Decimal number = without_zeros(std::move(digits), static_cast<int>(point));
    if (!number.digits.empty()) number.point += *exponent;
    return number;
}

Parts parts_of(double value) {
    return parts_of(bits_of(std::abs(value)));
}

}  // namespace

ShortestDecimal shortest_decimal(double value) {
    if (value == 0.0) return {"0", 0};
    Decimal shortest = shortest_of(parts_of(value));
    return {std::move(shortest.digits), shortest.point - 1};
}

std::string scientific_text(double value) {
    const ShortestDecimal shortest = shortest_decimal(value);
    std::string text = std::signbit(value) ? "-" : "";
    text += shortest.digits.front();
    if (shortest.digits.size() > 1) text += '.' + shortest.digits.substr(1);
    const std::string exponent = std::to_string(std::abs(shortest.exponent));
    return text + (shortest.exponent < 0 ? "e-" : "e+") + (exponent.size() < 2 ? "0" : "") + exponent;
}

std::string exactly_fixed(double value, int decimals) {
    const Parts parts = parts_of(value);
    Decimal number = value == 0.0 ? Decimal{"", 0} : decimal_of(parts.whole, parts.power);
    const int wanted = number.point + decimals;  // of its digits
    if (wanted < 0) {
        number = {"", 0};
    } else if (const auto count = static_cast<std::size_t>(wanted); count < number.digits.size()) {
        number = rounds_up(number, count) ? cut_off_above(number, count) : cut_off(number, count);
        if (number.digits.empty()) number.point = 0;
    }
    const int before = std::max(number.point, 0);
    std::string digits(static_cast<std::size_t>(before - number.point), '0');
    digits += number.digits;
    const int places = before + decimals;
    digits.resize(static_cast<std::size_t>(places), '0');
    std::string text = before > 0 ? digits.substr(0, static_cast<std::size_t>(before)) : "0";
    if (decimals > 0) text += '.' + digits.substr(static_cast<std::size_t>(before));
    return (std::signbit(value) ? "-" : "") + text;
}

std::optional<double> nearest_double(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative) text.remove_prefix(1);
    const std::optional<Decimal> number = decimal_in(text);
    if (!number) return std::nullopt;
    const double size = number->digits.empty() ? 0.0 : nearest_to(*number);
    if (!std::isfinite(size) || (size == 0.0 && !number->digits.empty())) return std::nullopt;
    return negative ? -size : size;
}

}  // namespace lobewright
