#include "toolpath/tunnel/fewest_blocks.h"

#include <algorithm>
#include <cassert>

namespace lobewright::toolpath {
namespace {

StraightLine line_through(Knot a, Knot b) {
    return {a, (b.value - a.value) / (b.at - a.at)};
}

double cross(Knot a, Knot b, Knot c) {
    return (b.at - a.at) * (c.value - a.value) - (b.value - a.value) * (c.at - a.at);
}

/// Where `line` leaves through the wall from a to b; it is inside at a, outside at b.
Knot exit_through(const StraightLine& line, Knot a, Knot b) {
    const double inside = line.at(a.at) - a.value;
    const double outside = line.at(b.at) - b.value;
    const double share = inside / (inside - outside);
    const double at = share >= 0.0 && share <= 1.0 ? a.at + share * (b.at - a.at) : a.at;
    return {at, line.at(at)};
}

}  // namespace

void Chain::add(Knot p) {
    const auto bends_back = [&] {
        return sign_ * cross(points_[points_.size() - 2], points_.back(), p) >= 0.0;
    };
    while (points_.size() - first_ >= 2 && bends_back())
        points_.pop_back();
    points_.push_back(p);
}

Knot Chain::tangent_from(Knot p) {
    const auto cuts_next = [&] { return sign_ * cross(points_[first_], p, points_[first_ + 1]) >= 0.0; };
    while (points_.size() - first_ >= 2 && cuts_next())
        ++first_;
    return points_[first_];
}

void Sight::begin(Knot floor, Knot ceiling) {
    floor_.clear(), ceiling_.clear();
    steepest_.reset(), shallowest_.reset();
    floor_.add(floor);
    ceiling_.add(ceiling);
}

void Sight::add_floor(Knot p) {
    if (ceiling_.empty() || (shallowest_ && shallowest_->line.at(p.at) >= p.value)) return;
    const Knot left = ceiling_.tangent_from(p);
    if (left.at < p.at) shallowest_ = Held{line_through(left, p), p};
}

void Sight::add_ceiling(Knot p) {
    if (floor_.empty() || (steepest_ && steepest_->line.at(p.at) <= p.value)) return;
    const Knot left = floor_.tangent_from(p);
    if (left.at < p.at) steepest_ = Held{line_through(left, p), p};
}

void Sight::keep(Knot floor, Knot ceiling) {
    add_floor(floor);
    add_ceiling(ceiling);
    floor_.add(last_floor_ = floor);
    ceiling_.add(last_ceiling_ = ceiling);
}

bool Sight::blocked(Knot floor, Knot ceiling, Piece& piece) const {
    if (steepest_ && steepest_->line.at(floor.at) < floor.value) {
        const StraightLine& line = steepest_->line;
        piece = {line, Stop::floor, steepest_->last, exit_through(line, last_floor_, floor), piece.next};
        return true;
    }
    if (shallowest_ && shallowest_->line.at(ceiling.at) > ceiling.value) {
        const StraightLine& line = shallowest_->line;
        piece = {line, Stop::ceiling, shallowest_->last, exit_through(line, last_ceiling_, ceiling),
                 piece.next};
        return true;
    }
    return false;
}

/// The mean of the extremes is a line well inside; what is seen at its end is an upright.
Piece Sight::unblocked(double at, double low, double high) const {
    const StraightLine &up = steepest_->line, &down = shallowest_->line;
    const StraightLine middle{{at, 0.5 * (up.at(at) + down.at(at))}, 0.5 * (up.slope + down.slope)};
    return {middle, Stop::none, {at, std::max(low, down.at(at))}, {at, std::min(high, up.at(at))}, 0};
}

Piece Sight::run(std::size_t next, double limit) {
    Piece piece;
    for (; next < gates_.size() && gates_[next].at <= limit; ++next) {
        const Gate& gate = gates_[next];
        piece.next = next;
        if (blocked({gate.at, gate.low}, {gate.at, gate.high}, piece)) return piece;
        keep({gate.at, gate.low}, {gate.at, gate.high});
    }
    if (next == gates_.size()) {
        piece = unblocked(gates_.back().at, gates_.back().low, gates_.back().high);
    } else {
        const Knot floor{limit, wall(limit, next, &Gate::low)};
        const Knot ceiling{limit, wall(limit, next, &Gate::high)};
        piece.next = next;
        if (blocked(floor, ceiling, piece)) return piece;
        keep(floor, ceiling);
        piece = unblocked(limit, floor.value, ceiling.value);
    }
    piece.next = next;
    return piece;
}

Piece Sight::from(double at, double low, double high, std::size_t next, double limit) {
    begin({at, low}, {at, high});
    last_floor_ = {at, wall(at, next, &Gate::low)};
    last_ceiling_ = {at, wall(at, next, &Gate::high)};
    return run(next, limit);
}

/// The tunnel bends up: the next piece keeps the ceiling from the support on, the floor from the exit on.
void Sight::cross_from_ceiling(const Piece& piece) {
    ceiling_.add(last_ceiling_ = piece.support);
    std::size_t i = beyond(piece.support.at);
    for (; i < piece.next && gates_[i].at < piece.exit.at; ++i)
        ceiling_.add(last_ceiling_ = {gates_[i].at, gates_[i].high});
    add_floor(piece.exit);
    for (; i < piece.next; ++i)
        ceiling_.add(last_ceiling_ = {gates_[i].at, gates_[i].high});
    floor_.add(last_floor_ = piece.exit);
}

void Sight::cross_from_floor(const Piece& piece) {
    floor_.add(last_floor_ = piece.support);
    std::size_t i = beyond(piece.support.at);
    for (; i < piece.next && gates_[i].at < piece.exit.at; ++i)
        floor_.add(last_floor_ = {gates_[i].at, gates_[i].low});
    add_ceiling(piece.exit);
    for (; i < piece.next; ++i)
        floor_.add(last_floor_ = {gates_[i].at, gates_[i].low});
    ceiling_.add(last_ceiling_ = piece.exit);
}

Piece Sight::after(const Piece& piece) {
    if (piece.stop == Stop::none)
        return from(piece.support.at, piece.support.value, piece.exit.value, piece.next);
    floor_.clear(), ceiling_.clear();
    steepest_.reset(), shallowest_.reset();
    piece.stop == Stop::floor ? cross_from_ceiling(piece) : cross_from_floor(piece);
    return run(piece.next, std::numeric_limits<double>::infinity());
}

std::size_t Sight::beyond(double at) const {
    const auto later = [](double x, const Gate& gate) { return x < gate.at; };
    return static_cast<std::size_t>(std::upper_bound(gates_.begin(), gates_.end(), at, later) -
                                    gates_.begin());
}

double Sight::wall(double at, std::size_t next, double Gate::*side) const {
    if (next == 0) return gates_.front().*side;
    if (next == gates_.size()) return gates_.back().*side;
    const Gate &a = gates_[next - 1], &b = gates_[next];
    return a.*side + (b.*side - a.*side) * (at - a.at) / (b.at - a.at);
}

Knot crossing(const Piece& piece, const StraightLine& next) {
    const double from = next.at(piece.support.at) - piece.support.value;
    const double to = next.at(piece.exit.at) - piece.exit.value;
    const double share = from == to ? 0.5 : std::clamp(from / (from - to), 0.0, 1.0);
    const double at = piece.support.at + share * (piece.exit.at - piece.support.at);
    return {at, piece.support.value + share * (piece.exit.value - piece.support.value)};
}

std::vector<Knot> fewest_pieces(const std::vector<Gate>& gates) {
    assert(gates.size() >= 2);
    Sight sight(gates);
    Piece piece = sight.from(gates.front().at, gates.front().low, gates.front().high, 1);
    std::vector<Knot> knots{{gates.front().at, piece.line.at(gates.front().at)}};
    while (piece.stop != Stop::none) {
        const Piece next = sight.after(piece);
        knots.push_back(crossing(piece, next.line));
        piece = next;
    }
    knots.push_back({gates.back().at, piece.line.at(gates.back().at)});
    return knots;
}

}  // namespace lobewright::toolpath
