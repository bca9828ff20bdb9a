#include "profile/judge/hertz.h"

#include <cmath>
#include <numbers>

namespace lobewright::profile {

double contact_modulus(const Material& a, const Material& b) {
    return 1.0 / ((1.0 - a.poisson * a.poisson) / a.young_mpa + (1.0 - b.poisson * b.poisson) / b.young_mpa);
}

LineContact line_contact(double force, double length, double curvature, double modulus) {
    // On the middle line at depth z = b ζ the principal stresses across are -p (1 + 2ζ²)/√(1 + ζ²) + 2 p ζ
    // and -p/√(1 + ζ²); half their difference is p (ζ - ζ²/√(1 + ζ²)), largest at this ζ.
    constexpr double depth_of_shear = 0.786151377757423;
    constexpr double share_of_shear = 0.300283106000778;
    constexpr double pi = std::numbers::pi;
    LineContact contact;
    contact.half_width = std::sqrt(4.0 * force / (pi * length * modulus * curvature));
    contact.pressure = std::sqrt(squared_pressure(force, length, curvature, modulus));
    contact.greatest_shear = share_of_shear * contact.pressure;
    contact.shear_depth = depth_of_shear * contact.half_width;
    return contact;
}

}  // namespace lobewright::profile
