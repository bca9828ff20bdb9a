/// A motion profile as pieces over the period: base circle, ramp, law, dwell, law, ramp, base circle.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <string>
#include <vector>

namespace lobewright::profile {

/// From the start of the opening ramp to the end of the closing ramp, α = 0 in the middle of the dwell; what
/// is continuous where stands at MotionProfile.
std::vector<MotionPiece> law_event(const MotionProfile& profile);

/// Constant speed of a ramp, mm/rad: r / (0.875 R).
double ramp_speed(const Ramp& ramp);

/// A ramp from the base circle, θ = 0, on to θ = `end`: its quarter with growing speed, then its run. Named
/// `name`. Required: `end` is past the quarter.
std::vector<MotionPiece> ramp_pieces(const std::string& name, const Ramp& ramp, double end);
/// The lift of a ramp's run is its speed times θ less this much.
double ramp_delay(const Ramp& ramp);

/// A law over `angle` from θ = `start`, lifting from `from` to `to` > from and carrying on a ramp's `speed`
/// that it starts with: a piece between any two joints. Named `name`.
struct LawRise {
    LawKind law = LawKind::polynomial_345;
    std::vector<int> powers;
    double start = 0.0;
    double angle = 0.0;
    double from = 0.0;
    double to = 0.0;
    double speed = 0.0;
};
std::vector<MotionPiece> rise_pieces(const std::string& name, const LawRise& rise);

/// Fills the rest of the period with the base circle and cuts at ±period/2 what crosses there.
/// Required: `event` joins end to end and is no longer than the period.
std::vector<MotionPiece> around_period(const std::vector<MotionPiece>& event, double period);

}  // namespace lobewright::profile
