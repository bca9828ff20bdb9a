/// Contours of closed forms, for tests of what comes after the profile.
#pragma once

#include "golden_section.h"

#include <lobewright/contour.h>

#include <algorithm>
#include <cmath>

namespace sampled_contour {

using namespace lobewright;

/// The least of f on a piece: the best of 2,000 samples, and the golden section beside it.
template <class F>
double least_on(const ContourPiece& piece, const F& f) {
    constexpr int samples = 2000;
    const double step = (piece.end - piece.start) / samples;
    double best = piece.start;
    for (int i = 1; i <= samples; ++i) {
        const double t = i == samples ? piece.end : piece.start + i * step;
        if (f(t) < f(best)) best = t;
    }
    const double low = std::max(piece.start, best - step), high = std::min(piece.end, best + step);
    return std::min(f(best), close_in(f, low, best, high, f(best), 60).second);
}

/// The contour with its extremes, of pieces smooth enough for samples.
inline Contour of(const std::vector<ContourPiece>& pieces) {
    double most_curved = 0.0, most_hollow = 0.0;
    ContourExtremes extremes;
    for (const ContourPiece& piece : pieces) {
        const auto curvature = [&piece](double t) { return piece.at(t).curvature; };
        const auto nearness = [&piece](double t) { return -length(piece.at(t).point); };
        most_hollow = std::min(most_hollow, least_on(piece, curvature));
        most_curved = std::max(most_curved, -least_on(piece, [&](double t) { return -curvature(t); }));
        extremes.largest_radius = std::max(extremes.largest_radius, -least_on(piece, nearness));
    }
    extremes.smallest_convex_radius = 1.0 / most_curved;
    if (most_hollow < 0.0) extremes.smallest_hollow_radius = -1.0 / most_hollow;
    return Contour(pieces, extremes);
}

}  // namespace sampled_contour
