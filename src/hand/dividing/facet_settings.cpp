#include "hand/dividing/facet_settings.h"

#include "base/whole_steps.h"
#include "hand/outline/cuts_so_far.h"
#include "hand/outline/outline.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

std::vector<std::size_t> along_the_shaft(const std::vector<SolvedLobe>& lobes) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < lobes.size(); ++i)
        order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lobes[a].z < lobes[b].z; });
    return order;
}

/// The shaft direction that the nearest multiple of the wanted step brings to face the cutter.
ShaftAngle wanted_near(const HandMethod& method, ShaftAngle turned) {
    const auto steps = static_cast<double>(nearest_step(turned / *method.step));
    return method.zero + sign_of(method.counts) * steps * *method.step;
}

HandSetting setting_at(const FacetedShaft& shaft, std::size_t lobe, long long place) {
    const IndexGrid& grid = shaft.division.grid;
    HandSetting setting;
    setting.work = HandWork::facet;
    setting.lobe = lobe;
    setting.turned = grid.angle(place);
    if (const auto crank = grid.crank(place)) {
        setting.turns = crank->turns;
        setting.hole = crank->hole;
        setting.circle = crank->circle;
    }
    setting.shaft_angle = shaft.faceted[lobe].facing(grid, place);
    setting.wanted = shaft.method.step ? wanted_near(shaft.method, *setting.turned) : setting.shaft_angle;
    setting.finish = shaft.faceted[lobe].facet(grid, place).cut.distance;
    if (shaft.job.shaft.blank()) setting.start = shaft.blank_radius + shaft.cutter_radius.value_or(0.0);
    return setting;
}

/// Where each facet's cutter first meets metal, and in how many passes. Where the cuts so far leave a wall
/// with an undercut, the blank's outside stands for it.
void add_touches(const FacetedShaft& shaft, std::vector<HandSetting>& settings, std::size_t first) {
    CutsSoFar done;
    for (std::size_t i = first; i < settings.size(); ++i) {
        HandSetting& setting = settings[i];
        const ShaftAngle facing = setting.shaft_angle;
        const auto left = outline_of(done.beside(facing), shaft.blank_radius);
        const double touches = left ? first_touch(*left, facing, shaft.cutter_radius) : *setting.start;
        setting.touches = std::max(touches, *setting.finish);
        if (shaft.method.infeed) {
            const double depth = *setting.touches - *setting.finish;
            setting.passes = std::max(1, static_cast<int>(step_above(depth / *shaft.method.infeed)));
        }
        done.add(shaft.cutter_radius ? round_cut(facing, *setting.finish, *shaft.cutter_radius)
                                     : flat_cut(facing, *setting.finish));
    }
}

}  // namespace

std::vector<HandSetting> facet_settings(const FacetedShaft& shaft) {
    std::vector<HandSetting> settings;
    for (const std::size_t lobe : along_the_shaft(shaft.lobes)) {
        const std::size_t first = settings.size();
        for (const long long place : shaft.division.facets[lobe])
            settings.push_back(setting_at(shaft, lobe, place));
        if (shaft.job.shaft.blank()) add_touches(shaft, settings, first);
    }
    for (std::size_t i = 0; i < settings.size(); ++i)
        settings[i].order = static_cast<int>(i) + 1;
    return settings;
}

}  // namespace lobewright::hand
