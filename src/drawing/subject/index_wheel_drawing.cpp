#include "drawing/subject/subjects.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace lobewright {
namespace drawing {
namespace {

constexpr double usual_diameter = 150.0;  // mm
constexpr double mark_length = 3.0, long_mark_length = 4.5;
constexpr double least_height = 1.2;  // of a number that can be read, mm of paper
constexpr double widest_ring = 4.0, least_ring = 1.6;
constexpr int holes = 3;  // of the screw circle
constexpr double screw_hole = 4.0;

struct WheelView {
    const Job& job;
    const HandMethod& method;
    double radius;
    DrawingBoard& board;

    [[nodiscard]] double pitch(double at_radius) const { return full_turn * at_radius / method.divisions; }
    /// Where a mark sits on the shaft, radians.
    [[nodiscard]] double towards(double mark) const {
        return method.zero.radians() + sign_of(method.counts) * full_turn * mark / method.divisions;
    }
};

/// The numbers: of every mark where that can be read, else of every 5th, 10th, ...; radii in mm.
struct Numbering {
    int every = 45;
    double height = least_height;
    double outer = 0.0, inner = 0.0;
};
Numbering numbering_of(const WheelView& view) {
    Numbering numbers;
    numbers.outer = view.radius - long_mark_length - 0.6;
    const double digits = static_cast<double>(std::to_string(view.method.divisions - 1).size());
    for (const int every : {1, 5, 10, 20, 30, 45}) {
        // As high as the gap between two numbers at their inner ends: r - 0.9 h n is that radius.
        const double share = 0.8 * every * full_turn / view.method.divisions;
        numbers.every = every;
        numbers.height = std::min(3.0, share * numbers.outer / (1.0 + 0.9 * digits * share));
        if (numbers.height >= least_height) break;
    }
    numbers.inner = numbers.outer - 0.9 * digits * numbers.height;
    return numbers;
}

/// Words along a radius, outer end at `radius`; never upside down.
void radial_text(DrawingBoard& board, double towards, double radius, const std::string& words,
                 double height) {
    const Vec2 way = unit(towards);
    const bool right = way.x >= -1e-9;
    const Vec2 below = (right ? -0.5 : 0.5) * height * quarter_turn(way);
    board.text(radius * way + below, words, right ? Anchor::end : Anchor::start, height,
               right ? direction(way) : direction(-way));
}

void draw_marks(const WheelView& view, const Numbering& numbers) {
    for (int mark = 0; mark < view.method.divisions; ++mark) {
        const double towards = view.towards(mark);
        const double size = mark % 5 == 0 ? long_mark_length : mark_length;
        view.board.line(view.radius * unit(towards), (view.radius - size) * unit(towards), Pen::thin);
        if (mark % numbers.every == 0)
            radial_text(view.board, towards, numbers.outer, std::to_string(mark), numbers.height);
    }
}

/// At a mark of its own each flank: "O1" the opening one of the first lobe, "C1" its closing one.
void write_flanks(const WheelView& view, const HandPlan& plan, double outer) {
    std::map<double, std::string> flanks;
    for (const HandSetting& setting : plan.settings) {
        if (!setting.mark || setting.work != HandWork::flank) continue;
        std::string& words = flanks[*setting.mark];
        const std::string word =
            (setting.part == HandPart::opening_flank ? "O" : "C") + std::to_string(setting.lobe + 1);
        if ((" " + words + " ").find(" " + word + " ") == std::string::npos)
            words += (words.empty() ? "" : " ") + word;
    }
    for (const auto& [mark, words] : flanks)
        radial_text(view.board, view.towards(mark), outer, words, small_height);
}

/// Neighbouring marks of a lobe's heel, from the first to the last; the last may be past a whole turn.
struct HeelRun {
    int first = 0, last = 0;
};
std::vector<HeelRun> heel_runs(const HandPlan& plan, std::size_t lobe, int divisions) {
    std::vector<bool> cut(static_cast<std::size_t>(divisions), false);
    for (const HandSetting& setting : plan.settings) {
        if (setting.mark && setting.work == HandWork::clear && setting.lobe == lobe)
            cut[static_cast<std::size_t>(*setting.mark) % cut.size()] = true;
    }
    const auto is_cut = [&](int mark) {
        return cut[static_cast<std::size_t>((mark + divisions) % divisions)];
    };
    std::vector<HeelRun> runs;
    for (int mark = 0; mark < divisions; ++mark) {
        if (!is_cut(mark) || is_cut(mark - 1)) continue;
        HeelRun run{mark, mark};
        while (run.last - run.first < divisions && is_cut(run.last + 1))
            ++run.last;
        runs.push_back(run);
    }
    return runs;
}

/// A ring for each lobe: a line over the marks at which its heel is cleared, with the lobe's number.
void draw_heels(const WheelView& view, const HandPlan& plan, std::size_t lobes, double outer, double inner) {
    const double pitch = std::min(widest_ring, (outer - inner) / static_cast<double>(lobes));
    if (pitch < least_ring) return;
    for (std::size_t lobe = 0; lobe < lobes; ++lobe) {
        const double radius = outer - (static_cast<double>(lobe) + 0.5) * pitch;
        for (const HeelRun& run : heel_runs(plan, lobe, view.method.divisions)) {
            const double from = view.towards(run.first), to = view.towards(run.last);
            view.board.arc({}, radius, from, to - from, Pen::outline);
            for (const double end : {from, to})
                view.board.line((radius - 0.3 * pitch) * unit(end), (radius + 0.3 * pitch) * unit(end),
                                Pen::outline);
            const double height = std::min(small_height, 0.6 * pitch);
            view.board.text((radius - 0.5 * pitch - height) * unit(from), "h" + std::to_string(lobe + 1),
                            Anchor::middle, height);
        }
    }
}

void draw_bore(DrawingBoard& board, const WheelSize& size) {
    board.centre_cross({}, std::max(4.0, size.bore / 2.0));
    if (size.bore > 0.0) board.circle({}, size.bore / 2.0, Pen::outline);
    if (size.screw_circle <= 0.0) return;
    board.circle({}, size.screw_circle / 2.0, Pen::axis);
    for (int i = 0; i < holes; ++i) {
        const Vec2 at = size.screw_circle / 2.0 * unit(full_turn * (i + 0.25) / holes);
        board.circle(at, screw_hole / 2.0, Pen::outline);
    }
}

/// "O opening flank, C closing flank, h heel; 1 = 1 inlet, 2 = ..." in lines that fit.
std::vector<std::string> legend(const std::vector<SolvedLobe>& lobes) {
    std::vector<std::string> lines{
        "at the marks: O opening flank, C closing flank; a ring h for each heel, from mark to mark; by the "
        "lobe's number:"};
    std::string line;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const std::string next = std::to_string(i + 1) + " = " + lobes[i].name;
        if (!line.empty() && line.size() + next.size() > 88) lines.push_back(std::exchange(line, ""));
        line += (line.empty() ? "" : ", ") + next;
    }
    lines.push_back(line);
    return lines;
}

Diagnostic no_wheel(const Job& job, const std::string& method) {
    Diagnostic complaint =
        finding(Severity::error, "no-index-wheel", "",
                "the method " + method + " has no index wheel: ask for one of an offset fixture",
                "hand." + method + ".method");
    complaint.place = job.place_of(complaint.key);
    return complaint;
}

}  // namespace
}  // namespace drawing

Outcome<Drawing> index_wheel_drawing(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     const HandPlan& plan, const WheelSize& size) {
    using namespace drawing;
    const HandMethod& method = job.hand.at(plan.method);
    if (method.kind != HandKind::offset_fixture) return no_wheel(job, plan.method);
    const double diameter = size.diameter.value_or(method.wheel_diameter.value_or(usual_diameter));
    DrawingBoard board;
    const WheelView view{job, method, diameter / 2.0, board};
    board.circle({}, view.radius, Pen::outline);
    const Numbering numbers = numbering_of(view);
    const double flanks = numbers.inner - 0.8, heels = flanks - 6.5;
    draw_marks(view, numbers);
    write_flanks(view, plan, flanks);
    draw_heels(view, plan, lobes.size(), heels,
               std::max(size.bore, size.screw_circle + 2.0 * screw_hole) / 2.0 + 1.0);
    draw_bore(board, size);
    std::vector<std::string> notes{
        "seen from the drive end, as it sits on the shaft; the datum points to the right",
        std::to_string(method.divisions) + " marks on a diameter of " + figure(diameter, job.units) +
            (job.units == Units::mm ? " mm" : " in")};
    const std::vector<std::string> more = legend(lobes);
    notes.insert(notes.end(), more.begin(), more.end());
    add_title_block(board, {job.title, "index wheel for " + plan.method, notes}, 1.0);
    return board.finished(job.title + ": index wheel", 1.0, job.units);
}

}  // namespace lobewright
