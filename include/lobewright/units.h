/// Units of length.
#pragma once

namespace lobewright {

enum class Units { mm, inch };
/// Millimetres in one unit of length: 1 or 25.4.
constexpr double mm_per(Units units) {
    return units == Units::mm ? 1.0 : 25.4;
}

}  // namespace lobewright
