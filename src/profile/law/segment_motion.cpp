#include "profile/law/segment_motion.h"

#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"

#include <algorithm>

namespace lobewright::profile {
namespace {

/// A segment with its place: radians from the first one's start, mm.
struct Placed {
    const Segment& segment;
    double start = 0.0;
    double end = 0.0;
    double from = 0.0;
    double to = 0.0;
};

std::vector<Placed> placed(const SegmentsProfile& profile) {
    std::vector<Placed> all;
    double angle = 0.0, lift = 0.0;
    for (const Segment& segment : profile.segments) {
        const double end = angle + segment.over.radians(), to = segment.to.value_or(lift);
        all.push_back({segment, angle, end, lift, to});
        angle = end, lift = to;
    }
    return all;
}

/// Middle of the first stay at the greatest lift, or where it is first touched.
double first_peak(const std::vector<Placed>& segments) {
    const auto top = std::max_element(segments.begin(), segments.end(),
                                      [](const Placed& a, const Placed& b) { return a.to < b.to; });
    const auto leaves = std::find_if(top + 1, segments.end(), [](const Placed& p) { return p.to != p.from; });
    return 0.5 * (top->end + (leaves == segments.end() ? segments.back().end : leaves->start));
}

std::vector<MotionPiece> pieces_of(const Placed& p) {
    if (p.to == p.from) return {standing_piece(p.to == 0.0 ? "base circle" : "dwell", p.start, p.end, p.to)};
    const LawRise rise{p.segment.law,          p.segment.powers,       0.0, p.end - p.start,
                       std::min(p.from, p.to), std::max(p.from, p.to), 0.0};
    std::vector<MotionPiece> pieces = rise_pieces(p.to > p.from ? "rise" : "fall", rise);
    if (p.to < p.from) std::reverse(pieces.begin(), pieces.end());
    for (MotionPiece& piece : pieces)
        piece = p.to > p.from ? recounted(piece, 1.0, p.start) : recounted(piece, -1.0, p.end);
    return pieces;
}

bool on_base_circle(const Placed& p) {
    return p.from == 0.0 && p.to == 0.0;
}

}  // namespace

std::vector<MotionPiece> segment_event(const SegmentsProfile& profile) {
    std::vector<Placed> segments = placed(profile);
    const double zero = first_peak(segments);
    while (on_base_circle(segments.back()))
        segments.pop_back();
    std::vector<MotionPiece> event;
    for (const Placed& segment : segments) {
        if (event.empty() && on_base_circle(segment)) continue;
        for (const MotionPiece& piece : pieces_of(segment)) {
            event.push_back(recounted(piece, 1.0, -zero));
            if (event.size() > 1) event.back().start = event[event.size() - 2].end;
        }
    }
    return event;
}

}  // namespace lobewright::profile
