#include <lobewright/angle.h>

#include <cmath>

namespace lobewright {

double wrapped_radians(double radians) {
    const double rest = std::remainder(radians, full_turn);
    return rest <= -std::numbers::pi ? rest + full_turn : rest;
}

}  // namespace lobewright
