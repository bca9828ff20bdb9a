#include "basalt.h"
#include "profile/follower/lobe_curve.h"

#include <cmath>
#include <numbers>

using namespace lobewright;
using profile::LobeCurve;

namespace {

using Contact = const LobeCurve::Contact&;

LobeCurve::Figure lift(Contact contact) {
    return contact.lift;
}
double in_degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}
LobeCurve curve_of(const SolvedLobe& lobe) {
    return {lobe.motion.pieces(), lobe.follower, lobe.base_radius, lobe.turns};
}

}  // namespace

TEST_CASE("a harmonic rise and fall stands above half its lift over half its angle") {
    const SolvedLobe lobe =
        basalt::solved(basalt::law(LawKind::simple_harmonic, 20.0, 2.0, 80.0, 60.0), basalt::endless_flat());
    const auto above = curve_of(lobe).above(lift, 1.0);
    REQUIRE(above.size() == 1);
    CHECK_THAT(in_degrees(above[0].low), Near(-40.0, 1e-9));
    CHECK_THAT(in_degrees(above[0].high), Near(30.0, 1e-9));
    CHECK(curve_of(lobe).above(lift, 2.5).empty());
    const auto all = curve_of(lobe).above(lift, -1.0);
    REQUIRE(all.size() == 1);
    CHECK_THAT(in_degrees(all[0].high - all[0].low), Near(360.0, 1e-9));
}

TEST_CASE("a spike a fiftieth of a degree wide is a stretch of its own above a level between foot and top") {
    SegmentsProfile profile;
    profile.base_radius = 12.0;
    const auto to = [](double degrees, double high) {
        return Segment{CamAngle::from_degrees(degrees), high, LawKind::cycloidal, {}};
    };
    const Segment stay{CamAngle::from_degrees(40.003), std::nullopt, LawKind::cycloidal, {}};
    profile.segments = {to(60.0, 2.0), to(60.0, 0.0), stay, to(0.01, 0.001), to(0.01, 0.0)};
    const SolvedLobe lobe = basalt::solved(profile, basalt::knife());
    const auto above = curve_of(lobe).above(lift, 0.0005);
    REQUIRE(above.size() == 2);
    CHECK_THAT(in_degrees(above[1].low), Near(100.008, 1e-9));
    CHECK_THAT(in_degrees(above[1].high), Near(100.018, 1e-9));
}

TEST_CASE("the largest on stretches is the one of these stretches, their ends included") {
    const SolvedLobe lobe =
        basalt::solved(basalt::law(LawKind::simple_harmonic, 20.0, 2.0, 80.0, 60.0), basalt::endless_flat());
    const auto curve = curve_of(lobe);
    const double degree = std::numbers::pi / 180.0;
    const FigureAt beside = curve.largest_on(lift, {{-80.0 * degree, -40.0 * degree}});
    CHECK_THAT(beside.value, Near(1.0, 1e-12));
    REQUIRE(beside.at);
    CHECK_THAT(beside.at->degrees(), Near(-40.0, 1e-9));
    const FigureAt over =
        curve.largest_on(lift, {{-80.0 * degree, -40.0 * degree}, {-1.0 * degree, 1.0 * degree}});
    CHECK_THAT(over.value, Near(2.0, 1e-12));
    REQUIRE(over.at);
    CHECK_THAT(over.at->degrees(), Near(0.0, 1e-6));
}
