#include "proof/sweep/moves_along_shaft.h"

#include <algorithm>
#include <limits>

namespace lobewright::proof {

MovesAlongShaft::MovesAlongShaft(const ShaftMoves& moves, Kind kind) : moves_(moves), kind_(std::move(kind)) {
    for (int i = 0; i < moves_.size(); ++i) {
        const ShaftMove move = moves_[i];
        if (kind_(move)) add(i, move);
    }
    std::stable_sort(chains_.begin(), chains_.end(),
                     [](const Chain& a, const Chain& b) { return a.low < b.low; });
    set_reaches(0, chains_.size());
}

void MovesAlongShaft::add(int index, const ShaftMove& move) {
    const double low = move.first_z(), high = move.last_z();
    if (!chains_.empty()) {
        Chain& last = chains_.back();
        const bool near = std::max(last.high, high) - std::min(last.low, low) <= widest_chain;
        if (near && index - last.moves.end <= most_others) {
            last.low = std::min(last.low, low), last.high = std::max(last.high, high);
            last.moves.end = index + 1;
            return;
        }
    }
    chains_.push_back({low, high, 0.0, {index, index + 1}});
}

double MovesAlongShaft::set_reaches(std::size_t begin, std::size_t end) {
    if (begin == end) return -std::numeric_limits<double>::infinity();
    const std::size_t middle = begin + (end - begin) / 2;
    Chain& node = chains_[middle];
    node.reach = std::max({node.high, set_reaches(begin, middle), set_reaches(middle + 1, end)});
    return node.reach;
}

void MovesAlongShaft::find(std::size_t begin, std::size_t end, double low, double high,
                           std::vector<Range>& found) const {
    if (begin == end) return;
    const std::size_t middle = begin + (end - begin) / 2;
    const Chain& node = chains_[middle];
    if (node.reach < low) return;
    find(begin, middle, low, high, found);
    if (node.low > high) return;
    if (node.high >= low) found.push_back(node.moves);
    find(middle + 1, end, low, high, found);
}

std::vector<MovesAlongShaft::Range> MovesAlongShaft::ranges_over(double low, double high) const {
    std::vector<Range> found;
    find(0, chains_.size(), low, high, found);
    std::sort(found.begin(), found.end(), [](const Range& a, const Range& b) { return a.first < b.first; });
    for (const Range& range : found)
        looked_at_ += range.end - range.first;
    return found;
}

MovesAlongShaft moves_below(const ShaftMoves& moves, const CutterPart& part, double radius) {
    return {moves, [radius, height = part.height](const ShaftMove& move) {
                return move.least_tip() + height < radius;
            }};
}

}  // namespace lobewright::proof
