#include "drawing/subject/subjects.h"

#include <lobewright/number_text.h>
#include <lobewright/timing.h>

#include <cmath>

namespace lobewright {
namespace drawing {
namespace {

struct WheelEvent {
    double after_tdc = 0.0;  ///< crank degrees after the top dead centre, any turn
    std::string words;
};

/// "10° before TDC", "50° after BDC": as a timing card has it.
std::string card_words(double degrees, const char* centre, bool before) {
    if (degrees < 0.0) degrees = -degrees, before = !before;
    return degree_figure(degrees, 1) + (before ? " before " : " after ") + centre;
}

/// Of cylinder 1, or of all where only other cylinders have lobes with events.
std::vector<WheelEvent> events_of(const Job& job, const std::vector<SolvedLobe>& lobes) {
    std::vector<WheelEvent> events;
    for (const SolvedLobe& lobe : lobes) {
        const LobeEntry& entry = job.lobes[lobe.entry];
        const auto found = entry.cylinder == 1 ? valve_events(job, lobe) : std::nullopt;
        if (!found) continue;
        const double opens = found->opens.degrees(), closes = found->closes.degrees();
        if (entry.valve == Valve::inlet) {
            events.push_back({-opens, "inlet opens " + card_words(opens, "TDC", true)});
            events.push_back({180.0 + closes, "inlet closes " + card_words(closes, "BDC", false)});
        } else {
            events.push_back({180.0 - opens, "exhaust opens " + card_words(opens, "BDC", true)});
            events.push_back({closes, "exhaust closes " + card_words(closes, "TDC", false)});
        }
    }
    return events;
}

struct DegreeWheel {
    double radius;
    double sense;  ///< +1: the numbers grow counter-clockwise
    DrawingBoard& board;

    /// Top dead centre stands at the top.
    [[nodiscard]] Vec2 way(double degrees) const {
        return turned(unit(sense * degrees * full_turn / 360.0), up);
    }
};

void draw_degrees(const DegreeWheel& wheel) {
    for (int degree = 0; degree < 360; ++degree) {
        const double size = degree % 10 == 0 ? 8.0 : degree % 5 == 0 ? 6.0 : 3.5;
        const Vec2 way = wheel.way(degree);
        wheel.board.line(wheel.radius * way, (wheel.radius - size) * way, Pen::thin);
        if (degree % 10 != 0) continue;
        const Vec2 at = (wheel.radius - 11.5) * way - Vec2{0.0, small_height / 2.0};
        wheel.board.text(at, std::to_string(degree), Anchor::middle, small_height);
    }
}

void draw_events(const DegreeWheel& wheel, const std::vector<WheelEvent>& events) {
    for (const WheelEvent& event : events) {
        const Vec2 way = wheel.way(event.after_tdc);
        wheel.board.line(0.2 * wheel.radius * way, (wheel.radius - 15.0) * way, Pen::outline);
        wheel.board.arrow((wheel.radius - 15.0) * way, way);
        const bool right = way.x >= 0.0;
        const Vec2 along = right ? way : -way;
        wheel.board.text((wheel.radius - 20.0) * way + 1.0 * quarter_turn(along), event.words,
                         right ? Anchor::end : Anchor::start, small_height, direction(along));
    }
}

Diagnostic no_events(const Job& job) {
    Diagnostic complaint =
        finding(Severity::error, "no-events", "",
                "a degree wheel wants valve events, and no lobe of cylinder 1 has any: give "
                "[engine] its card, and lobes their cylinder and valve",
                "engine");
    complaint.place = job.place_of("engine");
    return complaint;
}

}  // namespace
}  // namespace drawing

Outcome<Drawing> degree_wheel_drawing(const Job& job, const std::vector<SolvedLobe>& lobes, double diameter,
                                      Sense crank) {
    using namespace drawing;
    const std::vector<WheelEvent> events = events_of(job, lobes);
    if (events.empty()) return no_events(job);
    DrawingBoard board;
    const DegreeWheel wheel{diameter / 2.0, -sign_of(crank), board};
    board.circle({}, wheel.radius, Pen::outline);
    draw_degrees(wheel);
    draw_events(wheel, events);
    board.centre_cross({}, 8.0);
    board.text(Vec2{0.0, wheel.radius + 2.0}, "TDC", Anchor::middle, plain_height);
    board.text(Vec2{0.0, -wheel.radius - 5.5}, "BDC", Anchor::middle, plain_height);
    add_title_block(board,
                    {job.title,
                     "degree wheel for the crankshaft, cylinder 1",
                     {std::string("for a crankshaft that runs ") +
                          (crank == Sense::cw ? "clockwise" : "counter-clockwise") +
                          " as you look at the wheel, with a pointer that stands still",
                      "set it by a stop on the piston: the same reading either side of the dead centre",
                      "events at the valve's clearance, degrees of the crankshaft"}},
                    1.0);
    return board.finished(job.title + ": degree wheel", 1.0, job.units);
}

}  // namespace lobewright
