#include "toolpath/path/pass.h"

#include "base/whole_steps.h"
#include "toolpath/path/infeed.h"
#include "toolpath/path/leads.h"
#include "toolpath/path/linear_floor.h"
#include "toolpath/path/pass_contour.h"
#include "toolpath/path/way_down.h"
#include "toolpath/path/way_in.h"
#include "toolpath/roughing/stock_sectors.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

namespace lobewright::toolpath {
namespace {

/// Travel over which a ring that lies in stock all round leaves it. Common practice, no source.
constexpr ShaftAngle lead_out_of_ring = ShaftAngle::from_degrees(3.0);

/// Of the feed: the lowest for which knots are laid out. Of 6,200 passes of random jobs one in twenty was
/// quicker with a lower one, none by 1 %.
constexpr double lowest_layout = 0.04;

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

/// As kept_over_floor, found once for all places along the shaft. `from` and `to`: see cut.
Knots kept(const PassFrame& frame, KnotChain chain, long long from, long long to, const ChainTiming& timing) {
    KnownContours* known = frame.order().known;
    if (known == nullptr) return kept_over_floor(std::move(chain), timing);
    KnownContours::Chain given{moved_on(chain.knots, -from), KnownContours::place_of(frame, from, to)};
    if (const Knots* found = known->find_kept(given)) return moved_on(*found, from);
    Knots made = kept_over_floor(std::move(chain), timing);
    known->keep(std::move(given), moved_on(made, -from));
    return made;
}

/// Comes down over the chain's first knot, feeds along it and retracts. What lies between the places `from`
/// and `to` of travel is contour; with its first knot past the place of a stage that begins. The first has
/// begun.
void cut(PathBuilder& path, const std::vector<Stage>& stages, KnotChain chain, long long from, long long to) {
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
    const auto laid = [&](const GridKnot& a, const GridKnot& b) {
        return stage_at(a)->frame->laid_between(a, b, on_contour(a, b));
    };
    const PassFrame& frame = *stages.front().frame;
    const std::vector<Down> way = way_down(frame, chain.knots.front().radial);
    const Knots knots =
        kept(frame, std::move(chain), from, to,
             {blocks_of(frame, way), block, laid, chain_rules(frame.setup()), frame.setup().steps,
              frame.setup().grid.least_linear_feed, frame.function().least()});
    path.rapid_to({frame.safe(), frame.axial_at(knots.front().rotary), knots.front().rotary});
    for (const Down& down : way) {
        const double length = length_of(frame, path.now().radial, down.to);
        path.feed_in_air({down.to, path.now().axial, path.now().travel}, length, down.feed,
                         down.at_axis_speed);
    }
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

/// Whether the cutter goes further on along the shaft in a turn than it covers.
bool leaves_ridges(const PassFrame& frame, const Slide& slide) {
    if (slide.to <= slide.from) return true;
    constexpr double rounding = 1e-9;
    const double way = static_cast<double>(std::abs(slide.axial_to - slide.axial_from));
    const double turns = static_cast<double>(slide.to - slide.from) / static_cast<double>(frame.turn());
    return way * frame.setup().grid.axial_step > frame.order().helix->pitch * turns * (1.0 + rounding);
}

/// Contour and leads as one chain.
KnotChain with_leads(const PassFrame& frame, Knots in, KnotChain chain, Knots out) {
    const long long longest = frame.steps(frame.longest_block());
    in.push_back(chain.knots.front());
    out.insert(out.begin(), chain.knots.back());
    if (in.size() > 1) chain.rooms.insert(chain.rooms.begin(), room_above(in, longest));
    if (out.size() > 1) chain.rooms.push_back(room_above(out, longest));
    chain.knots.insert(chain.knots.begin(), in.begin(), in.end() - 1);
    chain.knots.insert(chain.knots.end(), out.begin() + 1, out.end());
    return chain;
}

/// Feeds for which the knots of a pass are laid out in turn, the quickest of which is taken: those of a
/// series of five a decade, from the first that is no less than the pass's own down. A larger feed has all
/// that a lower one has; so it never takes longer. Where no jumps are limited knots don't depend on the feed.
class LayoutFeeds {
  public:
    explicit LayoutFeeds(double feed) {
        while (figure() < feed)
            up();
        while (figure() >= feed * most)
            down();
    }
    [[nodiscard]] double figure() const { return series[at_] * decade_; }
    void down() {
        if (at_ == 0) decade_ /= 10.0, at_ = std::size(series);
        --at_;
    }

  private:
    static constexpr double series[] = {1.0, 1.6, 2.5, 4.0, 6.3};
    static constexpr double most = 1.6;
    void up() {
        if (++at_ == std::size(series)) decade_ *= 10.0, at_ = 0;
    }
    std::size_t at_ = 0;
    double decade_ = 1.0;
};

bool same_moves(const PathPart& a, const PathPart& b) {
    const auto same = [](const Move& x, const Move& y) { return x.to == y.to; };
    return std::equal(a.moves.begin(), a.moves.end(), b.moves.begin(), b.moves.end(), same);
}

/// A pass that `cut` adds to a path, its knots laid out for a feed, or for its own: the quickest. False where
/// there is none.
template <class Cut>
bool quickest(PathBuilder& path, const Setup& setup, double feed, Cut cut) {
    const AxisLimits& limits = setup.machine.limits;
    if (!limits.radial_jump && !limits.rotary_jump) return cut(path, std::nullopt);
    std::optional<PathPart> best, last;
    for (LayoutFeeds feeds(feed); feeds.figure() > lowest_layout * feed; feeds.down()) {
        PathBuilder trial(setup, path.now());
        if (!cut(trial, std::optional(feeds.figure()))) break;
        PathPart part = trial.finish();
        const bool settled = last && same_moves(*last, part);  // no lower feed asks for other knots
        if (!best || part.seconds < best->seconds) best = part;
        if (settled) break;
        last = std::move(part);
    }
    if (!best) return false;
    if (!best->moves.empty()) path.append(*best);
    return true;
}

}  // namespace

namespace {

bool round_at(PathBuilder& path, const Setup& setup, const RadialFunction& function, PassOrder order,
              std::optional<double> layout_feed) {
    order.layout_feed = layout_feed;
    const PassFrame frame(setup, function, order);
    const double drop = order.stock + setup.air;
    WayIn in = way_in(frame, drop, path.now().travel);
    const long long start = in.start, out = in.out;
    const int turns = order.helix ? order.helix->turns + 2 : order.repeats + 1;
    const long long end =
        start + frame.steps(ShaftAngle::from_radians(turns * full_turn) + setup.cut.overlap);
    auto contour = contour_chain(frame, start, end);
    if (!contour && !order.heels.empty()) {  // from where its own nodes lie there may be one
        order.heels.clear();
        return round_at(path, setup, function, order, layout_feed);
    }
    if (!contour) return false;
    for (int i = 1; i <= order.repeats; ++i)
        divide_level(contour->knots, start + frame.steps(ShaftAngle::from_radians(i * full_turn)));
    std::optional<Slide> slide;
    if (order.helix) slide = slide_along(frame, contour->knots, start, end);
    if (slide && leaves_ridges(frame, *slide)) {
        ++order.helix->turns;
        return round_at(path, setup, function, order, layout_feed);
    }
    const PassFrame along = slide ? frame.sliding(*slide) : frame;
    std::vector<Stage> stages{{start, &along, order.pass}};
    add_springs(stages, along, start);
    path.begin_pass(order.pass);
    cut(path, stages,
        with_leads(along, std::move(in.knots), std::move(*contour),
                   lead_knots(frame, {end, end + out, setup.air, false})),
        start, end);
    return true;
}

bool infeed_at(PathBuilder& path, const Setup& setup, const std::vector<RadialFunction>& turns,
               PassOrder infeed, PassOrder order, std::optional<double> layout_feed) {
    infeed.layout_feed = order.layout_feed = layout_feed;
    const RadialFunction& size = turns.back();
    const PassFrame outside(setup, turns.front(), infeed), frame(setup, size, order);
    const PassFrame coming(setup, size, infeed);
    PassOrder slow = infeed;
    slow.feed = order.feed;
    const PassFrame coming_to_size(setup, size, slow);
    const auto [start, in, out] = soonest_start(frame, setup.air, setup.air, path.now().travel);
    const auto count = static_cast<long long>(turns.size()) - 1;
    const long long at_size = start + count * frame.turn();
    const long long end =
        at_size + frame.steps(ShaftAngle::from_radians((order.repeats + 1) * full_turn) + setup.cut.overlap);
    auto contour = contour_chain(frame, at_size, end);
    if (!contour && !order.heels.empty()) {
        order.heels.clear();
        return infeed_at(path, setup, turns, infeed, order, layout_feed);
    }
    if (!contour) return false;
    for (int i = 1; i <= order.repeats; ++i)
        divide_level(contour->knots, at_size + i * frame.turn());
    auto chain = infeed_chain(coming, turns, start, contour->knots.front());
    if (!chain) return false;
    chain->knots.insert(chain->knots.end(), contour->knots.begin() + 1, contour->knots.end());
    chain->rooms.push_back(std::move(contour->rooms.front()));
    std::vector<Stage> stages{{start, &coming, infeed.pass},
                              {at_size - frame.turn(), &coming_to_size, infeed.pass, false},
                              {at_size, &frame, order.pass}};
    add_springs(stages, frame, at_size);
    path.begin_pass(infeed.pass);
    cut(path, stages,
        with_leads(outside, lead_knots(outside, {start - in, start, setup.air, true}), std::move(*chain),
                   lead_knots(frame, {end, end + out, setup.air, false})),
        start, end);
    return true;
}

bool sectors_at(PathBuilder& path, const Setup& setup, const RadialFunction& function, PassOrder order,
                std::optional<double> layout_feed) {
    order.layout_feed = layout_feed;
    const PassFrame frame(setup, function, order);
    std::vector<std::pair<StockSector, KnotChain>> sectors;
    for (StockSector sector : sectors_in_stock(setup, function, order.narrowest)) {
        Knots in = way_into_sector(frame, sector.from, order.stock + setup.air);
        const long long turns =
            frame.turns_to(path.now().travel, in.empty() ? sector.from : in.front().rotary);
        in = moved_on(std::move(in), turns);
        sector.from += turns, sector.to += turns;
        auto contour = contour_chain(frame, sector.from, sector.to);
        if (!contour) return false;
        const long long out = sector.to + frame.steps(lead_out_of_ring);
        const Knots rise = sector.whole ? rise_from(frame, contour->knots.back(), out) : Knots{};
        sectors.emplace_back(sector, with_leads(frame, std::move(in), std::move(*contour), rise));
    }
    if (sectors.empty()) return true;
    std::sort(sectors.begin(), sectors.end(),
              [](const auto& a, const auto& b) { return a.first.from < b.first.from; });
    path.begin_pass(order.pass);
    for (const auto& [sector, chain] : sectors)
        cut(path, {{sector.from, &frame, order.pass}}, chain, sector.from, sector.to);
    return true;
}

}  // namespace

bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
               const PassOrder& order) {
    return quickest(path, setup, order.feed, [&](PathBuilder& trial, std::optional<double> layout_feed) {
        return round_at(trial, setup, function, order, layout_feed);
    });
}

bool cut_infeed(PathBuilder& path, const Setup& setup, const std::vector<RadialFunction>& turns,
                const PassOrder& infeed, const PassOrder& order) {
    return quickest(path, setup, infeed.feed, [&](PathBuilder& trial, std::optional<double> layout_feed) {
        return infeed_at(trial, setup, turns, infeed, order, layout_feed);
    });
}

bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                 const PassOrder& order) {
    return quickest(path, setup, order.feed, [&](PathBuilder& trial, std::optional<double> layout_feed) {
        return sectors_at(trial, setup, function, order, layout_feed);
    });
}

}  // namespace lobewright::toolpath
