#include "profile/shape/arc_ramps.h"

#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"

#include <algorithm>

namespace lobewright::profile {
namespace {

std::vector<MotionPiece> run_backwards(std::vector<MotionPiece> event) {
    for (MotionPiece& piece : event)
        piece = recounted(piece, -1.0, 0.0);
    std::reverse(event.begin(), event.end());
    return event;
}

/// Where the flank first runs that fast; nothing where it never does.
std::optional<double> place_of_speed(const MotionPiece& flank, double speed) {
    const auto excess = [&](double angle) { return flank.at(angle).velocity - speed; };
    const double whole = flank.end - flank.start;
    const int parts = parts_of(whole);
    double before = flank.start;
    if (!(excess(before) < 0.0)) return std::nullopt;
    for (int i = 1; i <= parts; ++i) {
        const double there = i == parts ? flank.end : flank.start + whole * i / parts;
        if (excess(there) >= 0.0) return root_of(excess, before, there);
        before = there;
    }
    return std::nullopt;
}

double top_speed(const MotionPiece& flank) {
    double fastest = 0.0;
    const int parts = parts_of(flank.end - flank.start);
    for (int i = 0; i <= parts; ++i)
        fastest = std::max(fastest, flank.at(flank.start + (flank.end - flank.start) * i / parts).velocity);
    return fastest;
}

/// Puts the ramp before the event's first flank; false where that never runs as fast.
bool put_ramp(std::vector<MotionPiece>& event, const Ramp& ramp, const std::string& name) {
    MotionPiece& flank = event.front();
    const double speed = ramp_speed(ramp);
    const auto meets = place_of_speed(flank, speed);
    if (!meets) return false;
    const double run = flank.at(*meets).lift / speed + ramp_delay(ramp);
    std::vector<MotionPiece> pieces = ramp_pieces(name, ramp, run);
    flank.start = *meets;
    for (MotionPiece& piece : pieces)
        piece = recounted(piece, 1.0, *meets - run);
    pieces.back().end = *meets;
    event.insert(event.begin(), pieces.begin(), pieces.end());
    return true;
}

}  // namespace

std::variant<std::vector<MotionPiece>, ArcRampTooFast> with_ramps(const std::vector<MotionPiece>& event,
                                                                  const ArcRamps& ramps) {
    std::vector<MotionPiece> whole = event;
    const auto too_fast = [&](bool opening) {
        const double speed = top_speed(whole.front());
        return ArcRampTooFast{opening, ramps.lift / (0.875 * speed)};
    };
    if (!put_ramp(whole, {ramps.lift, ramps.opening}, "opening ramp")) return too_fast(true);
    whole = run_backwards(std::move(whole));
    if (!put_ramp(whole, {ramps.lift, ramps.closing}, "closing ramp")) return too_fast(false);
    return run_backwards(std::move(whole));
}

}  // namespace lobewright::profile
