#include "toolpath/path/pass_frame.h"

#include "base/whole_steps.h"
#include "toolpath/path/chip.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {

long long PassFrame::steps(ShaftAngle travel) const {
    return nearest_step(travel.radians() / setup_.steps.rotary);
}

long long PassFrame::turns_to(long long now, long long place) const {
    const long long once = turn(), behind = now - place;
    return (behind > 0 ? (behind + once - 1) / once : behind / once) * once;
}

long long PassFrame::radial_steps(double x) const {
    return step_above((x + setup_.section.word_offset) / setup_.steps.radial);
}

long long PassFrame::axial() const {
    return nearest_step(order_.pass.axial / setup_.grid.axial_step);
}

long long PassFrame::axial_at(long long travel) const {
    if (!slide_) return axial();
    const auto [from, to, axial_from, axial_to] = *slide_;
    const double share =
        std::clamp(static_cast<double>(travel - from) / static_cast<double>(to - from), 0.0, 1.0);
    return axial_from + nearest_step(share * static_cast<double>(axial_to - axial_from));
}

PathBlock PassFrame::block_between(const GridKnot& a, const GridKnot& b, bool along_contour) const {
    const double rise = static_cast<double>(b.radial - a.radial) * setup_.steps.radial;
    const double along =
        static_cast<double>(axial_at(b.rotary) - axial_at(a.rotary)) * setup_.grid.axial_step;
    const double round = function_.arc_between(travel(a.rotary), travel(b.rotary));
    const double arc = along == 0.0 ? round : std::sqrt(round * round + along * along);
    const double turn = static_cast<double>(b.rotary - a.rotary) * setup_.grid.rotary_step;
    return {rise, along, turn, along_contour ? arc : std::max(arc, std::abs(rise)), order_.feed};
}

PathBlock PassFrame::laid_between(const GridKnot& a, const GridKnot& b, bool along_contour) const {
    PathBlock block = block_between(a, b, along_contour);
    block.feed = layout_feed();
    return block;
}

double PassFrame::chip_between(const GridKnot& a, const GridKnot& b, double depth) const {
    if (setup_.cutter.teeth == 0 || depth <= 0.0 || a.rotary == b.rotary) return 0.0;
    return chip_per_turning(setup_, function_.between(travel(a.rotary), travel(b.rotary)), depth);
}

}  // namespace lobewright::toolpath
