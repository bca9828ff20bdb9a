#include "profile/judge/joint_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

JointSteps steps_of(const std::vector<MotionPiece>& pieces, double Lift::*derivative) {
    const auto at = [derivative](const MotionPiece& piece, double angle) {
        return piece.at(angle).*derivative;
    };
    constexpr int samples = 16;
    double size = 0.0;
    for (const MotionPiece& piece : pieces) {
        for (int i = 0; i <= samples; ++i)
            size = std::max(size, std::abs(at(piece, piece.start + (piece.end - piece.start) * i / samples)));
    }
    JointSteps steps;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const MotionPiece& before = pieces[(i + pieces.size() - 1) % pieces.size()];
        const double step = std::abs(at(pieces[i], pieces[i].start) - at(before, before.end));
        if (step <= seen * size) continue;
        ++steps.joints;
        if (step > steps.largest * (1.0 + seen)) {
            steps.largest = step;
            steps.at = CamAngle::from_radians(pieces[i].start);
        }
    }
    return steps;
}

}  // namespace

JointSteps velocity_steps(const std::vector<MotionPiece>& pieces) {
    return steps_of(pieces, &Lift::velocity);
}

JointSteps acceleration_steps(const std::vector<MotionPiece>& pieces) {
    return steps_of(pieces, &Lift::acceleration);
}

}  // namespace lobewright::profile
