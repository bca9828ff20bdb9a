#include "toolpath/neighbours/obstacles.h"

#include <algorithm>

namespace lobewright::toolpath {
namespace {

Interval stretch(double middle, double width) {
    return {middle - 0.5 * width, middle + 0.5 * width};
}

Obstacle lobe_obstacle(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index,
                       bool cut) {
    const SolvedLobe& lobe = lobes[index];
    Obstacle found{cut ? ObstacleKind::finished_lobe : ObstacleKind::blank, index,
                   stretch(lobe.z, lobe.width), setup.blank_radius};
    const auto standing = standing_over(setup, lobe);
    const double over = cut ? setup.cut.allowance : standing.value_or(setup.blank_radius);
    found.radius = std::min(found.radius, lobe.contour.largest_radius() + over);
    return found;
}

bool comes_before(const std::vector<SolvedLobe>& lobes, std::size_t a, std::size_t b) {
    return lobes[a].z < lobes[b].z || (lobes[a].z == lobes[b].z && a < b);
}

}  // namespace

std::vector<Obstacle> other_obstacles(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                      std::size_t own) {
    std::vector<Obstacle> found;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        if (i != own) found.push_back(lobe_obstacle(setup, lobes, i, comes_before(lobes, i, own)));
    }
    for (std::size_t i = 0; i < setup.journals.size(); ++i) {
        const Journal& journal = setup.journals[i];
        found.push_back(
            {ObstacleKind::journal, i, stretch(journal.z, journal.width), 0.5 * journal.diameter});
    }
    return found;
}

Obstacle own_obstacle(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t own) {
    return lobe_obstacle(setup, lobes, own, setup.machine.cutter_axis == CutterAxis::parallel);
}

}  // namespace lobewright::toolpath
