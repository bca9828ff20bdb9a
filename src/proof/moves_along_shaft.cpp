#include "proof/moves_along_shaft.h"

#include <algorithm>
#include <limits>

namespace lobewright::proof {

MovesAlongShaft::MovesAlongShaft(const ShaftMoves& moves, Kind kind) : moves_(moves), kind_(std::move(kind)) {
    constexpr double infinite = std::numeric_limits<double>::infinity();
    for (int first = 0; first < moves_.size(); first += chain_length) {
        Chain chain{infinite, -infinite, 0.0, first};
        for (int i = first; i < end_of(first); ++i) {
            const ShaftMove move = moves_[i];
            if (!kind_(move)) continue;
            chain.low = std::min(chain.low, move.first_z());
            chain.high = std::max(chain.high, move.last_z());
        }
        if (chain.low <= chain.high) chains_.push_back(chain);
    }
    std::stable_sort(chains_.begin(), chains_.end(),
                     [](const Chain& a, const Chain& b) { return a.low < b.low; });
    set_reaches(0, chains_.size());
}

double MovesAlongShaft::set_reaches(std::size_t begin, std::size_t end) {
    if (begin == end) return -std::numeric_limits<double>::infinity();
    const std::size_t middle = begin + (end - begin) / 2;
    Chain& node = chains_[middle];
    node.reach = std::max({node.high, set_reaches(begin, middle), set_reaches(middle + 1, end)});
    return node.reach;
}

void MovesAlongShaft::find(std::size_t begin, std::size_t end, double low, double high,
                           std::vector<int>& found) const {
    if (begin == end) return;
    const std::size_t middle = begin + (end - begin) / 2;
    const Chain& node = chains_[middle];
    if (node.reach < low) return;
    find(begin, middle, low, high, found);
    if (node.low > high) return;
    if (node.high >= low) found.push_back(node.first);
    find(middle + 1, end, low, high, found);
}

std::vector<int> MovesAlongShaft::chains_over(double low, double high) const {
    std::vector<int> found;
    find(0, chains_.size(), low, high, found);
    std::sort(found.begin(), found.end());
    for (const int first : found)
        looked_at_ += end_of(first) - first;
    return found;
}

MovesAlongShaft moves_below(const ShaftMoves& moves, const CutterPart& part, double radius) {
    return {moves,
            [radius, height = part.height](const ShaftMove& move) { return move.least_tip() + height < radius; }};
}

}  // namespace lobewright::proof
