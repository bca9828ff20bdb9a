#include "profile/fullest/fullest_lift.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace lobewright::profile {
namespace {

using Knots = std::vector<double>;

constexpr int cells_of_side = 24;
constexpr int refinements = 3;
constexpr double hopeless = 0.03;  // excess on even knots: more than others make up for
// Of the whole angle, a cell:
constexpr double shortest_part = 1.0 / 1024.0;
constexpr double longest_part = 1.0 / 32.0;

Knots knots_at(const FullestTask& task, const std::vector<double>& parts) {
    Knots knots;
    for (const double part : parts)
        knots.push_back(task.peak + part * (part < 0.0 ? task.peak : task.end - task.peak));
    knots.front() = 0.0;
    return knots;
}

/// The most jerk.
double jerk_limit(const FullestTask& task) {
    const auto jerk = std::find_if(task.limits.begin(), task.limits.end(),
                                   [](const LiftLimit& limit) { return limit.name == FullestLimit::jerk; });
    return 1.0 / jerk->excess(Lift{}).slopes[3];
}

/// The jerk of every cell, as parts of the most.
std::vector<double> jerks_of(const FullestTask& task, const LiftSpline& spline) {
    std::vector<double> jerks;
    for (std::size_t cell = 0; cell < spline.cells(); ++cell)
        jerks.push_back(spline.at(cell, spline.knots()[cell]).jerk / jerk_limit(task));
    return jerks;
}

/// More knots where the jerk changes from cell to cell, none where two cells have the same.
Knots refined(const FullestTask& task, const LiftSpline& spline) {
    constexpr double changes = 0.03, stays = 1e-5;  // of the most jerk
    constexpr int parts = 3;
    const Knots& old = spline.knots();
    const std::vector<double> jerks = jerks_of(task, spline);
    Knots knots{old.front()};
    for (std::size_t cell = 0; cell < spline.cells(); ++cell) {
        const double start = old[cell], end = old[cell + 1];
        const double before = std::abs(jerks[cell] - (cell > 0 ? jerks[cell - 1] : 0.0));
        const double after = std::abs(jerks[cell] - (cell + 1 < jerks.size() ? jerks[cell + 1] : 0.0));
        if (std::max(before, after) > changes && end - start > parts * shortest_part * task.end) {
            for (int i = 1; i < parts; ++i)
                knots.push_back(start + (end - start) * i / parts);
        } else if (before < stays && cell > 0 && start != task.peak &&
                   end - knots[knots.size() - 2] < longest_part * task.end) {
            knots.pop_back();
        }
        knots.push_back(end);
    }
    return knots;
}

/// Knots on which the limits can be kept: even ones, or others between which they nearly are.
std::optional<LimitedLift> first_lift(const FullestTask& task) {
    Knots knots = knots_at(task, even_parts());
    for (int i = 0; i < refinements; ++i) {
        if (auto lift = lift_by_steps(task, knots, Aim::area, Care::rough)) return lift;
        const auto nearest = lift_by_steps(task, knots, Aim::excess, Care::rough);
        if (!nearest || nearest->excess > hopeless || i + 1 == refinements) break;
        knots = refined(task, nearest->spline);
    }
    return std::nullopt;
}

/// Rising to the peak and falling after it, where that costs next to nothing.
std::optional<LimitedLift> first_of_either(FullestTask& task) {
    task.rises = false;
    auto any = first_lift(task);
    if (!any) return any;
    task.rises = true;
    auto rising = first_lift(task);
    if (rising && rising->spline.area() >= (1.0 - worth_a_dip) * any->spline.area()) return rising;
    task.rises = false;
    return any;
}

}  // namespace

std::vector<double> even_parts() {
    std::vector<double> parts;
    for (int i = -cells_of_side; i <= cells_of_side; ++i)
        parts.push_back(i / static_cast<double>(cells_of_side));
    return parts;
}

std::vector<double> parts_of(const FullestTask& task, const std::vector<double>& knots) {
    std::vector<double> parts;
    for (const double knot : knots)
        parts.push_back((knot - task.peak) / (knot < task.peak ? task.peak : task.end - task.peak));
    return parts;
}

std::optional<LimitedLift> fullest_lift_on(const FullestTask& task, const std::vector<double>& parts,
                                           Care care) {
    return lift_by_steps(task, knots_at(task, parts), Aim::area, care);
}

std::optional<LimitedLift> fullest_lift(FullestTask& task) {
    if (is_linear(task) && least_excess(task) > hopeless) return std::nullopt;
    auto best = first_of_either(task);
    for (int i = 1; best && i < refinements; ++i) {
        const Care care = i + 1 < refinements ? Care::rough : Care::exact;
        const LiftSpline known = best->spline;
        auto finer = lift_by_steps(task, refined(task, known), Aim::area, care, &known);
        if (!finer) return lift_by_steps(task, known.knots(), Aim::area, Care::exact, &known);
        best = std::move(finer);
    }
    return best;
}

double least_excess(FullestTask task) {
    task.rises = false;
    const auto lift = lift_by_steps(task, knots_at(task, even_parts()), Aim::excess, Care::rough);
    return lift ? lift->excess : 1.0;
}

std::optional<double> greatest_peak(FullestTask task) {
    task.rises = false;
    const auto lift = lift_by_steps(task, knots_at(task, even_parts()), Aim::lift, Care::rough);
    return lift ? std::optional(lift->spline.at(task.peak).lift) : std::nullopt;
}

std::vector<ReachedLimit> reached_limits(const FullestTask& task, const LimitedLift& lift,
                                         const std::vector<LiftLimit>& given_way) {
    constexpr double nearly = 1e-6;  // of a limit
    std::map<FullestLimit, double> gains;
    for (const LiftLimit& limit : task.limits)
        if (greatest_excess(limit, lift.spline) > -nearly) gains[limit.name] = 0.0;
    for (const LimitedLift::Hold& hold : lift.holds) {
        const LiftLimit& limit = task.limits[hold.limit];
        const auto gain = gains.find(limit.name);
        if (gain == gains.end()) continue;
        const double room = limit.excess(hold.lift).value - given_way[hold.limit].excess(hold.lift).value;
        gain->second += hold.price * room;
    }
    std::vector<ReachedLimit> reached;
    for (const auto& [name, gain] : gains)
        reached.push_back({name, gain});
    return reached;
}

}  // namespace lobewright::profile
