#include "basalt.h"

using namespace lobewright;

// The aim: solving a whole shaft takes a few milliseconds; a point of a contour well under a microsecond.
TEST_CASE("solving lobes, and asking their contours", "[profile]") {
    const Job four = basalt::four();
    BENCHMARK("solve the Basalt four") {
        return solve_lobes(four).ok();
    };

    const SolvedLobe arcs = basalt::solved(basalt::arcs_with_nose(12.0, 4.0, 130.0, 3.0), basalt::flat());
    const SolvedLobe flat = basalt::solved(basalt::lopsided(20.0), basalt::flat());
    const SolvedLobe arm =
        basalt::solved(basalt::lopsided(20.0), basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw));
    const Job arm_job = basalt::job(basalt::lopsided(20.0), basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw));
    BENCHMARK("solve a lobe under an arm") {
        return solve_lobes(arm_job).ok();
    };
    for (const auto& [name, lobe] :
         {std::pair{"arcs", &arcs}, std::pair{"flat", &flat}, std::pair{"arm", &arm}}) {
        const ContourPiece& piece = lobe->contour.pieces().front();
        const double middle = 0.4 * piece.start + 0.6 * piece.end;
        BENCHMARK(std::string("a contour's point, ") + name) {
            return piece.at(middle).point.x;
        };
        BENCHMARK(std::string("a ray's spot, ") + name) {
            return lobe->contour.on_ray(ShaftAngle::from_radians(0.3)).at.point.x;
        };
        BENCHMARK(std::string("a contact, ") + name) {
            return contact_at(*lobe, CamAngle::from_degrees(-30.0)).contact.point.x;
        };
    }
}
