/// The path with the fewest straight pieces through a tunnel. This is plane geometry: a tunnel over any axis,
/// of which the planner makes one over the radians of travel from a pass's own zero.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// One upright of the tunnel: the path passes between `low` and `high` at `at`. Between uprights the walls
/// are straight.
struct Gate {
    double at = 0.0;
    double low = 0.0;
    double high = 0.0;
    bool fixed = false;  ///< stays as wide as it is, whatever narrows the others
};

struct Knot {
    double at = 0.0;
    double value = 0.0;
};

struct StraightLine {
    Knot through;
    double slope = 0.0;
    [[nodiscard]] double at(double x) const { return through.value + slope * (x - through.at); }
};

/// What a piece runs into.
enum class Stop {
    floor,    ///< the tunnel bends up
    ceiling,  ///< it bends down
    none      ///< nothing: the piece gets to the last gate, or as far as it was allowed to
};

/// A straight piece, run as far as it goes.
struct Piece {
    StraightLine line;
    Stop stop = Stop::none;
    Knot support;  ///< the frontier, from here to `exit`: all of it can be seen from where the piece starts,
    Knot exit;     ///< nothing beyond it. Upright where nothing stops the piece
    std::size_t next = 0;  ///< the first gate that the piece doesn't pass
};

/// The points of the wall that a line can still touch first, as a convex chain. sign +1: a floor (upper
/// hull), -1: a ceiling.
class Chain {
  public:
    explicit Chain(double sign) : sign_(sign) {}
    [[nodiscard]] bool empty() const { return first_ == points_.size(); }
    void clear() { points_.clear(), first_ = 0; }
    void add(Knot p);
    /// The point of the chain on which a line through `p`, right of all of it, rests. Later lines rest no
    /// further left.
    Knot tangent_from(Knot p);

  private:
    double sign_;
    std::vector<Knot> points_;
    std::size_t first_ = 0;
};

/// How far straight lines see through a tunnel. Required of the gates: `at` ascending strictly, low < high.
///
/// Why its pieces make the fewest. Call reach(i) the part of the tunnel that a path of i pieces can get to.
/// reach(1) ends at a chord of the extremal line: the line which the next gate first blocks; it touches the
/// walls alternately, last at a support b, and runs on from b to q, where it leaves the tunnel through the
/// other wall. No point beyond the chord bq can be seen from the start (a line to it would cut one of the
/// supports), every point of the chord can. So a path of two pieces gets exactly as far as the lines that
/// cross bq, and so on: reach(i+1) is what is seen from the chord of reach(i). A line crosses the chord when
/// it passes the supporting wall's side of b and the other wall's side of q; its stretch before the crossing
/// is not part of the path. So the next piece must keep the supporting wall from b on and the other from q
/// on, and nothing else: it is the same problem again.
class Sight {
  public:
    explicit Sight(const std::vector<Gate>& gates) : gates_(gates) {}

    /// The furthest of the lines that pass between `low` and `high` at `at`, no further than `limit`. `next`
    /// is the first gate beyond `at`.
    Piece from(double at, double low, double high, std::size_t next,
               double limit = std::numeric_limits<double>::infinity());
    /// The furthest of the lines that cross the frontier of a piece.
    Piece after(const Piece& piece);

    /// A wall at any place of the tunnel; `next` is the first gate beyond it, or the last.
    [[nodiscard]] double wall(double at, std::size_t next, double Gate::*side) const;
    /// The first gate beyond `at`.
    [[nodiscard]] std::size_t beyond(double at) const;

  private:
    void begin(Knot floor, Knot ceiling);
    void add_floor(Knot p);
    void add_ceiling(Knot p);
    void keep(Knot floor, Knot ceiling);
    Piece run(std::size_t next, double limit);
    bool blocked(Knot floor, Knot ceiling, Piece& piece) const;
    [[nodiscard]] Piece unblocked(double at, double low, double high) const;
    void cross_from_ceiling(const Piece& piece);
    void cross_from_floor(const Piece& piece);

    /// An extremal line, with the point of the wall that holds it last.
    struct Held {
        StraightLine line;
        Knot last;
    };
    const std::vector<Gate>& gates_;
    Chain floor_{+1.0};
    Chain ceiling_{-1.0};
    std::optional<Held> steepest_;    // rests on the floor to the left, on the ceiling to the right
    std::optional<Held> shallowest_;  // the other way round
    Knot last_floor_, last_ceiling_;
};

/// Where the next line crosses the frontier of a piece, or comes nearest to it.
Knot crossing(const Piece& piece, const StraightLine& next);

/// The knots of a path from the first gate to the last that stays between the walls and has as few straight
/// pieces as any such path (minimum link path: Suri 1986; for tunnels over an axis Imai and Iri 1986). Time
/// grows with the number of gates. Required: two gates or more.
std::vector<Knot> fewest_pieces(const std::vector<Gate>& gates);

}  // namespace lobewright::toolpath
