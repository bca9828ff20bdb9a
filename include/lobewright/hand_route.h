/// The route of a hand method, one thing to do after the other: what the sheet for the bench holds, for a
/// screen that shows one step at a time.
#pragma once

#include <lobewright/hand.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// A named figure, as words.
struct RouteFigure {
    std::string name;   ///< "mark", "first touches at"
    std::string value;  ///< in the job's units
};

struct RouteTable {
    std::string caption;
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
};

/// One thing to read or to do, to be ticked off before going on.
struct RouteStep {
    std::string part;  ///< of the work: "Step 6. Flanks of the whole shaft: cuts 1 to 4 of 94"
    std::string text;  ///< what to do; empty where a setting says it all
    std::vector<std::string> notes;
    std::vector<RouteTable> tables;
    std::optional<RouteFigure> set;  ///< what the index is set to
    std::vector<RouteFigure> figures;
    std::size_t first = 0, count = 0;  ///< of the plan's settings those that are cut then; 0: none is
    std::optional<double> stop;        ///< the cross slide's stop is set, mm as the dial shows it
    std::optional<int> circle;         ///< the crank's pin is set to the plate's circle of so many holes
    std::optional<int> arms;           ///< the sector arms are set to hold so many spaces
};

/// All of the route in the order of the work: how to read it, what to mind, then step by step. Every setting
/// of the plan stands in one step.
std::vector<RouteStep> hand_route(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

}  // namespace lobewright
