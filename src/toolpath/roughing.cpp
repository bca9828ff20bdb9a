#include "toolpath/roughing.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

constexpr double most_for_finish = 0.25;  // mm

void add_roughing(const Setup& setup, double total, std::vector<Ring>& rings) {
    const Cut& cut = *setup.job.cut;
    const double for_finish =
        std::max(std::min(0.5 * *cut.rough_depth, most_for_finish), 4.0 * cut.tolerance);
    if (total <= for_finish) return;
    const int count = static_cast<int>(step_above((total - for_finish) / *cut.rough_depth));
    const double depth = (total - for_finish) / count;
    for (int k = 1; k <= count; ++k) {
        const double left_on = cut.allowance + for_finish + (count - k) * depth;
        rings.push_back({PassKind::roughing, k, left_on, {setup.rough_margin, 0.0}, depth});
    }
    if (setup.rough_margin > 0.5 * for_finish) {
        const double margin = std::max(2.0 * cut.tolerance, for_finish / 8.0);
        rings.push_back(
            {PassKind::semi_finish, 0, cut.allowance + 0.5 * for_finish, {margin, 0.0}, 0.5 * for_finish});
    }
}

}  // namespace

std::vector<Ring> rings(const Setup& setup, double least_radius, Margins finish) {
    const Cut& cut = *setup.job.cut;
    const double total = setup.blank_radius - least_radius - cut.allowance;
    std::vector<Ring> found;
    if (cut.rough_depth) add_roughing(setup, total, found);
    const double stock = found.empty() ? total : found.back().left_on - cut.allowance;
    found.push_back({PassKind::finish, 0, cut.allowance, finish, stock});
    for (int i = 0; i < cut.spring_passes; ++i)
        found.push_back({PassKind::spring, 0, cut.allowance, finish, 0.0});
    for (std::size_t i = 1; i < found.size(); ++i)
        found[i].stock += found[i - 1].margins.proud;
    return found;
}

}  // namespace lobewright::toolpath
