#include "base/toml_numbers.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <optional>

namespace lobewright {

std::string decimals_of(std::string_view fraction) {
    const std::size_t slash = fraction.find('/');
    if (slash == std::string_view::npos) return {};
    const std::size_t gap = std::min(fraction.rfind(' ', slash), slash);
    const auto whole = gap < slash ? parse_decimal(fraction.substr(0, gap)) : std::optional(0.0);
    const std::size_t first = gap < slash ? gap + 1 : 0;
    const auto above = parse_decimal(fraction.substr(first, slash - first)),
               below = parse_decimal(fraction.substr(slash + 1));
    if (!whole || !above || !below || *below == 0.0) return {};
    return shortest_fixed(*whole + (*whole < 0.0 ? -1.0 : 1.0) * *above / *below, 9);
}

bool is_too_large(std::string_view digits, std::string_view after) {
    const bool whole = digits.find_first_not_of("0123456789") == std::string_view::npos;
    const bool exponent = after.size() > 1 && (after[0] == 'e' || after[0] == 'E') &&
                          after.find_first_not_of("eE+-0123456789") == std::string_view::npos;
    return (whole && digits.size() > 18) || (exponent && after.back() >= '0' && after.back() <= '9');
}

}  // namespace lobewright
