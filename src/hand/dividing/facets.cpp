#include "hand/dividing/facets.h"

#include "hand/along_shaft.h"
#include "hand/dividing/facet_settings.h"
#include "hand/finish/finish_remarks.h"
#include "hand/finish/valve_timing.h"
#include "hand/outline/outline.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace lobewright::hand {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

const Cutter* cutter_of(const Job& job, const HandMethod& method) {
    return method.cutter_axis == CutterAxis::parallel ? &job.cutters.find(method.cutter)->second : nullptr;
}

std::optional<double> cutter_radius_of(const Job& job, const HandMethod& method) {
    const Cutter* cutter = cutter_of(job, method);
    return cutter ? std::optional(cutter->diameter / 2.0) : std::nullopt;
}

/// How wide the cutter is along the shaft, as far as it is known.
std::optional<double> width_along(const Job& job, const HandMethod& method) {
    const Cutter* cutter = cutter_of(job, method);
    if (method.tool_width || !cutter) return method.tool_width;
    return cutter->kind == CutterKind::disc ? std::optional(cutter->width) : std::nullopt;
}

/// The bar's; where it is not given, further out than any corner of facets that meet can stand: for three
/// flats on a round that is twice its radius, and two round cuts meet within their cutters' centres.
double blank_radius_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                       std::optional<double> cutter_radius) {
    if (job.shaft.blank()) return *job.shaft.blank() / 2.0;
    double largest = 0.0;
    for (const SolvedLobe& lobe : lobes)
        largest = std::max(largest, lobe.contour.largest_radius());
    return 4.0 * (largest + cutter_radius.value_or(0.0));
}

std::vector<IndexGrid> grids_of(const HandMethod& method, Obstacles& obstacles) {
    if (method.kind == HandKind::rotary_table) {
        constexpr ShaftAngle minute = ShaftAngle::from_degrees(1.0 / 60.0);
        const ShaftAngle smallest = method.vernier.value_or(minute);
        if (const auto grid = grid_of_table(smallest)) return {*grid};
        obstacles.push_back(OddVernier{smallest});
        return {};
    }
    auto grids = grids_of_plates(method.ratio, method.plates);
    if (grids.empty()) obstacles.push_back(NoCircleCloses{});
    return grids;
}

FacetedShaft shaft_of(const Job& job, const std::vector<SolvedLobe>& lobes, const HandMethod& method) {
    const auto cutter_radius = cutter_radius_of(job, method);
    FacetedShaft shaft{job, lobes, method, cutter_radius, blank_radius_of(job, lobes, cutter_radius), {}, {}};
    const auto bar = job.shaft.blank() ? std::optional(shaft.blank_radius) : std::nullopt;
    for (const SolvedLobe& lobe : lobes)
        shaft.faceted.emplace_back(lobe, method, cutter_radius, bar, method.allowance);
    return shaft;
}

/// What all facets of a lobe leave of it; nothing where neighbouring cuts do not meet.
std::optional<Outline> outline_of_facets(const FacetedShaft& shaft, std::size_t lobe,
                                         const FacetedLobe& faceted) {
    std::vector<HandCut> cuts;
    for (const long long place : shaft.division.facets[lobe]) {
        cuts.push_back(faceted.facet(shaft.division.grid, place).cut);
        cuts.back().facing += shaft.lobes[lobe].at;
    }
    return outline_of(cuts, shaft.blank_radius);
}

/// The same, once the allowance has come off: what the engine runs on.
std::optional<Outline> outline_run_on(const FacetedShaft& shaft, std::size_t lobe) {
    if (shaft.method.allowance == 0.0) return outline_of_facets(shaft, lobe, shaft.faceted[lobe]);
    const FacetedLobe bare(shaft.lobes[lobe], shaft.method, shaft.cutter_radius, std::nullopt, 0.0);
    return outline_of_facets(shaft, lobe, bare);
}

/// The highest ridge of a lobe; nothing where neighbouring cuts do not meet.
std::optional<double> highest_ridge(const FacetedShaft& shaft, std::size_t lobe) {
    const Division& division = shaft.division;
    double highest = 0.0;
    for (std::size_t i = 0; i < division.facets[lobe].size(); ++i) {
        const auto ridge =
            shaft.faceted[lobe].ridge(division.grid, division.facets[lobe][i], division.place_after(lobe, i));
        if (!ridge) return std::nullopt;
        highest = std::max(highest, *ridge);
    }
    return highest;
}

/// What the facets of one lobe leave; nothing where neighbouring cuts do not meet.
std::optional<HandFinish> finish_of(const FacetedShaft& shaft, std::size_t lobe) {
    const auto ridge = highest_ridge(shaft, lobe);
    const auto outline = ridge ? outline_run_on(shaft, lobe) : std::nullopt;
    if (!outline) return std::nullopt;
    HandFinish finish;
    finish.lobe = lobe;
    finish.highest_ridge = finish.proudest = *ridge;
    const double room =
        shaft.blank_radius - shaft.lobes[lobe].contour.largest_radius() - shaft.method.allowance;
    finish.deepest = std::min(0.0, room);
    put_timing(shaft.job, shaft.lobes[lobe], *outline, finish);
    return finish;
}

void add_finish(const FacetedShaft& shaft, Planned& planned) {
    for (std::size_t i = 0; i < shaft.lobes.size(); ++i) {
        const auto finish = finish_of(shaft, i);
        if (!finish) {
            planned.obstacles.push_back(CutsApart{i, shaft.cutter_radius});
            return;
        }
        planned.plan.finish.push_back(*finish);
    }
}

/// Spaces between the sector arms: what is left of each advance beside whole turns of the crank.
std::vector<int> arms_of(const Division& division) {
    std::set<int> arms;
    if (division.grid.circle)
        for (const long long step : division.advances())
            arms.insert(static_cast<int>(step % *division.grid.circle));
    arms.erase(0);
    return {arms.begin(), arms.end()};
}

FacetSetup setup_of(const FacetedShaft& shaft, const HandPlan& plan) {
    const IndexGrid& grid = shaft.division.grid;
    FacetSetup setup;
    setup.circle = grid.circle;
    setup.plate = grid.plate;
    setup.compound = grid.compound;
    if (!setup.circle && !setup.compound) setup.smallest_setting = grid.angle(1);
    setup.cutter_radius = shaft.cutter_radius;
    setup.arms = arms_of(shaft.division);
    if (shaft.cutter_radius || !shaft.job.shaft.blank()) return setup;
    for (const HandSetting& setting : plan.settings) {
        const double half_squared =
            shaft.blank_radius * shaft.blank_radius - *setting.finish * *setting.finish;
        setup.widest_flat = std::max(setup.widest_flat, 2.0 * std::sqrt(std::max(0.0, half_squared)));
    }
    return setup;
}

/// How the whole shaft is divided.
Remark indexing_of(const FacetedShaft& shaft, const HandPlan& plan) {
    const IndexGrid& grid = shaft.division.grid;
    if (grid.compound) return CompoundIndexing{*grid.compound, grid.spaces};
    const auto steps = shaft.division.advances();
    const auto advance = [&](long long spaces) { return Advance{grid.angle(spaces), grid.crank(spaces)}; };
    const Advance narrowest = advance(steps.front()), widest = advance(steps.back());
    if (!shaft.method.step) return StepsByCurvature{grid.circle, narrowest, widest};
    ShaftAngle worst;
    for (const HandSetting& setting : plan.settings) {
        const ShaftAngle off = wrapped(setting.shaft_angle - setting.wanted);
        worst = std::max({worst, off, -off});
    }
    if (worst > same_setting) return AngularIndexing{grid.circle, worst};
    const bool closes = steps.size() == 1;
    return SimpleIndexing{grid.circle, widest, closes ? std::nullopt : std::optional(narrowest)};
}

void plan_division(FacetedShaft& shaft, Planned& planned) {
    const auto grids = grids_of(shaft.method, planned.obstacles);
    if (grids.empty()) return;
    auto division = divide(shaft.faceted, shaft.method, shaft.cutter_radius, grids, planned.obstacles);
    if (!division) return;
    shaft.division = std::move(*division);
    planned.plan.settings = facet_settings(shaft);
    add_finish(shaft, planned);
    if (!planned.obstacles.empty()) return;
    planned.plan.facets = setup_of(shaft, planned.plan);
    planned.remarks.push_back(indexing_of(shaft, planned.plan));
    remark_finish(planned.plan.finish, planned.remarks);
}

/// Whether the contours can be cut by this cutter at all.
void check_hollows(const std::vector<SolvedLobe>& lobes, std::optional<double> cutter_radius, double left_on,
                   Obstacles& obstacles) {
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const double hollow = lobes[i].contour.smallest_hollow_radius();
        if (hollow < infinity && (!cutter_radius || *cutter_radius + left_on >= hollow))
            obstacles.push_back(HollowTooTight{i, hollow - (cutter_radius ? left_on : 0.0), cutter_radius});
    }
}

}  // namespace

Obstacles obstacles_to_facets(const Job& job, const std::vector<SolvedLobe>& lobes,
                              const HandMethod& method) {
    Obstacles obstacles;
    check_hollows(lobes, cutter_radius_of(job, method), method.allowance, obstacles);
    check_plunges(job, lobes, width_along(job, method), obstacles);
    if (const Cutter* cutter = cutter_of(job, method)) check_body(job, lobes, *cutter, obstacles);
    return obstacles;
}

Planned plan_facets(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name) {
    const HandMethod& method = job.hand.at(name);
    Planned planned;
    planned.plan.method = name;
    planned.plan.plunges = plan_plunges(job, lobes, width_along(job, method));
    FacetedShaft shaft = shaft_of(job, lobes, method);
    plan_division(shaft, planned);
    return planned;
}

}  // namespace lobewright::hand
