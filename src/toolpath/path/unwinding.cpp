#include "toolpath/path/unwinding.h"

#include "base/whole_steps.h"
#include "toolpath/path/block_timing.h"

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace lobewright::toolpath {
namespace {

/// Moves [first, last) that hang together: from retracted to retracted.
struct Stroke {
    std::size_t first = 0, last = 0;
    long long low = 0, high = 0;  // rotary words, steps
    bool indexes = false;         // its first move turns the shaft, retracted, and may turn it elsewhere
};

bool retracted(const Toolpath& path, const Words& at) {
    return at.radial >= path.start.radial;
}

/// A stroke that begins with a rapid at the level of rapids starts where that ends.
std::vector<Stroke> strokes_of(const Toolpath& path) {
    std::vector<Stroke> strokes;
    Words at = path.start;
    bool indexed = false;
    for (std::size_t i = 0; i < path.moves.size(); ++i) {
        const Move& move = path.moves[i];
        const bool clear = retracted(path, at);
        const bool indexes = clear && move.kind == MoveKind::rapid && retracted(path, move.to);
        if (strokes.empty() || (clear && (indexes || !indexed))) {
            const long long from = indexes ? move.to.rotary : at.rotary;
            strokes.push_back({i, i, from, from, indexes});
        }
        Stroke& stroke = strokes.back();
        stroke.last = i + 1;
        stroke.low = std::min(stroke.low, move.to.rotary);
        stroke.high = std::max(stroke.high, move.to.rotary);
        indexed = indexes;
        at = move.to;
    }
    return strokes;
}

/// Counts of whole turns that may be added to a stroke; none where `least` > `most`.
struct Turns {
    long long least = 0, most = 0;
};

class Unwinder {
  public:
    Unwinder(const Setup& setup, Toolpath path, double reach)
        : setup_(setup),
          old_(std::move(path)),
          strokes_(strokes_of(old_)),
          turn_(nearest_step(360.0 / setup.grid.rotary_step)),
          reach_(step_below(reach / setup.grid.rotary_step)) {
        if (strokes_.empty()) return;
        strokes_.front().low = std::min(strokes_.front().low, old_.start.rotary);
        strokes_.front().high = std::max(strokes_.front().high, old_.start.rotary);
    }

    [[nodiscard]] std::optional<ReachTooShort> too_short() const {
        std::optional<ReachTooShort> worst;
        for (const Stroke& stroke : strokes_) {
            const double least = static_cast<double>(least_reach(stroke)) * setup_.grid.rotary_step;
            const double turn = static_cast<double>(stroke.high - stroke.low) * setup_.grid.rotary_step;
            const Turns may = turns_of(stroke);
            if (may.least <= may.most || (worst && worst->least >= least)) continue;
            worst = ReachTooShort{lobe_of(stroke), turn, least};
        }
        return worst;
    }

    Toolpath unwound() {
        const std::vector<long long> turns = turns_of_all();
        path_ = old_;
        path_.moves.clear();
        if (strokes_.empty()) return std::move(path_);
        path_.start.rotary += turns.front() * turn_;
        at_ = path_.start;
        std::vector<std::size_t> put_in;  // before these of the old moves
        for (std::size_t i = 0; i < strokes_.size(); ++i) {
            const bool back = i > 0 && turns[i] != turns[i - 1];
            if (back && !strokes_[i].indexes) {
                put_in.push_back(strokes_[i].first);
                wind_back(turns[i] - turns[i - 1]);
            } else if (back) {
                count_time_of_rapid(strokes_[i], turns[i], turns[i - 1]);
                path_.unwindings.push_back(path_.moves.size());
            }
            add(strokes_[i], turns[i]);
        }
        move_passes(put_in);
        return std::move(path_);
    }

  private:
    /// Of the smallest reach that holds the stroke, in steps: whichever whole turns are added.
    [[nodiscard]] long long least_reach(const Stroke& stroke) const {
        const long long middle = -(stroke.low + stroke.high) / (2 * turn_);
        long long least = std::numeric_limits<long long>::max();
        for (long long k = middle - 1; k <= middle + 1; ++k)
            least = std::min(
                least, std::max(std::llabs(stroke.low + k * turn_), std::llabs(stroke.high + k * turn_)));
        return least;
    }
    /// The most whole turns that are no more than `steps`.
    [[nodiscard]] long long whole_turns(long long steps) const {
        return steps / turn_ - (steps % turn_ < 0 ? 1 : 0);
    }
    [[nodiscard]] Turns turns_of(const Stroke& stroke) const {
        return {-whole_turns(stroke.low + reach_), whole_turns(reach_ - stroke.high)};
    }
    [[nodiscard]] std::size_t lobe_of(const Stroke& stroke) const {
        for (const Pass& pass : old_.passes) {
            if (stroke.first < pass.last) return pass.lobe;
        }
        return old_.passes.empty() ? 0 : old_.passes.back().lobe;
    }

    /// For each stroke: as many in a row as have a count in common keep it, the one nearest to that before.
    [[nodiscard]] std::vector<long long> turns_of_all() const {
        std::vector<long long> turns;
        long long last = 0;
        while (turns.size() < strokes_.size()) {
            Turns common = turns_of(strokes_[turns.size()]);
            std::size_t end = turns.size() + 1;
            for (; end < strokes_.size(); ++end) {
                const Turns here = turns_of(strokes_[end]);
                const Turns both{std::max(common.least, here.least), std::min(common.most, here.most)};
                if (both.least > both.most) break;
                common = both;
            }
            last = std::clamp(last, common.least, common.most);
            turns.resize(end, last);
        }
        return turns;
    }

    [[nodiscard]] double rapid(const Words& from, const Words& to) const {
        const WordGrid& grid = setup_.grid;
        return rapid_seconds(static_cast<double>(to.radial - from.radial) * grid.radial_step,
                             static_cast<double>(to.axial - from.axial) * grid.axial_step,
                             static_cast<double>(to.rotary - from.rotary) * grid.rotary_step,
                             setup_.machine.limits);
    }
    void count(double seconds) {
        path_.cycle_seconds += seconds;
        path_.unwinding_seconds += seconds;
    }
    void wind_back(long long turns) {
        Words to = at_;
        to.rotary += turns * turn_;
        count(rapid(at_, to));
        path_.unwindings.push_back(path_.moves.size());
        path_.moves.push_back({MoveKind::rapid, to, 0.0});
    }
    /// What the stroke's first rapid takes longer, now that it winds back.
    void count_time_of_rapid(const Stroke& stroke, long long turns, long long before) {
        Words onwards = old_.moves[stroke.first].to, back = onwards;
        onwards.rotary += before * turn_;
        back.rotary += turns * turn_;
        count(rapid(at_, back) - rapid(at_, onwards));
    }
    void add(const Stroke& stroke, long long turns) {
        for (std::size_t i = stroke.first; i < stroke.last; ++i) {
            Move move = old_.moves[i];
            move.to.rotary += turns * turn_;
            path_.moves.push_back(move);
            at_ = move.to;
        }
    }
    void move_passes(const std::vector<std::size_t>& put_in) {
        const auto moved = [&](std::size_t index) {
            const auto before = std::lower_bound(put_in.begin(), put_in.end(), index) - put_in.begin();
            return index + static_cast<std::size_t>(before);
        };
        for (Pass& pass : path_.passes) {
            pass.first = moved(pass.first);
            pass.last = moved(pass.last);
            pass.contour_first = moved(pass.contour_first);
        }
    }

    const Setup& setup_;
    Toolpath old_, path_;
    std::vector<Stroke> strokes_;
    long long turn_, reach_;  // steps
    Words at_;
};

}  // namespace

std::optional<RotaryReach> rotary_reach(const Setup& setup) {
    const double largest = setup.grid.largest_rotary;
    const auto& travel = setup.machine.limits.rotary_travel;
    if (travel && (largest == 0.0 || *travel <= largest)) return RotaryReach{*travel, true};
    if (largest > 0.0) return RotaryReach{largest, false};
    return std::nullopt;
}

std::variant<Toolpath, ReachTooShort> unwound(const Setup& setup, Toolpath path, double reach) {
    Unwinder unwinder(setup, std::move(path), reach);
    if (const auto short_by = unwinder.too_short()) return *short_by;
    return unwinder.unwound();
}

double seconds_within_reach(const Setup& setup, const Toolpath& path) {
    const auto reach = rotary_reach(setup);
    if (!reach) return path.cycle_seconds;
    const auto kept = unwound(setup, path, reach->degrees);
    constexpr double more_than_any = 1e12;
    if (const auto* why = std::get_if<ReachTooShort>(&kept)) return more_than_any + why->least;
    return std::get<Toolpath>(kept).cycle_seconds;
}

}  // namespace lobewright::toolpath
