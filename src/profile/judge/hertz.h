/// Hertz's line contact: two cylinders, or a cylinder and a plane, pressed together along a line.
#pragma once

#include <lobewright/job.h>

#include <numbers>

namespace lobewright::profile {

/// Lengths in mm, pressures in MPa.
struct LineContact {
    double half_width = 0.0;
    double pressure = 0.0;        ///< largest, in the middle of the band
    double greatest_shear = 0.0;  ///< 0.300283 of the pressure,
    double shear_depth = 0.0;     ///< at 0.786151 of the half width below the surface
};

/// 1/E* = (1 - ν₁²)/E₁ + (1 - ν₂²)/E₂; MPa.
double contact_modulus(const Material& a, const Material& b);

/// Square of the largest pressure, see line_contact; negative where the force is. S: double, or a Taylor.
template <class S>
S squared_pressure(const S& force, double length, const S& curvature, double modulus) {
    return modulus / (std::numbers::pi * length) * (force * curvature);
}

/// Two bodies whose curvatures (1/mm, hollow negative) sum to `curvature`, pressed by `force` N over `length`
/// mm: b = sqrt(4 F / (π L E* κ)), p = 2 F / (π b L) (Hertz 1881; Johnson, Contact Mechanics, section 4.2,
/// from memory). No force: all 0. Required: force >= 0, length > 0, curvature > 0, modulus > 0.
LineContact line_contact(double force, double length, double curvature, double modulus);

}  // namespace lobewright::profile
