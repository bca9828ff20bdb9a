#include "profile/judge/hertz.h"

#include "catch.h"

using namespace lobewright;
using namespace lobewright::profile;

namespace {

constexpr double mpa_per_psi = 0.00689475729316836;
constexpr double n_per_lbf = 4.4482216152605;
constexpr double mm_per_inch = 25.4;

Material inch_steel(double young_psi, double poisson) {
    return {young_psi * mpa_per_psi, poisson};
}

}  // namespace

TEST_CASE("the largest shear is 0.300283 of the pressure, at 0.786151 of the half width") {
    // Half the difference of the stresses along the normal and across, largest where its slope vanishes: the
    // root of 1 - 2z/(1+z²)^½ + z³/(1+z²)^1.5 is the square root of the golden ratio's inverse, 0.78615138.
    const LineContact contact = line_contact(1000, 10, 0.1, contact_modulus({}, {}));
    CHECK_RELATIVE(contact.greatest_shear, 0.300283106 * contact.pressure, 1e-9);
    CHECK_RELATIVE(contact.shear_depth, std::sqrt((std::sqrt(5.0) - 1) / 2) * contact.half_width, 1e-9);
}

TEST_CASE("force is pressure over the elliptic band") {
    const LineContact contact = line_contact(750, 8, 0.07, contact_modulus({}, {105000, 0.26}));
    CHECK_RELATIVE(std::numbers::pi / 2 * contact.pressure * contact.half_width * 8, 750, 1e-12);
}

TEST_CASE("steel on steel in inches has the handbook's constant 2290") {
    // sqrt(E* / π) with E* = E / (2 (1 - ν²)): 2290.60; Machinery's Handbook prints 2290 (from memory).
    const Material steel = inch_steel(30e6, 0.3);
    const double psi =
        line_contact(n_per_lbf, mm_per_inch, 1 / mm_per_inch, contact_modulus(steel, steel)).pressure /
        mpa_per_psi;
    CHECK_NEAR(psi, 2290.60, 0.005);
}

TEST_CASE("steel and cast iron in SI have the derived constants") {
    // sqrt(E* / π), 1/E* = (1 - ν₁²)/E₁ + (1 - ν₂²)/E₂.
    const Material steel{207000, 0.3}, iron{105000, 0.26};
    CHECK_NEAR(line_contact(1, 1, 1, contact_modulus(steel, steel)).pressure, 190.27, 0.005);
    CHECK_NEAR(line_contact(1, 1, 1, contact_modulus(steel, iron)).pressure, 154.84, 0.005);
    CHECK_NEAR(line_contact(1, 1, 1, contact_modulus(iron, iron)).pressure, 133.88, 0.005);
}

TEST_CASE("Norton's example 7-2, a cylinder on a flat") {
    // Norton, Machine Design, 4th ed., ex. 7-2 (scribd 733678569): a .0518 in, pmax 70243 psi, depth .041 in;
    // its greatest shear of 21354 psi uses the factor .304; exact is
    // 21092.87 = .300283 x 70243.28.
    const Material steel = inch_steel(30e6, 0.28);
    const LineContact contact = line_contact(5000 * n_per_lbf, 0.875 * mm_per_inch, 1 / (6 * mm_per_inch),
                                             contact_modulus(steel, steel));
    CHECK_NEAR(contact.half_width / mm_per_inch, 0.051789, 5e-7);
    CHECK_NEAR(contact.pressure / mpa_per_psi, 70243, 0.5);
    CHECK_NEAR(contact.pressure / mpa_per_psi * std::numbers::pi / 4, 55169, 0.5);
    CHECK_NEAR(contact.greatest_shear / mpa_per_psi, 21092.87, 0.005);
    CHECK_NEAR(contact.shear_depth / mm_per_inch, 0.040714, 5e-7);
}

TEST_CASE("Brown's example 2, a roller on a flat, in inches and SI") {
    // Marks Calculations for Machine Design, p. 146: b² .0113, b .11 in; SI .0028 m (truncated; exact
    // .00285274).
    const Material steel = inch_steel(30e6, 0.3);
    const LineContact inch = line_contact(32500 * n_per_lbf, 4 * mm_per_inch, 1 / (18 * mm_per_inch),
                                          contact_modulus(steel, steel));
    CHECK_NEAR(std::pow(inch.half_width / mm_per_inch, 2), 0.0113, 5e-5);
    CHECK_NEAR(inch.half_width / mm_per_inch, 0.1062865, 5e-8);
    CHECK_NEAR(inch.pressure / mpa_per_psi, 48666, 0.5);
    const Material si_steel{210000, 0.3};
    const LineContact si = line_contact(147500, 100, 1 / 500.0, contact_modulus(si_steel, si_steel));
    CHECK_NEAR(si.half_width, 2.85274, 5e-6);
}

TEST_CASE("a nose of 13.7 instead of 6 mm eases a flat tappet by 34 percent") {
    // Dowson (th4.ilovetranslation.com/Tzk-557XIVr=d) prints 34 %; exact 33.822 %.
    const double modulus = contact_modulus({}, {});
    const double fall = 1 - line_contact(500, 10, 1 / 13.7, modulus).pressure /
                                line_contact(500, 10, 1 / 6.0, modulus).pressure;
    CHECK_NEAR(100 * fall, 33.822, 5e-4);
}

TEST_CASE("no force makes no contact") {
    const LineContact none = line_contact(0, 10, 0.1, contact_modulus({}, {}));
    CHECK(none.pressure == 0.0);
    CHECK(none.half_width == 0.0);
}
