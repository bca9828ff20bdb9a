#include "hand/sheet/route.h"

#include <utility>

namespace lobewright::hand {

void Route::add(RoutePartKind kind, const std::string& text) {
    RoutePart part;
    part.kind = kind;
    part.text = text;
    parts_.push_back(std::move(part));
}

void Route::step(const std::string& text) {
    add(RoutePartKind::step, "Step " + std::to_string(++steps_) + ". " + text);
}

void Route::box_after(std::size_t setting, const std::string& text) {
    box(text);
    parts_.back().after = setting;
}

void Route::plate(int circle, const std::string& text) {
    box(text);
    parts_.back().circle = circle;
}

void Route::arms(int spaces, const std::string& text) {
    lead(text);
    parts_.back().arms = spaces;
}

void Route::stop(double mm, const std::string& text) {
    title(text);
    parts_.back().stop = mm;
}

void Route::bullet(const std::string& text, const std::string& emphasis) {
    add(RoutePartKind::bullet, text);
    parts_.back().emphasis = emphasis;
}

void Route::table(MarkdownTable rows, std::vector<RowCuts> cuts) {
    add(RoutePartKind::table, {});
    parts_.back().rows = std::move(rows);
    parts_.back().cuts = std::move(cuts);
}

}  // namespace lobewright::hand
