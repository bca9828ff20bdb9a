#include "profile/follower/lobe_curve.h"

#include "base/elementary/elementary.h"
#include "profile/roots.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::profile {
namespace {

using Figure = LobeCurve::Figure;

/// The lift's `order`th derivative as a figure.
Figure derivative(const LiftBounds& bounds, std::size_t order) {
    Figure figure;
    figure.c = {bounds[order], bounds[order + 1], 0.5 * bounds[order + 2]};
    return figure;
}

double value_of(const Figure& at_angle) {
    return at_angle.c[0].low;
}
double slope_of_value(const Figure& at_angle) {
    return at_angle.c[1].low;
}

bool keeps_sign(const Interval& bounds) {
    return bounds.low >= 0.0 || bounds.high <= 0.0;
}

}  // namespace

ContactFrame::ContactFrame(const Follower& follower, double base, Sense turns)
    : face(flat_part(follower, base)), sense(sign_of(turns)), round(round_part(follower, base)) {}

LobeCurve::Contact::Contact(const ContactFrame& frame, const LiftBounds& bounds, std::optional<double> arc)
    : ContactFigures<Figure>(frame, derivative(bounds, 0), derivative(bounds, 1), derivative(bounds, 2),
                             derivative(bounds, 3)),
      arc_curvature(arc) {}

/// A stretch of a piece with the contact in its middle and its bounds all over, and, once asked for, its
/// halves: what one extreme has worked out serves the next.
struct LobeCurve::Span {
    Span(const LobeCurve& curve, std::size_t of_piece, const Interval& between)
        : piece(of_piece),
          angles(between),
          in_middle(curve.pieces_[piece].within(angles.middle())),
          middle(curve.frame_, in_middle, curve.pieces_[piece].curvature),
          whole(curve.frame_, tight_bounds(curve.pieces_[piece], angles, in_middle),
                curve.pieces_[piece].curvature) {}

    void halve(const LobeCurve& curve) {
        if (before) return;
        before = std::make_unique<Span>(curve, piece, Interval{angles.low, angles.middle()});
        after = std::make_unique<Span>(curve, piece, Interval{angles.middle(), angles.high});
    }

    std::size_t piece;
    Interval angles;
    LiftBounds in_middle;
    Contact middle, whole;
    std::unique_ptr<Span> before, after;
};

/// A monotone part, with the contacts at its ends.
struct LobeCurve::Part {
    Phase phase;
    std::unique_ptr<Span> span;
    Contact start, end;
};

/// The search for one largest value, in the order of time.
class LobeCurve::Search {
  public:
    Search(const LobeCurve& curve, const Quantity& quantity) : curve_(curve), quantity_(quantity) {}

    void take(const Part& part) {
        const Span& span = *part.span;
        add({span.piece, span.angles.low, value_of(quantity_(part.start))});
        explore(*part.span);
        add({span.piece, span.angles.high, value_of(quantity_(part.end))});
    }

    /// A part of a piece that no other search will ask for.
    void take(std::size_t piece, const Interval& angles) {
        Span span(curve_, piece, angles);
        add({piece, angles.low, value_of(quantity_(curve_.contact(piece, angles.low)))});
        explore(span);
        add({piece, angles.high, value_of(quantity_(curve_.contact(piece, angles.high)))});
    }

    [[nodiscard]] Extreme found() const {
        if (places_.empty()) return {};
        const auto first = std::find_if(places_.begin(), places_.end(), [this](const Value& place) {
            return place.value >= best_.value - same * size_;
        });
        const Value& found = first == places_.end() ? best_ : *first;
        Extreme extreme{{found.value, CamAngle::from_radians(found.angle)}, found.piece, found.angle};
        if (best_.value - lowest_ <= same * size_) extreme.figure.at.reset();
        return extreme;
    }

  private:
    struct Value {
        std::size_t piece = 0;
        double angle = 0.0;
        double value = -std::numeric_limits<double>::infinity();
    };

    /// A value that is there.
    void see(const Value& there) {
        if (there.value > best_.value) best_ = there;
        lowest_ = std::min(lowest_, there.value);
        if (std::isfinite(there.value)) size_ = std::max(size_, std::abs(there.value));
    }
    /// One that may be the largest, where it is a place to name.
    void add(const Value& there) {
        see(there);
        places_.push_back(there);
    }

    void explore(Span& span) {
        const Figure bounds = quantity_(span.whole);
        if (beaten(bounds.c[0].high) || largest_at_an_end(bounds)) return;
        const Figure middle = quantity_(span.middle);
        const Value there{span.piece, span.angles.middle(), value_of(middle)};
        see(there);
        const double half = 0.5 * span.angles.width();
        const double highest =
            std::min(bounds.c[0].high, there.value + half * std::abs(slope_of_value(middle)) +
                                           half * half * std::max(0.0, bounds.c[2].high));
        const Interval slope = slope_of_value(middle) + 2.0 * (Interval{-half, half} * bounds.c[2]);
        if (beaten(highest) || keeps_sign(slope)) return;
        if (bounds.c[2].high < 0.0) return climb(span);
        if (highest - there.value <= margin * size_ || span.angles.width() < shortest) return add(there);
        span.halve(curve_);
        explore(*span.before);
        explore(*span.after);
    }

    [[nodiscard]] bool beaten(double highest) const { return highest < best_.value - same * size_; }

    /// Every end of a stretch is seen: it is a part's, or the middle of what was halved.
    static bool largest_at_an_end(const Figure& bounds) {
        return keeps_sign(bounds.c[1]) || bounds.c[2].low >= 0.0;
    }

    /// The slope only falls: at its root is the largest value.
    void climb(const Span& span) {
        const auto slope = [&](double angle) {
            return slope_of_value(quantity_(curve_.contact(span.piece, angle)));
        };
        if (!(slope(span.angles.low) > 0.0 && slope(span.angles.high) < 0.0)) return;
        const double top = root_of(slope, span.angles.low, span.angles.high);
        add({span.piece, top, value_of(quantity_(curve_.contact(span.piece, top)))});
    }

    const LobeCurve& curve_;
    const Quantity& quantity_;
    Value best_;
    double lowest_ = std::numeric_limits<double>::infinity();
    double size_ = 0.0;
    std::vector<Value> places_;
};

/// The search for stretches above a level, in the order of time.
class LobeCurve::LevelSearch {
  public:
    LevelSearch(const LobeCurve& curve, const Quantity& quantity, double level)
        : curve_(curve), quantity_(quantity), level_(level) {}

    void explore(Span& span) {
        const Figure bounds = quantity_(span.whole);
        const Interval& angles = span.angles;
        if (bounds.c[0].low > level_) return add(angles);
        if (bounds.c[0].high <= level_) return;
        if (keeps_sign(bounds.c[1])) return cross(span);
        if (angles.width() < shortest) {
            if (value_of(quantity_(span.middle)) > level_) add(angles);
            return;
        }
        span.halve(curve_);
        explore(*span.before);
        explore(*span.after);
    }

    [[nodiscard]] std::vector<Interval> found() { return std::move(found_); }

  private:
    /// The value only grows, or only falls.
    void cross(const Span& span) {
        const Interval& angles = span.angles;
        const auto over = [&](double angle) {
            return value_of(quantity_(curve_.contact(span.piece, angle))) - level_;
        };
        const bool starts = over(angles.low) > 0.0, ends = over(angles.high) > 0.0;
        if (starts && ends) return add(angles);
        if (!starts && !ends) return;
        const double edge = root_of(over, angles.low, angles.high);
        add(starts ? Interval{angles.low, edge} : Interval{edge, angles.high});
    }

    void add(const Interval& angles) {
        if (!found_.empty() && angles.low - found_.back().high <= shortest)
            found_.back().high = angles.high;
        else
            found_.push_back(angles);
    }

    const LobeCurve& curve_;
    const Quantity& quantity_;
    double level_;
    std::vector<Interval> found_;
};

LobeCurve::LobeCurve(const std::vector<MotionPiece>& pieces, const Follower& follower, double base_radius,
                     Sense turns)
    : pieces_(pieces), frame_(follower, base_radius, turns) {
    for (const MonotonePart& part : monotone_parts(pieces)) {
        parts_.push_back({part.phase, std::make_unique<Span>(*this, part.piece, part.angles),
                          contact(part.piece, part.angles.low), contact(part.piece, part.angles.high)});
    }
}
LobeCurve::~LobeCurve() = default;

LobeCurve::Contact LobeCurve::contact(std::size_t piece, double angle) const {
    return {frame_, pieces_[piece].within(angle), pieces_[piece].curvature};
}

LobeCurve::Extreme LobeCurve::find_largest(const Quantity& quantity, std::optional<Phase> phase) const {
    Search all(*this, quantity);
    for (const Part& part : parts_) {
        if (!phase || part.phase == *phase) all.take(part);
    }
    return all.found();
}

FigureAt LobeCurve::largest_on(const Quantity& quantity, const std::vector<Interval>& stretches) const {
    Search all(*this, quantity);
    for (const Part& part : parts_) {
        for (const Interval& stretch : stretches) {
            const Interval angles{std::max(stretch.low, part.span->angles.low),
                                  std::min(stretch.high, part.span->angles.high)};
            if (angles.low <= angles.high) all.take(part.span->piece, angles);
        }
    }
    return all.found().figure;
}

std::vector<Interval> LobeCurve::above(const Quantity& quantity, double level) const {
    LevelSearch search(*this, quantity, level);
    for (const Part& part : parts_)
        search.explore(*part.span);
    return search.found();
}

FigureAt LobeCurve::largest(const Quantity& quantity, std::optional<Phase> phase) const {
    return find_largest(quantity, phase).figure;
}

FigureAt LobeCurve::least(const Quantity& quantity, std::optional<Phase> phase) const {
    FigureAt found = largest([&quantity](const Contact& contact) { return -quantity(contact); }, phase);
    found.value = 0.0 - found.value;  // no "-0"
    return found;
}

FigureAt LobeCurve::farthest(const Quantity& quantity, std::optional<Phase> phase) const {
    const FigureAt high = largest(quantity, phase), low = least(quantity, phase);
    const double difference = std::abs(low.value) - std::abs(high.value);
    if (std::abs(difference) > same * std::abs(high.value)) return difference > 0.0 ? low : high;
    return low.at && high.at && *low.at < *high.at ? low : high;
}

FigureAt LobeCurve::largest_quotient(const Quantity& numerator, const Quantity& denominator) const {
    constexpr int most_steps = 60;  // each gains digits at a growing rate, five or six do
    const double size = std::abs(farthest(numerator).value);
    FigureAt quotient;
    for (int step = 0; step < most_steps; ++step) {
        const auto rest = [&](const Contact& contact) {
            return numerator(contact) - quotient.value * denominator(contact);
        };
        const Extreme most = find_largest(rest);
        if (!(most.figure.value > margin * size)) break;
        const Contact there = contact(most.piece, most.angle);
        quotient.at = CamAngle::from_radians(most.angle);
        if (!(value_of(denominator(there)) > 0.0)) {
            quotient.value = std::numeric_limits<double>::infinity();
            break;
        }
        quotient.value = value_of(numerator(there)) / value_of(denominator(there));
    }
    return quotient;
}

FigureAt farthest_pressure_angle(const LobeCurve& curve, std::optional<Phase> phase) {
    FigureAt farthest =
        curve.farthest([](const LobeCurve::Contact& contact) { return contact.pressure_tangent(); }, phase);
    farthest.value = elementary::atan(farthest.value);
    return farthest;
}

}  // namespace lobewright::profile
