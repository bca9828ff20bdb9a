/// The route as it is written, part by part: pages.h lays it out on paper, route_steps.cpp makes one step
/// after the other of it.
#pragma once

#include "base/text/markdown.h"

#include <lobewright/hand_route.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::hand {

/// What a row of a table cuts: settings [first, first + count) of the plan.
struct RowCuts {
    std::size_t first = 0, count = 0;
    RouteFigure set;                ///< of the index
    std::vector<RouteFigure> more;  ///< beside the row's own figures
};

enum class RoutePartKind { title, heading, step, box, lead, bullet, paragraph, caption, table };

struct RoutePart {
    RoutePartKind kind = RoutePartKind::paragraph;
    std::string text;
    std::string emphasis;               ///< a word before the text that must not be overlooked
    std::optional<MarkdownTable> rows;  ///< of a table
    std::vector<RowCuts> cuts;          ///< of a table whose rows are cuts, by row
    std::optional<double> stop;         ///< mm: it is set then
    std::optional<int> circle;          ///< holes: the pin is set to it then
    std::optional<int> arms;            ///< spaces: they are set so then
    std::optional<std::size_t> after;   ///< a box that is due as soon as this setting is cut
};

class Route {
  public:
    void title(const std::string& text) { add(RoutePartKind::title, text); }  ///< in the largest type
    void heading(const std::string& text) { add(RoutePartKind::heading, text); }
    /// A heading with the next number: one step of the work.
    void step(const std::string& text);
    void box(const std::string& text) { add(RoutePartKind::box, text); }  ///< something to do, and to tick
    /// Likewise; a setting of the plan: due as soon as that is cut.
    void box_after(std::size_t setting, const std::string& text);
    void lead(const std::string& text) { add(RoutePartKind::lead, text); }  ///< likewise, and what follows
    void plate(int circle, const std::string& text);  ///< a box; the pin is set to a circle of holes
    void arms(int spaces, const std::string& text);   ///< a lead; the sector arms are set
    void stop(double mm, const std::string& text);    ///< a title; the cross slide's stop is set
    void bullet(const std::string& text, const std::string& emphasis = {});
    void paragraph(const std::string& text) { add(RoutePartKind::paragraph, text); }
    void caption(const std::string& text) { add(RoutePartKind::caption, text); }  ///< of the table after it
    /// `cuts`: empty, or one for each row.
    void table(MarkdownTable rows, std::vector<RowCuts> cuts = {});

    [[nodiscard]] const std::vector<RoutePart>& parts() const { return parts_; }

  private:
    void add(RoutePartKind kind, const std::string& text);

    std::vector<RoutePart> parts_;
    int steps_ = 0;
};

}  // namespace lobewright::hand
