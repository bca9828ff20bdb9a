#include "hand/wording/effort_words.h"

#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::hand {

std::string hours_words(double minutes) {
    if (minutes < 90.0) return std::to_string(std::max(1LL, nearest_step(minutes / 5.0)) * 5) + " min";
    return shortest_fixed(static_cast<double>(nearest_step(minutes / 30.0)) / 2.0, 1) + " h";
}

std::string run_words(double mm, Units units) {
    constexpr double foot = 12.0 * 25.4;
    return units == Units::mm ? fixed(mm / 1000.0, 1) + " m" : fixed(mm / foot, 1) + " ft";
}

}  // namespace lobewright::hand
