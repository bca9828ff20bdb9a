#include "profile/motion/lift_area.h"

#include <boost/math/quadrature/gauss.hpp>

namespace lobewright::profile {

double lift_area(const std::vector<MotionPiece>& pieces) {
    constexpr int stretches = 16;
    double area = 0.0;
    for (const MotionPiece& piece : pieces) {
        if (piece.constant) {
            area += piece.at(piece.start).lift * (piece.end - piece.start);
            continue;
        }
        const auto lift = [&piece](double angle) { return piece.at(angle).lift; };
        const double step = (piece.end - piece.start) / stretches;
        for (int i = 0; i < stretches; ++i) {
            const double start = piece.start + i * step;
            area += boost::math::quadrature::gauss<double, 15>::integrate(lift, start, start + step);
        }
    }
    return area;
}

}  // namespace lobewright::profile
