#include "lobe_curve.h"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright {

LobeCurve::LobeCurve(const SolvedLobe& lobe) : lobe_(lobe) {
    const double step = CamAngle::from_degrees(0.5).radians();
    constexpr double inside = 1e-10;  // radians from a piece's end, so that the value is this piece's own
    for (const MotionPiece& stretch : lobe.motion.pieces()) {
        const double start = stretch.start + inside;
        const double length = stretch.end - inside - start;
        if (length <= 0.0) continue;
        const int parts = std::max(16, static_cast<int>(std::ceil(length / step)));
        Piece piece{stretch.start, stretch.end, {}, {}};
        for (int i = 0; i <= parts; ++i) {
            piece.angles.push_back(start + length * i / parts);
            piece.contacts.push_back(contact_at(lobe, CamAngle::from_radians(piece.angles.back())));
        }
        pieces_.push_back(std::move(piece));
    }
}

FigureAt LobeCurve::least(const Quantity& quantity) const {
    FigureAt best{std::numeric_limits<double>::infinity(), {}};
    // Differences in the last bits are none: of equal values the first stays, and level ground is no dip.
    const auto below = [](double a, double b) { return a < b - 1e-13 * std::abs(b); };
    const auto consider = [&](double angle, double value) {
        if (best.value == std::numeric_limits<double>::infinity() || below(value, best.value)) {
            best = {value, CamAngle::from_radians(angle)};
        }
    };
    const auto at = [&](double angle) { return quantity(contact_at(lobe_, CamAngle::from_radians(angle))); };
    for (const Piece& piece : pieces_) {
        std::vector<double> values;
        for (const FollowerContact& contact : piece.contacts)
            values.push_back(quantity(contact));
        const std::size_t last = values.size() - 1;
        consider(piece.start, values.front());
        for (std::size_t i = 1; i < last; ++i) {
            const bool dips = values[i] <= values[i - 1] && values[i] <= values[i + 1] &&
                              (below(values[i], values[i - 1]) || below(values[i], values[i + 1]));
            if (!dips) continue;
            constexpr int bits = std::numeric_limits<double>::digits / 2;
            const auto [angle, value] =
                boost::math::tools::brent_find_minima(at, piece.angles[i - 1], piece.angles[i + 1], bits);
            consider(angle, value);
        }
        consider(piece.end, values.back());
    }
    return best;
}

FigureAt LobeCurve::largest(const Quantity& quantity) const {
    FigureAt found = least([&quantity](const FollowerContact& contact) { return -quantity(contact); });
    found.value = -found.value;
    return found;
}

}  // namespace lobewright
