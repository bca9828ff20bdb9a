#include "toolpath/path/pass.h"

#include "base/whole_steps.h"
#include "toolpath/path/infeed.h"
#include "toolpath/path/joint_jumps.h"
#include "toolpath/path/leads.h"
#include "toolpath/path/linear_floor.h"
#include "toolpath/path/pass_contour.h"
#include "toolpath/roughing/stock_sectors.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace lobewright::toolpath {
namespace {

/// Travel over which a ring that lies in stock all round leaves it. Common practice, no source.
constexpr ShaftAngle lead_out_of_ring = ShaftAngle::from_degrees(3.0);

/// Whole turns, in steps, that bring a place of travel to where the path has come, or past it.
long long turns_to(const PassFrame& frame, const PathBuilder& path, long long place) {
    const long long turn = frame.turn(), behind = path.now().travel - place;
    return (behind > 0 ? (behind + turn - 1) / turn : behind / turn) * turn;
}

/// Straight down in air where jumps of the radial speed are limited: rising to the axis's speed and falling
/// from it in short steps.
void come_down_in_steps(PathBuilder& path, const PassFrame& frame, long long radial, double jump,
                        const std::function<void(long long, double)>& feed_to) {
    constexpr int most_steps = 8;
    constexpr double step_seconds = 0.02;
    constexpr double most_of_the_way = 0.4;  // for either ramp
    const long long from = path.now().radial, down = radial - from;
    const double feed = frame.limits().radial_speed.value_or(frame.order().feed);
    const int steps = std::clamp(static_cast<int>(feed / jump), 1, most_steps);
    const double unit_step =
        jump / 60.0 * step_seconds / frame.setup().steps.radial;  // grid steps of the slowest
    const double ramp = 0.5 * steps * (steps - 1) * unit_step;
    const double share =
        std::min(1.0, most_of_the_way * static_cast<double>(std::abs(down)) / std::max(ramp, 1.0));
    const long long sign = down < 0 ? -1 : 1;
    const auto ramped = [&](int k) { return nearest_step(0.5 * k * (k + 1) * unit_step * share); };
    for (int k = 1; k < steps; ++k)
        feed_to(from + sign * ramped(k), k * jump);
    for (int k = steps - 1; k >= 1; --k)
        feed_to(radial - sign * ramped(k), std::min(feed, (k + 1) * jump));
    feed_to(radial, jump);
}

/// Straight down in air, at the axis's speed but for the last of it.
void come_down(PathBuilder& path, const PassFrame& frame, long long radial) {
    const double step = frame.setup().steps.radial;
    const std::function<void(long long, double)> feed_to = [&](long long to, double at) {
        const double length = static_cast<double>(std::abs(to - path.now().radial)) * step;
        path.feed_to({to, path.now().axial, path.now().travel}, length, at);
    };
    if (const auto& jump = frame.limits().radial_jump)
        return come_down_in_steps(path, frame, radial, *jump, feed_to);
    const double feed = frame.limits().radial_speed.value_or(frame.order().feed);
    feed_to(std::min(path.now().radial, radial + nearest_step(frame.setup().gap / step)), feed);
    feed_to(radial, std::min(feed, frame.order().feed));
}

/// What the chain is from a place of travel on.
struct Stage {
    long long from = 0;
    const PassFrame* frame = nullptr;
    Pass pass;
    bool begins_pass = true;  // false: only its feed is another
};

/// The spring passes of an order whose first turn begins at `from`.
void add_springs(std::vector<Stage>& stages, const PassFrame& frame, long long from) {
    Pass pass = frame.order().pass;
    pass.kind = PassKind::spring;
    pass.depth = 0.0;
    for (int i = 1; i <= frame.order().repeats; ++i)
        stages.push_back({from + i * frame.turn(), &frame, pass});
}

/// Comes down over the chain's first knot, feeds along it and retracts. What lies between the places `from`
/// and `to` of travel is contour; with its first knot past the place of a stage that begins. The first has
/// begun.
void cut(PathBuilder& path, const std::vector<Stage>& stages, const Knots& chain, long long from,
         long long to) {
    const auto on_contour = [&](const GridKnot& a, const GridKnot& b) {
        return a.rotary >= from && b.rotary <= to;
    };
    const auto stage_at = [&](const GridKnot& a) {
        const auto next = std::find_if(stages.begin() + 1, stages.end(),
                                       [&](const Stage& stage) { return stage.from > a.rotary; });
        return next - 1;
    };
    const auto block = [&](const GridKnot& a, const GridKnot& b) {
        return stage_at(a)->frame->block_between(a, b, on_contour(a, b));
    };
    const PassFrame& frame = *stages.front().frame;
    const Knots knots = eased(chain, block, frame.limits(), frame.setup().steps);
    path.rapid_to({frame.safe(), frame.axial_at(knots.front().rotary), knots.front().rotary});
    come_down(path, frame, knots.front().radial);
    auto stage = stages.begin();
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const GridKnot &a = knots[i - 1], &b = knots[i];
        for (; stage != stage_at(a); ++stage) {
            if ((stage + 1)->begins_pass) path.begin_pass((stage + 1)->pass);
        }
        PathBlock made = block(a, b);
        if (on_contour(a, b)) {
            path.count_contour_block();
            made.chip = stage->frame->chip_between(a, b, stage->pass.depth);
        }
        path.feed_to({b.radial, stage->frame->axial_at(b.rotary), b.rotary}, made.distance, made.feed,
                     made.chip);
    }
    path.rapid_to({frame.safe(), path.now().axial, path.now().travel});
}

/// From a turn and the overlap after the start to as much before the end, at knots: on a level heel they are
/// put in there.
Slide slide_along(const PassFrame& frame, Knots& contour, long long start, long long end) {
    const long long once = frame.turn() + frame.steps(frame.setup().cut.overlap);
    divide_level(contour, start + once);
    divide_level(contour, end - once);
    const auto before = [](const GridKnot& knot, long long at) { return knot.rotary < at; };
    const auto after = [](long long at, const GridKnot& knot) { return at < knot.rotary; };
    const auto first = std::lower_bound(contour.begin(), contour.end(), start + once, before);
    const auto last = std::upper_bound(contour.begin(), contour.end(), end - once, after) - 1;
    const double to = frame.order().helix->to / frame.setup().grid.axial_step;
    return {first->rotary, last->rotary, frame.axial(), nearest_step(to)};
}

/// Contour and leads as one chain; on the leads no block is so flat that it would run away.
Knots with_leads(const PassFrame& frame, Knots in, const Knots& contour, Knots out) {
    const LinearFloor floor(frame);
    in.push_back(contour.front());
    out.insert(out.begin(), contour.back());
    Knots chain = floor.kept_above(in);
    chain.insert(chain.end(), contour.begin() + 1, contour.end());
    const Knots leaving = floor.kept_above(out);
    chain.insert(chain.end(), leaving.begin() + 1, leaving.end());
    return chain;
}

}  // namespace

bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
               const PassOrder& order) {
    const PassFrame frame(setup, function, order);
    const ShaftAngle overlap = setup.cut.overlap;
    const Heel heel = heel_of(function);
    const double drop = order.stock + setup.air;
    const double radius = length(function.at(0.5 * (heel.start + heel.end)).point);
    const LeadAngles leads = lead_angles(heel, radius, drop, setup.air, overlap);
    const long long in = frame.steps(leads.in), out = frame.steps(leads.out);
    const ShaftAngle earliest = frame.travel(path.now().travel + in);
    const long long start = start_after(heel, leads, overlap, earliest, setup.steps.rotary);
    const int turns = order.helix ? order.helix->turns + 2 : order.repeats + 1;
    const long long end = start + frame.steps(ShaftAngle::from_radians(turns * full_turn) + overlap);
    auto contour = contour_knots(frame, start, end);
    if (!contour) return false;
    for (int i = 1; i <= order.repeats; ++i)
        divide_level(*contour, start + frame.steps(ShaftAngle::from_radians(i * full_turn)));
    const PassFrame along = order.helix ? frame.sliding(slide_along(frame, *contour, start, end)) : frame;
    std::vector<Stage> stages{{start, &along, order.pass}};
    add_springs(stages, along, start);
    path.begin_pass(order.pass);
    cut(path, stages,
        with_leads(along, lead_knots(frame, {start - in, start, drop, true}), *contour,
                   lead_knots(frame, {end, end + out, setup.air, false})),
        start, end);
    return true;
}

bool cut_infeed(PathBuilder& path, const Setup& setup, const std::vector<RadialFunction>& turns,
                const PassOrder& infeed, const PassOrder& order) {
    const RadialFunction& size = turns.back();
    const PassFrame outside(setup, turns.front(), infeed), frame(setup, size, order);
    const PassFrame coming(setup, size, infeed);
    PassOrder slow = infeed;
    slow.feed = order.feed;
    const PassFrame coming_to_size(setup, size, slow);
    const Heel heel = heel_of(size);
    const double radius = length(size.at(0.5 * (heel.start + heel.end)).point);
    const LeadAngles leads = lead_angles(heel, radius, setup.air, setup.air, setup.cut.overlap);
    const long long in = frame.steps(leads.in), out = frame.steps(leads.out);
    const ShaftAngle earliest = frame.travel(path.now().travel + in);
    const long long start = start_after(heel, leads, setup.cut.overlap, earliest, setup.steps.rotary);
    const auto count = static_cast<long long>(turns.size()) - 1;
    const long long at_size = start + count * frame.turn();
    const long long end =
        at_size + frame.steps(ShaftAngle::from_radians((order.repeats + 1) * full_turn) + setup.cut.overlap);
    auto contour = contour_knots(frame, at_size, end);
    if (!contour) return false;
    for (int i = 1; i <= order.repeats; ++i)
        divide_level(*contour, at_size + i * frame.turn());
    auto knots = infeed_knots(coming, turns, start, contour->front());
    if (!knots) return false;
    knots->insert(knots->end(), contour->begin() + 1, contour->end());
    std::vector<Stage> stages{{start, &coming, infeed.pass},
                              {at_size - frame.turn(), &coming_to_size, infeed.pass, false},
                              {at_size, &frame, order.pass}};
    add_springs(stages, frame, at_size);
    path.begin_pass(infeed.pass);
    cut(path, stages,
        with_leads(outside, lead_knots(outside, {start - in, start, setup.air, true}), *knots,
                   lead_knots(frame, {end, end + out, setup.air, false})),
        start, end);
    return true;
}

bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                 const PassOrder& order) {
    const PassFrame frame(setup, function, order);
    std::vector<std::pair<StockSector, Knots>> sectors;
    for (StockSector sector : sectors_in_stock(setup, function)) {
        Knots in = slanting_lead_in(frame, sector.from);
        const long long turns = turns_to(frame, path, in.empty() ? sector.from : in.front().rotary);
        for (GridKnot& knot : in)
            knot.rotary += turns;
        sector.from += turns, sector.to += turns;
        const auto contour = contour_knots(frame, sector.from, sector.to);
        if (!contour) return false;
        const long long out = sector.to + frame.steps(lead_out_of_ring);
        const Knots rise = sector.whole
                               ? lead_knots(frame, {sector.to, out, setup.air, false, lead_parts_of_sector})
                               : Knots{};
        sectors.emplace_back(sector, with_leads(frame, std::move(in), *contour, rise));
    }
    if (sectors.empty()) return true;
    std::sort(sectors.begin(), sectors.end(),
              [](const auto& a, const auto& b) { return a.first.from < b.first.from; });
    path.begin_pass(order.pass);
    for (const auto& [sector, chain] : sectors)
        cut(path, {{sector.from, &frame, order.pass}}, chain, sector.from, sector.to);
    return true;
}

}  // namespace lobewright::toolpath
