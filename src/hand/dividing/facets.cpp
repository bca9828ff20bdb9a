#include "hand/dividing/facets.h"

#include "base/whole_steps.h"
#include "hand/along_shaft.h"
#include "hand/dividing/crank.h"
#include "hand/finish/finish_findings.h"
#include "hand/finish/finished_contour.h"
#include "hand/finish/ridges.h"
#include "hand/outline/hand_contour.h"
#include "hand/outline/touch_map.h"
#include "hand/wording.h"
#include "job/complaint.h"
#include "profile/blank.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <set>

namespace lobewright::hand {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The angles that can be set: whole spaces of one circle of holes, or whole steps of a table's vernier.
struct Grid {
    std::optional<int> circle;
    long long spaces = 0;  ///< in one turn of the work

    [[nodiscard]] double degrees(long long space) const {
        return 360.0 * static_cast<double>(space) / static_cast<double>(spaces);
    }
    [[nodiscard]] long long nearest(double degrees) const {
        return nearest_step(degrees * static_cast<double>(spaces) / 360.0) % spaces;
    }
};

/// One lobe under the cutter: places on the grid to cuts in the lobe's frame.
class Workpiece {
  public:
    /// `blank_radius` only where the bar is known.
    Workpiece(const SolvedLobe& lobe, const HandMethod& method, std::optional<double> cutter_radius,
              std::optional<double> blank_radius)
        : lobe_(lobe),
          method_(method),
          map_(lobe.contour, cutter_radius),
          cutter_radius_(cutter_radius),
          blank_radius_(blank_radius) {}

    [[nodiscard]] ShaftAngle facing(const Grid& grid, long long space) const {
        return method_.zero + ShaftAngle::from_degrees(sign_of(method_.counts) * grid.degrees(space));
    }
    [[nodiscard]] Facet facet(const Grid& grid, long long space) const {
        const ShaftAngle towards = wrapped(facing(grid, space) - lobe_.at);
        const double reach = map_.reach(towards.radians());
        return {cutter_radius_ ? round_cut(towards, reach, *cutter_radius_) : flat_cut(towards, reach),
                map_.touch(towards.radians()).way};
    }
    /// Height of what two neighbouring facets leave between them; nothing where they don't meet, and no bar
    /// ends what stands there.
    [[nodiscard]] std::optional<double> ridge(const Grid& grid, long long space, long long next) const {
        Facet first = facet(grid, space % grid.spaces), second = facet(grid, next % grid.spaces);
        if (method_.counts == Sense::cw) std::swap(first, second);
        if (second.way <= first.way) second.way += map_.turn();
        return ridge_between(map_, first, second, blank_radius_);
    }
    [[nodiscard]] bool ridge_within(const Grid& grid, long long space, long long next, double highest) const {
        const auto height = ridge(grid, space, next);
        return height && *height <= highest;
    }
    [[nodiscard]] const SolvedLobe& lobe() const { return lobe_; }

  private:
    const SolvedLobe& lobe_;
    const HandMethod& method_;
    TouchMap map_;
    std::optional<double> cutter_radius_;
    std::optional<double> blank_radius_;
};

/// Splits the way between two facets until no ridge is above `highest`; false where the grid is too coarse
/// for that.
bool refine(const Workpiece& piece, const Grid& grid, long long from, long long to, double highest,
            std::vector<long long>& spaces) {
    if (piece.ridge_within(grid, from, to, highest)) return true;
    if ((to - from) % 2 != 0) return false;
    const long long middle = (from + to) / 2;
    if (!refine(piece, grid, from, middle, highest, spaces)) return false;
    spaces.push_back(middle);
    return refine(piece, grid, middle, to, highest, spaces);
}

/// Facets from an even step of `step` spaces, halved where the ridges ask for it; empty where halving does
/// not do it.
std::vector<long long> refined(const Workpiece& piece, const Grid& grid, long long step, double highest) {
    std::vector<long long> spaces;
    for (long long from = 0; from < grid.spaces; from += step) {
        spaces.push_back(from);
        if (!refine(piece, grid, from, from + step, highest, spaces)) return {};
    }
    return spaces;
}

/// Even steps to start from: whole parts of a turn, none wider than `widest` degrees, the widest first.
std::vector<long long> even_steps(const Grid& grid, double widest) {
    std::vector<long long> steps;
    for (long long step = 1; step <= grid.spaces / 8; ++step)
        if (grid.spaces % step == 0 && grid.degrees(step) <= widest + 1e-9) steps.push_back(step);
    std::reverse(steps.begin(), steps.end());
    return steps;
}

using Facets = std::vector<std::vector<long long>>;  // spaces by lobe, ascending

/// Every lobe's facets on this grid for a wanted ridge, by the even step that needs the fewest; empty if none
/// does.
Facets facets_for_ridge(const std::vector<Workpiece>& pieces, const Grid& grid, double widest,
                        double highest) {
    Facets best;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    int failures_allowed = 12;
    for (const long long step : even_steps(grid, widest)) {
        Facets facets;
        std::size_t count = 0;
        for (const Workpiece& piece : pieces) {
            facets.push_back(refined(piece, grid, step, highest));
            count += facets.back().size();
            if (facets.back().empty()) break;
        }
        const bool complete = facets.size() == pieces.size() && !facets.back().empty();
        if (complete && count < fewest) best = std::move(facets), fewest = count;
        if (--failures_allowed == 0 || (complete && grid.degrees(step) < widest / 4.0)) break;
    }
    return best;
}

/// The job, the grids that the method has, and the lobes under its cutter.
struct Bench {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const std::string& name;
    const HandMethod& method;
    std::optional<double> cutter_radius;
    double blank_radius = 0.0;
    std::vector<Workpiece> pieces;

    [[nodiscard]] Diagnostic complaint(const std::string& key, std::string code, std::string what,
                                       std::string remedy) const {
        return refusal(job, key, std::move(code), std::move(what), std::move(remedy));
    }
    [[nodiscard]] std::string key(const std::string& last) const { return "hand." + name + '.' + last; }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, job.units); }
    [[nodiscard]] const Cutter& cutter() const { return job.cutters.find(method.cutter)->second; }
};

constexpr double minute = 1.0 / 60.0;

Outcome<std::vector<Grid>> grids_of(const Bench& bench) {
    std::vector<Grid> grids;
    if (bench.method.kind == HandKind::rotary_table) {
        const double smallest = bench.method.vernier ? bench.method.vernier->degrees() : minute;
        const double spaces = static_cast<double>(nearest_step(360.0 / smallest));
        constexpr double seconds_in_a_turn = 1296000.0;
        if (spaces > seconds_in_a_turn || std::abs(spaces * smallest - 360.0) > 360.0 * 1e-5)
            return bench.complaint(bench.key("vernier"), "vernier",
                                   "the vernier's step of " + degrees_figure(smallest, 9) +
                                       "° is finer than a second, or does not go into a whole turn",
                                   "give the table's smallest setting, as 0.0166667 for a minute");
        grids.push_back({std::nullopt, static_cast<long long>(spaces)});
        return grids;
    }
    for (const int circle : circles_of(bench.method.plates))
        if (const auto holes = holes_per_turn(bench.method.ratio, circle)) grids.push_back({circle, *holes});
    if (grids.empty())
        return bench.complaint(
            bench.key("plates"), "plates", "on none of these circles does a turn of the work end in a hole",
            "give the plates' circles, and the head's ratio as turns of the crank in one turn of the work");
    return grids;
}

/// Facets at multiples of the wanted step, each in the hole nearest to it, on the circle whose worst residual
/// is least.
Grid grid_for_step(const std::vector<Grid>& grids, double step) {
    const auto worst = [&](const Grid& grid) {
        double off = 0.0;
        for (double angle = 0.0; angle < 360.0 - 1e-9; angle += step)
            off = std::max(
                off,
                std::abs(
                    wrapped(ShaftAngle::from_degrees(grid.degrees(grid.nearest(angle)) - angle)).degrees()));
        return off;
    };
    Grid best = grids.front();
    double least = worst(best);
    for (const Grid& grid : grids) {
        const double here = worst(grid);
        if (here < least - 1e-9) best = grid, least = here;
    }
    return best;
}

std::vector<long long> spaces_for_step(const Grid& grid, double step) {
    std::vector<long long> spaces;
    const long long count = step_above(360.0 / step);
    for (long long i = 0; i < count; ++i)
        spaces.push_back(grid.nearest(step * static_cast<double>(i)));
    std::sort(spaces.begin(), spaces.end());
    spaces.erase(std::unique(spaces.begin(), spaces.end()), spaces.end());
    return spaces;
}

struct Division {
    Grid grid;
    Facets facets;
};

double widest_step(const Bench& bench, double highest) {
    double widest = 360.0;
    for (const SolvedLobe& lobe : bench.lobes) {
        const double step = bench.cutter_radius
                                ? step_for_rounds(lobe.base_radius, *bench.cutter_radius, highest)
                                : step_for_flats(lobe.base_radius, highest);
        widest = std::min(widest, step * 180.0 / std::numbers::pi);
    }
    return widest;
}

/// The ridge that the finest grid leaves, to say what can be had; nothing where its cuts don't meet.
std::optional<double> finest_ridge(const Bench& bench, const Grid& grid) {
    double highest = 0.0;
    for (const Workpiece& piece : bench.pieces) {
        for (long long space = 0; space < grid.spaces; ++space) {
            const auto ridge = piece.ridge(grid, space, space + 1);
            if (!ridge) return std::nullopt;
            highest = std::max(highest, *ridge);
        }
    }
    return highest;
}

Diagnostic too_coarse(const Bench& bench, const Grid& finest) {
    const auto ridge = finest_ridge(bench, finest);
    return bench.complaint(bench.key("cusp"), "cusp",
                           "no even step and its halves on these circles keep every ridge within " +
                               bench.length(*bench.method.cusp) + "; the finest, " +
                               degrees_figure(finest.degrees(1), 4) + "° a space, leaves " +
                               (ridge ? bench.length(*ridge) : "walls between the cuts"),
                           "raise cusp, or give plates (or a vernier) that divide finer");
}

/// Finer steps than this, 7200 facets a lobe, are a slip of the pen, in the step or in the ridge.
constexpr double finest_step = 0.05;  // degrees

std::optional<Diagnostic> too_fine(const Bench& bench) {
    const double step =
        bench.method.step ? bench.method.step->degrees() : widest_step(bench, *bench.method.cusp);
    if (step >= finest_step) return std::nullopt;
    return bench.complaint(bench.key(bench.method.step ? "step" : "cusp"), "too-many-facets",
                           "that takes " + fixed(360.0 / step, 0) + " facets or more on each lobe",
                           bench.method.step ? "take a wider step" : "raise cusp");
}

Outcome<Division> divide(const Bench& bench, const std::vector<Grid>& grids) {
    if (bench.method.step || bench.method.cusp)
        if (const auto refused = too_fine(bench)) return *refused;
    if (bench.method.step) {
        const double step = bench.method.step->degrees();
        const Grid grid = grid_for_step(grids, step);
        return Division{grid, Facets(bench.lobes.size(), spaces_for_step(grid, step))};
    }
    const double highest = *bench.method.cusp;
    Division best;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const Grid& grid : grids) {
        Facets facets = facets_for_ridge(bench.pieces, grid, widest_step(bench, highest), highest);
        std::size_t count = 0;
        for (const auto& lobe : facets)
            count += lobe.size();
        if (facets.empty() || count >= fewest) continue;
        best = {grid, std::move(facets)};
        fewest = count;
    }
    if (!best.facets.empty()) return best;
    const auto finest = std::max_element(grids.begin(), grids.end(),
                                         [](const Grid& a, const Grid& b) { return a.spaces < b.spaces; });
    return too_coarse(bench, *finest);
}

std::vector<std::size_t> along_the_shaft(const std::vector<SolvedLobe>& lobes) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < lobes.size(); ++i)
        order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lobes[a].z < lobes[b].z; });
    return order;
}

HandSetting setting_of(const Bench& bench, const Division& division, std::size_t lobe, long long space) {
    HandSetting setting;
    setting.work = HandWork::facet;
    setting.lobe = lobe;
    setting.index = division.grid.degrees(space);
    if (division.grid.circle) {
        const CrankSetting crank = crank_after(space, *division.grid.circle);
        setting.turns = crank.turns;
        setting.hole = crank.hole;
        setting.circle = crank.circle;
    }
    setting.shaft_angle = bench.pieces[lobe].facing(division.grid, space);
    setting.wanted = setting.shaft_angle;
    if (bench.method.step) {
        const double step = bench.method.step->degrees();
        setting.wanted = bench.method.zero +
                         ShaftAngle::from_degrees(sign_of(bench.method.counts) * step *
                                                  static_cast<double>(nearest_step(setting.index / step)));
    }
    setting.finish = bench.pieces[lobe].facet(division.grid, space).cut.distance;
    if (bench.job.shaft.blank_diameter)
        setting.start = bench.blank_radius + bench.cutter_radius.value_or(0.0);
    return setting;
}

/// Where each facet's cutter first meets metal, and in how many passes. Where the cuts so far leave a wall
/// with an undercut, the blank's outside stands for it.
void add_touches(const Bench& bench, std::vector<HandSetting>& settings, std::size_t first) {
    CutsSoFar done;
    for (std::size_t i = first; i < settings.size(); ++i) {
        HandSetting& setting = settings[i];
        const double facing = setting.shaft_angle.radians();
        const auto left = outline_of(done.beside(facing), bench.blank_radius);
        const double touches = left ? first_touch(*left, facing, bench.cutter_radius) : *setting.start;
        setting.touches = std::max(touches, *setting.finish);
        if (bench.method.infeed) {
            const double depth = *setting.touches - *setting.finish;
            setting.passes = std::max(1, static_cast<int>(step_above(depth / *bench.method.infeed)));
        }
        done.add(bench.cutter_radius ? round_cut(setting.shaft_angle, *setting.finish, *bench.cutter_radius)
                                     : flat_cut(setting.shaft_angle, *setting.finish));
    }
}

/// What the facets of one lobe leave; nothing where neighbouring cuts do not meet.
std::optional<HandFinish> finish_of(const Bench& bench, const Division& division, std::size_t lobe) {
    const Workpiece& piece = bench.pieces[lobe];
    const auto& spaces = division.facets[lobe];
    HandFinish finish;
    finish.lobe = lobe;
    std::vector<HandCut> cuts;
    for (std::size_t i = 0; i < spaces.size(); ++i) {
        const long long next = i + 1 < spaces.size() ? spaces[i + 1] : spaces.front() + division.grid.spaces;
        const auto ridge = piece.ridge(division.grid, spaces[i], next);
        if (!ridge) return std::nullopt;
        finish.highest_ridge = std::max(finish.highest_ridge, *ridge);
        HandCut cut = piece.facet(division.grid, spaces[i]).cut;
        cut.facing += piece.lobe().at.radians();
        cuts.push_back(cut);
    }
    const auto outline = outline_of(cuts, bench.blank_radius);
    if (!outline) return std::nullopt;
    finish.proudest = finish.highest_ridge;
    finish.deepest = std::min(0.0, bench.blank_radius - piece.lobe().contour.largest_radius());
    put_timing(bench.job, piece.lobe(), *outline, finish);
    return finish;
}

Diagnostic cuts_apart(const Bench& bench, std::size_t lobe) {
    const std::string about = "lobe \"" + bench.lobes[lobe].name + "\": at this step ";
    if (!bench.cutter_radius)
        return bench.complaint(bench.key("step"), "step-too-wide", about + "neighbouring flats do not meet",
                               "take a finer step, on plates (or a vernier) that divide finer");
    return bench.complaint(bench.key("step"), "step-too-wide",
                           about + "the cuts of a cutter of " + bench.length(2.0 * *bench.cutter_radius) +
                               " diameter leave walls between them",
                           "take a finer step, or a larger cutter");
}

/// Spaces from each facet to the next one, once round.
std::set<long long> advances(const Division& division) {
    std::set<long long> steps;
    for (const auto& spaces : division.facets)
        for (std::size_t i = 0; i < spaces.size(); ++i)
            steps.insert((i + 1 < spaces.size() ? spaces[i + 1] : spaces.front() + division.grid.spaces) -
                         spaces[i]);
    return steps;
}

std::string way_words(const Grid& grid, long long spaces) {
    if (!grid.circle) return degrees_and_minutes(grid.degrees(spaces), 0);
    const CrankSetting crank = crank_after(spaces, *grid.circle);
    std::string text;
    if (crank.turns > 0) text = counted(crank.turns, "turn");
    if (crank.hole > 0) text += (text.empty() ? "" : " and ") + counted(crank.hole, "hole");
    return text;
}

/// How the whole shaft is divided, in one sentence.
Diagnostic division_words(const Bench& bench, const Division& division, const HandPlan& plan) {
    const std::string on =
        division.grid.circle ? " on the circle of " + std::to_string(*division.grid.circle) : "";
    const auto words = [&](long long spaces) { return way_words(division.grid, spaces); };
    const auto steps = advances(division);
    const long long widest = *steps.rbegin();
    if (!bench.method.step)
        return finding(
            Severity::note, "steps-by-curvature", "",
            steps.size() == 1
                ? "even steps of " + words(widest) + on + " keep every ridge low enough"
                : "steps of " + words(*steps.begin()) + " to " + words(widest) + on +
                      ": finer where the radius of curvature asks for it; follow the sheet row by row");
    double worst = 0.0;
    for (const HandSetting& setting : plan.settings)
        worst = std::max(worst, std::abs(wrapped(setting.shaft_angle - setting.wanted).degrees()));
    if (worst > 1e-9)
        return finding(
            Severity::note, "angular-indexing", "",
            "angular indexing" + on + ": each facet in the setting nearest to its angle, the worst " +
                degrees_figure(worst * 60.0, 2) +
                "' off; counted from zero, this never adds up, and each depth is for the angle as it is "
                "set, so that it "
                "costs no accuracy");
    return finding(
        Severity::note, "simple-indexing", "",
        "simple indexing: every facet is " + words(widest) + on + " from the one before it, and " +
            (steps.size() == 1 ? "the last closes on the first"
                               : "the last is " + words(*steps.begin()) + " from closing on the first"));
}

FacetSetup setup_of(const Bench& bench, const Division& division, const HandPlan& plan) {
    FacetSetup setup;
    setup.circle = division.grid.circle;
    if (!setup.circle) setup.smallest_degrees = division.grid.degrees(1);
    setup.cutter_radius = bench.cutter_radius;
    if (setup.circle) {
        std::set<int> arms;
        for (const long long step : advances(division))
            if (const int spaces = static_cast<int>(step % *setup.circle); spaces > 0) arms.insert(spaces);
        setup.arms.assign(arms.begin(), arms.end());
    }
    if (bench.cutter_radius || !bench.job.shaft.blank_diameter) return setup;
    for (const HandSetting& setting : plan.settings) {
        const double half_squared =
            bench.blank_radius * bench.blank_radius - *setting.finish * *setting.finish;
        setup.widest_flat = std::max(setup.widest_flat, 2.0 * std::sqrt(std::max(0.0, half_squared)));
    }
    return setup;
}

/// Whether the contour can be cut by this cutter at all.
void check_lobes(const Bench& bench, Diagnostics& complaints) {
    for (const SolvedLobe& lobe : bench.lobes) {
        const double hollow = lobe.contour.smallest_hollow_radius();
        const std::string place = "profile." + bench.job.lobes[lobe.entry].profile;
        if (hollow < infinity && !bench.cutter_radius)
            complaints.push_back(bench.complaint(
                place, "hollow",
                "lobe \"" + lobe.name + "\": flats can't make its hollow flanks of radius " +
                    bench.length(hollow),
                "cut with the side of a cutter of less than " + bench.length(2.0 * hollow) +
                    " diameter (cutter_axis = \"parallel\"), or give the lobe convex flanks"));
        else if (hollow < infinity && *bench.cutter_radius >= hollow)
            complaints.push_back(bench.complaint(
                bench.key("cutter"), "hollow",
                "lobe \"" + lobe.name + "\": a cutter of " + bench.length(2.0 * *bench.cutter_radius) +
                    " diameter does not fit its hollow flanks of radius " + bench.length(hollow),
                "use one of less than " + bench.length(2.0 * hollow) + " diameter"));
    }
}

/// How wide the cutter is along the shaft, as far as it is known.
std::optional<double> width_along(const Bench& bench) {
    if (bench.method.tool_width || !bench.cutter_radius) return bench.method.tool_width;
    return bench.cutter().kind == CutterKind::disc ? std::optional(bench.cutter().width) : std::nullopt;
}

/// The bar's; where it is not given, further out than any corner of facets that meet can stand: for three
/// flats on a round that is twice its radius, and two round cuts meet within their cutters' centres.
double blank_radius_of(const Bench& bench) {
    if (bench.job.shaft.blank_diameter) return *bench.job.shaft.blank_diameter / 2.0;
    double largest = 0.0;
    for (const SolvedLobe& lobe : bench.lobes)
        largest = std::max(largest, lobe.contour.largest_radius());
    return 4.0 * (largest + bench.cutter_radius.value_or(0.0));
}

Outcome<HandPlan> plan_on(Bench& bench, HandPlan plan) {
    bench.blank_radius = blank_radius_of(bench);
    const auto known = bench.job.shaft.blank_diameter ? std::optional(bench.blank_radius) : std::nullopt;
    for (const SolvedLobe& lobe : bench.lobes)
        bench.pieces.emplace_back(lobe, bench.method, bench.cutter_radius, known);
    const auto grids = grids_of(bench);
    if (!grids) return grids.diagnostics();
    const auto division = divide(bench, *grids);
    if (!division) return division.diagnostics();
    for (const std::size_t lobe : along_the_shaft(bench.lobes)) {
        const std::size_t first = plan.settings.size();
        for (const long long space : division->facets[lobe])
            plan.settings.push_back(setting_of(bench, *division, lobe, space));
        if (bench.job.shaft.blank_diameter) add_touches(bench, plan.settings, first);
    }
    for (std::size_t i = 0; i < plan.settings.size(); ++i)
        plan.settings[i].order = static_cast<int>(i) + 1;
    for (std::size_t i = 0; i < bench.lobes.size(); ++i) {
        const auto finish = finish_of(bench, *division, i);
        if (!finish) return cuts_apart(bench, i);
        plan.finish.push_back(*finish);
    }
    plan.facets = setup_of(bench, *division, plan);
    plan.findings.push_back(division_words(bench, *division, plan));
    tell_finish(bench.job, bench.lobes, plan);
    return plan;
}

}  // namespace

Outcome<HandPlan> plan_facets(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name) {
    const HandMethod& method = job.hand.at(name);
    Bench bench{job, lobes, name, method, {}, {}, {}};
    if (method.cutter_axis == CutterAxis::parallel) bench.cutter_radius = bench.cutter().diameter / 2.0;
    HandPlan plan;
    plan.method = name;
    Diagnostics complaints = faults_of_blank(job, lobes);
    check_lobes(bench, complaints);
    const std::string width_key = bench.key(method.tool_width ? "tool_width" : "cutter");
    plan.plunges = plan_plunges(job, lobes, width_along(bench), width_key, complaints);
    if (bench.cutter_radius) check_body(job, lobes, bench.cutter(), bench.key("cutter"), complaints);
    if (!complaints.empty()) return complaints;
    return plan_on(bench, std::move(plan));
}

}  // namespace lobewright::hand
