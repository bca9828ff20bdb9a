/// The path with the fewest straight pieces through a tunnel.
#pragma once

#include <vector>

namespace lobewright::toolpath {

/// One upright of the tunnel: the path passes between `low` and `high` at `at`. Between uprights the walls
/// are straight.
struct Gate {
    double at = 0.0;
    double low = 0.0;
    double high = 0.0;
};

struct Knot {
    double at = 0.0;
    double value = 0.0;
};

/// The knots of a path from the first gate to the last that stays between the walls and has as few straight
/// pieces as any such path (minimum link path: Suri 1986; for tunnels over an axis Imai and Iri 1986). Time
/// grows with the number of gates. Required: two gates or more, `at` ascending strictly, low < high.
///
/// Why it is the fewest. Call reach(i) the part of the tunnel that a path of i pieces can get to. reach(1)
/// ends at a chord of the extremal line: the line which the next gate first blocks; it touches the walls
/// alternately, last at a support b, and runs on from b to q, where it leaves the tunnel through the other
/// wall. No point beyond the chord bq can be seen from the start (a line to it would cut one of the
/// supports), every point of the chord can. So a path of two pieces gets exactly as far as the lines that
/// cross bq, and so on: reach(i+1) is what is seen from the chord of reach(i). A line crosses the chord when
/// it passes the supporting wall's side of b and the other wall's side of q; its stretch before the crossing
/// is not part of the path. So the next piece must keep the supporting wall from b on and the other from q
/// on, and nothing else: it is the same problem again. The path changes piece where consecutive extremal
/// lines cross, which is on the chord. Each piece reaches as far as any path of that many pieces can, hence
/// none has fewer.
std::vector<Knot> fewest_pieces(const std::vector<Gate>& gates);

}  // namespace lobewright::toolpath
