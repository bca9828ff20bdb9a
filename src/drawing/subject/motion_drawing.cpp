#include "base/elementary/elementary.h"
#include "base/text/length_text.h"
#include "base/whole_steps.h"
#include "drawing/subject/subjects.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace lobewright {
namespace drawing {
namespace {

constexpr double plot_width = 160.0, plot_height = 38.0, plot_pitch = 55.0;  // mm of paper
constexpr double per_degree = full_turn / 360.0;

/// One curve: its name, its unit, and its value in that unit.
struct Curve {
    std::string name;
    std::function<double(const Lift&)> value;
};

std::vector<Curve> curves_in(Units units) {
    const double unit = mm_per(units);
    const std::string word = unit_word(units);
    const auto per = [unit](double Lift::*member, int power) {
        double factor = 1.0 / unit;
        for (int i = 0; i < power; ++i)
            factor *= per_degree;
        return [member, factor](const Lift& lift) { return lift.*member * factor; };
    };
    return {{"lift, " + word, per(&Lift::lift, 0)},
            {"velocity, " + word + " per degree", per(&Lift::velocity, 1)},
            {"acceleration, " + word + " per degree²", per(&Lift::acceleration, 2)},
            {"jerk, " + word + " per degree³", per(&Lift::jerk, 3)}};
}

/// A stretch of one piece, sampled for the eye; at a joint both sides are drawn.
struct Sampled {
    std::vector<double> degrees;
    std::vector<Lift> lifts;
};
std::vector<Sampled> sampled(const Motion& motion) {
    std::vector<Sampled> pieces;
    for (const MotionPiece& piece : motion.pieces()) {
        const int steps =
            std::max(2, static_cast<int>(step_above((piece.end - piece.start) / (0.5 * per_degree))));
        Sampled points;
        for (int i = 0; i <= steps; ++i) {
            const double angle = piece.start + (piece.end - piece.start) * i / steps;
            points.degrees.push_back(angle / per_degree);
            points.lifts.push_back(piece.at(angle));
        }
        pieces.push_back(std::move(points));
    }
    return pieces;
}

/// 1, 2 or 5 times a power of ten, so that at most five steps cover the range.
double usual_step(double range) {
    const double ten = elementary::power(10.0, elementary::decimal_exponent(range) - 1);
    for (const double part : {1.0, 2.0, 5.0, 10.0, 20.0})
        if (range <= 5.0 * part * ten) return part * ten;
    return 50.0 * ten;
}

struct Range {
    double low = 0.0, high = 0.0;
};
Range range_of(const std::vector<Sampled>& pieces, const Curve& curve) {
    Range range;
    for (const Sampled& piece : pieces) {
        for (const Lift& lift : piece.lifts) {
            range.low = std::min(range.low, curve.value(lift));
            range.high = std::max(range.high, curve.value(lift));
        }
    }
    if (range.high - range.low <= 0.0) range.high = 1.0;
    return range;
}

/// One plot, its lower left corner at `corner`.
struct Plot {
    Vec2 corner;
    double half_turn;  ///< degrees from the middle to the edge
    Range range;
    DrawingBoard& board;

    [[nodiscard]] Vec2 place(double degrees, double value) const {
        return corner + Vec2{plot_width * (degrees + half_turn) / (2.0 * half_turn),
                             plot_height * (value - range.low) / (range.high - range.low)};
    }
};

void draw_axes(const Plot& plot, const Curve& curve) {
    const double step = usual_step(plot.range.high - plot.range.low);
    for (long long i = step_above(plot.range.low / step); i <= step_below(plot.range.high / step); ++i) {
        const double value = static_cast<double>(i) * step;
        plot.board.line(plot.place(-plot.half_turn, value), plot.place(plot.half_turn, value),
                        i == 0 ? Pen::thin : Pen::dimension);
        plot.board.text(plot.place(-plot.half_turn, value) - Vec2{2.0, 1.0}, shortest_fixed(value, 9),
                        Anchor::end, small_height);
    }
    const double every = plot.half_turn > 90.0 ? 30.0 : 10.0;
    for (long long i = step_above(-plot.half_turn / every); i <= step_below(plot.half_turn / every); ++i) {
        const Vec2 foot = plot.place(static_cast<double>(i) * every, plot.range.low);
        plot.board.line(foot, foot - Vec2{0.0, 1.5}, Pen::dimension);
        plot.board.text(foot - Vec2{0.0, 5.0}, shortest_fixed(static_cast<double>(i) * every, 0),
                        Anchor::middle, small_height);
    }
    plot.board.text(plot.corner + Vec2{0.0, plot_height + 2.0}, curve.name);
}

void draw_curve(const Plot& plot, const std::vector<Sampled>& pieces, const Curve& curve) {
    DrawnChain chain;
    for (const Sampled& piece : pieces) {
        for (std::size_t i = 0; i < piece.lifts.size(); ++i) {
            if (std::abs(piece.degrees[i]) <= plot.half_turn)
                chain.points.push_back({plot.place(piece.degrees[i], curve.value(piece.lifts[i]))});
        }
    }
    plot.board.chain(std::move(chain));
}

/// Where the plots end: the lifted part and a little of the base circle, whole tens of degrees.
double shown_half_turn(const SolvedLobe& lobe) {
    double last = 0.0;
    for (const MotionPiece& piece : lobe.motion.pieces()) {
        if (piece.constant && std::abs(piece.at(piece.start).lift) < 1e-9) continue;
        last = std::max({last, std::abs(piece.start), std::abs(piece.end)});
    }
    const double most = lobe.motion.period().degrees() / 2.0;
    return std::min(most, 10.0 * static_cast<double>(step_above(last / per_degree / 10.0)) + 10.0);
}

}  // namespace
}  // namespace drawing

Drawing motion_drawing(const Job& job, const SolvedLobe& lobe) {
    using namespace drawing;
    const std::vector<Sampled> pieces = sampled(lobe.motion);
    const double half_turn = shown_half_turn(lobe);
    DrawingBoard board;
    double y = 0.0;
    for (const Curve& curve : curves_in(job.units)) {
        const Plot plot{{0.0, y}, half_turn, range_of(pieces, curve), board};
        draw_axes(plot, curve);
        draw_curve(plot, pieces, curve);
        y -= plot_pitch;
    }
    add_title_block(board,
                    {job.title,
                     "motion of the follower, lobe " + lobe.name,
                     {"over the cam angle in degrees; 0 is the peak, before it the valve opens"},
                     false},
                    1.0);
    return board.finished(job.title + ": motion, lobe " + lobe.name, 1.0, job.units);
}

}  // namespace lobewright
