#include "hand/outline/cuts_so_far.h"

#include <iterator>

namespace lobewright::hand {

void CutsSoFar::add(const HandCut& cut) {
    cuts_.insert_or_assign(in_first_turn(cut.facing), cut);
}

std::vector<HandCut> CutsSoFar::beside(ShaftAngle facing) const {
    if (cuts_.empty()) return {};
    const auto after = cuts_.lower_bound(in_first_turn(facing));
    const auto& next = after == cuts_.end() ? *cuts_.begin() : *after;
    const auto& before = after == cuts_.begin() ? *cuts_.rbegin() : *std::prev(after);
    if (&next == &before) return {next.second};
    return {before.second, next.second};
}

}  // namespace lobewright::hand
