#include "hand/sheet/hand_sheet.h"
#include "hand/sheet/route.h"

#include <algorithm>
#include <utility>

namespace lobewright {
namespace {

using namespace hand;

/// Columns that a screen shows by its own means: what is done, and which cut it is.
bool is_shown_otherwise(const std::string& head) {
    return head == "done" || head == "cut" || head == "cuts" || head == "Cut";
}

class StepsOfRoute {
  public:
    void take(const RoutePart& part) {
        switch (part.kind) {
            case RoutePartKind::title:
            case RoutePartKind::heading:
                return take_heading(part);
            case RoutePartKind::step:
                return begin(part.text);
            case RoutePartKind::box:
            case RoutePartKind::lead:
                return add(part);
            case RoutePartKind::bullet:
                return note((part.emphasis.empty() ? "" : part.emphasis + " ") + part.text);
            case RoutePartKind::paragraph:
                return pending_.push_back(part.text);
            case RoutePartKind::caption:
                caption_ = part.text;
                return;
            case RoutePartKind::table:
                return part.cuts.empty() ? take_table(part) : take_cuts(part);
        }
    }
    [[nodiscard]] std::vector<RouteStep> steps() && { return std::move(steps_); }

  private:
    void begin(const std::string& part) {
        part_ = part;
        fresh_ = true;
    }

    /// What stands before the work's steps is read, heading by heading; in a step it is a thing to do.
    void take_heading(const RoutePart& part) {
        if (part.stop) return add(part);
        begin(part.text);
        put({});
    }

    void put(RouteStep step) {
        step.part = part_;
        step.notes.insert(step.notes.begin(), pending_.begin(), pending_.end());
        pending_.clear();
        steps_.push_back(std::move(step));
        fresh_ = false;
    }

    void add(const RoutePart& part) {
        RouteStep step;
        step.text = part.text;
        step.stop = part.stop;
        step.circle = part.circle;
        step.arms = part.arms;
        if (!part.after) return put(std::move(step));
        step.part = part_;
        const auto cut = std::find_if(steps_.begin(), steps_.end(), [&](const RouteStep& each) {
            return each.first <= *part.after && *part.after < each.first + each.count;
        });
        steps_.insert(cut == steps_.end() ? cut : cut + 1, std::move(step));
    }

    void note(const std::string& text) {
        if (fresh_)
            pending_.push_back(text);
        else
            steps_.back().notes.push_back(text);
    }

    void take_table(const RoutePart& part) {
        if (fresh_) put({});
        const auto& rows = part.rows->rows();
        steps_.back().tables.push_back(
            {std::exchange(caption_, {}), rows.front(), {rows.begin() + 1, rows.end()}});
    }

    void take_cuts(const RoutePart& part) {
        const auto& rows = part.rows->rows();
        for (std::size_t i = 0; i < part.cuts.size(); ++i) {
            const RowCuts& cuts = part.cuts[i];
            RouteStep step;
            step.set = cuts.set;
            step.first = cuts.first;
            step.count = cuts.count;
            for (std::size_t c = 0; c < rows.front().size(); ++c) {
                const RouteFigure figure{rows.front()[c], rows[i + 1][c]};
                if (figure.value.empty() || figure.name == cuts.set.name || is_shown_otherwise(figure.name))
                    continue;
                step.figures.push_back(figure);
            }
            step.figures.insert(step.figures.end(), cuts.more.begin(), cuts.more.end());
            put(std::move(step));
        }
    }

    std::vector<RouteStep> steps_;
    std::string part_, caption_;
    std::vector<std::string> pending_;  ///< notes of the step that comes next
    bool fresh_ = true;                 ///< nothing stands in the part yet
};

}  // namespace

std::vector<RouteStep> hand_route(const Job& job, const std::vector<SolvedLobe>& lobes,
                                  const HandPlan& plan) {
    const Route route = written_route(job, lobes, plan);
    StepsOfRoute steps;
    for (const RoutePart& part : route.parts())
        steps.take(part);
    return std::move(steps).steps();
}

}  // namespace lobewright
