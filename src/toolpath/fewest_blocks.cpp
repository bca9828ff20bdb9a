#include "toolpath/fewest_blocks.h"

#include <cassert>
#include <cstddef>
#include <optional>

namespace lobewright::toolpath {
namespace {

struct Line {
    Knot through;
    double slope = 0.0;
    [[nodiscard]] double at(double x) const { return through.value + slope * (x - through.at); }
};

Line line_through(Knot a, Knot b) {
    return {a, (b.value - a.value) / (b.at - a.at)};
}

/// A line with the points that hold it: the wall it turns on to the left, and to the right.
struct Held {
    Line line;
    Knot left;
    Knot right;
};

/// The wall's points that a line can still touch first, as a convex chain. sign +1: a floor (upper hull), -1:
/// a ceiling.
class Chain {
  public:
    explicit Chain(double sign) : sign_(sign) {}
    [[nodiscard]] bool empty() const { return first_ == points_.size(); }
    void add(Knot p) {
        while (points_.size() - first_ >= 2 && !turns_away(points_[points_.size() - 2], points_.back(), p)) {
            points_.pop_back();
        }
        points_.push_back(p);
    }
    /// The point of the chain on which a line through `p`, right of all of it, rests. Later lines rest no
    /// further left.
    Knot tangent_from(Knot p) {
        while (points_.size() - first_ >= 2 && sees_past(points_[first_], points_[first_ + 1], p))
            ++first_;
        return points_[first_];
    }

  private:
    [[nodiscard]] static double cross(Knot a, Knot b, Knot c) {
        return (b.at - a.at) * (c.value - a.value) - (b.value - a.value) * (c.at - a.at);
    }
    [[nodiscard]] bool turns_away(Knot a, Knot b, Knot c) const { return sign_ * cross(a, b, c) < 0.0; }
    /// The line from a to p would cut b.
    [[nodiscard]] bool sees_past(Knot a, Knot b, Knot p) const { return sign_ * cross(a, p, b) >= 0.0; }

    double sign_;
    std::vector<Knot> points_;
    std::size_t first_ = 0;
};

/// All lines that pass above every floor point and below every ceiling point given so far, by its two
/// extremes.
class Stabber {
  public:
    /// Required: x right of all points so far.
    void add_floor(Knot p) {
        if (!ceiling_.empty() && (!shallowest_ || shallowest_->line.at(p.at) < p.value)) {
            const Knot left = ceiling_.tangent_from(p);
            shallowest_ = Held{line_through(left, p), left, p};
        }
    }
    void add_ceiling(Knot p) {
        if (!floor_.empty() && (!steepest_ || steepest_->line.at(p.at) > p.value)) {
            const Knot left = floor_.tangent_from(p);
            steepest_ = Held{line_through(left, p), left, p};
        }
    }
    void keep_floor(Knot p) { floor_.add(p); }
    void keep_ceiling(Knot p) { ceiling_.add(p); }

    /// The extremal line when the tunnel bends up out of reach, or down.
    [[nodiscard]] bool blocked_by_floor(Knot p) const {
        return steepest_ && steepest_->line.at(p.at) < p.value;
    }
    [[nodiscard]] bool blocked_by_ceiling(Knot p) const {
        return shallowest_ && shallowest_->line.at(p.at) > p.value;
    }
    [[nodiscard]] const Held& steepest() const { return *steepest_; }
    [[nodiscard]] const Held& shallowest() const { return *shallowest_; }

    /// The mean of the extremes: a line well inside.
    [[nodiscard]] Line middle(double x) const {
        const Line& a = steepest_->line;
        const Line& b = shallowest_->line;
        return {{x, 0.5 * (a.at(x) + b.at(x))}, 0.5 * (a.slope + b.slope)};
    }

  private:
    Chain floor_{+1.0};
    Chain ceiling_{-1.0};
    std::optional<Held> steepest_;    // rests on the floor to the left, on the ceiling to the right
    std::optional<Held> shallowest_;  // the other way round
};

/// A piece of the path, and the chord on which the next one crosses it.
struct Piece {
    Line line;
    Knot support;
    Knot exit;
};

/// Where `line` leaves through the wall from a to b; it is inside at a, outside at b.
Knot exit_through(const Line& line, Knot a, Knot b) {
    const double inside = line.at(a.at) - a.value;
    const double outside = line.at(b.at) - b.value;
    const double share = inside / (inside - outside);
    const double at = share >= 0.0 && share <= 1.0 ? a.at + share * (b.at - a.at) : a.at;
    return {at, line.at(at)};
}

/// Runs one piece as far as it goes. `floor_from` and `ceiling_from` are the first points that it must keep.
class Run {
  public:
    Run(const std::vector<Gate>& gates) : gates_(gates) {}

    std::vector<Piece> pieces() {
        begin({gates_[0].at, gates_[0].low}, {gates_[0].at, gates_[0].high});
        std::size_t next = 1;
        std::vector<Piece> pieces;
        while (next < gates_.size()) {
            const Knot floor{gates_[next].at, gates_[next].low};
            const Knot ceiling{gates_[next].at, gates_[next].high};
            if (stabber_.blocked_by_floor(floor)) {
                const Held held = stabber_.steepest();
                pieces.push_back({held.line, held.right, exit_through(held.line, last_floor_, floor)});
                restart_on_ceiling(pieces.back(), next);
            } else if (stabber_.blocked_by_ceiling(ceiling)) {
                const Held held = stabber_.shallowest();
                pieces.push_back({held.line, held.right, exit_through(held.line, last_ceiling_, ceiling)});
                restart_on_floor(pieces.back(), next);
            }
            add(floor, ceiling);
            ++next;
        }
        pieces.push_back({stabber_.middle(gates_.back().at), {}, {}});
        return pieces;
    }

  private:
    void begin(Knot floor, Knot ceiling) {
        stabber_ = Stabber{};
        stabber_.keep_floor(last_floor_ = floor);
        stabber_.keep_ceiling(last_ceiling_ = ceiling);
    }
    void add(Knot floor, Knot ceiling) {
        stabber_.add_floor(floor);
        stabber_.add_ceiling(ceiling);
        stabber_.keep_floor(last_floor_ = floor);
        stabber_.keep_ceiling(last_ceiling_ = ceiling);
    }
    /// The tunnel bends up: the next piece keeps the ceiling from the support on, the floor from the exit on.
    void restart_on_ceiling(const Piece& piece, std::size_t next) {
        stabber_ = Stabber{};
        stabber_.keep_ceiling(last_ceiling_ = piece.support);
        std::size_t i = first_after(piece.support.at, next);
        for (; i < next && gates_[i].at < piece.exit.at; ++i) {
            stabber_.keep_ceiling(last_ceiling_ = {gates_[i].at, gates_[i].high});
        }
        stabber_.add_floor(piece.exit);
        for (; i < next; ++i)
            stabber_.keep_ceiling(last_ceiling_ = {gates_[i].at, gates_[i].high});
        stabber_.keep_floor(last_floor_ = piece.exit);
    }
    void restart_on_floor(const Piece& piece, std::size_t next) {
        stabber_ = Stabber{};
        stabber_.keep_floor(last_floor_ = piece.support);
        std::size_t i = first_after(piece.support.at, next);
        for (; i < next && gates_[i].at < piece.exit.at; ++i) {
            stabber_.keep_floor(last_floor_ = {gates_[i].at, gates_[i].low});
        }
        stabber_.add_ceiling(piece.exit);
        for (; i < next; ++i)
            stabber_.keep_floor(last_floor_ = {gates_[i].at, gates_[i].low});
        stabber_.keep_ceiling(last_ceiling_ = piece.exit);
    }
    [[nodiscard]] std::size_t first_after(double at, std::size_t next) const {
        std::size_t i = next;
        while (i > 0 && gates_[i - 1].at > at)
            --i;
        return i;
    }

    const std::vector<Gate>& gates_;
    Stabber stabber_;
    Knot last_floor_;
    Knot last_ceiling_;
};

/// Where the next piece crosses the chord of this one.
Knot joint(const Piece& piece, const Line& next) {
    const double from = next.at(piece.support.at) - piece.support.value;
    const double to = next.at(piece.exit.at) - piece.exit.value;
    const double share = from == to ? 0.5 : from / (from - to);
    const double at = piece.support.at +
                      (share >= 0.0 ? share <= 1.0 ? share : 1.0 : 0.0) * (piece.exit.at - piece.support.at);
    return {at, piece.line.at(at)};
}

}  // namespace

std::vector<Knot> fewest_pieces(const std::vector<Gate>& gates) {
    assert(gates.size() >= 2);
    const std::vector<Piece> pieces = Run(gates).pieces();
    std::vector<Knot> knots{{gates.front().at, pieces.front().line.at(gates.front().at)}};
    for (std::size_t i = 0; i + 1 < pieces.size(); ++i)
        knots.push_back(joint(pieces[i], pieces[i + 1].line));
    knots.push_back({gates.back().at, pieces.back().line.at(gates.back().at)});
    return knots;
}

}  // namespace lobewright::toolpath
