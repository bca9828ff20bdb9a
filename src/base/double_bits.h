/// The bits of a double. (Not every C++20 library has std::bit_cast.)
#pragma once

#include <cstdint>
#include <cstring>

namespace lobewright {

inline std::uint64_t bits_of(double value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    return bits;
}
inline double double_of_bits(std::uint64_t bits) {
    double value = 0.0;
    std::memcpy(&value, &bits, sizeof value);
    return value;
}

}  // namespace lobewright
