#include "plausibility/doubts.h"

#include <lobewright/number_text.h>

namespace lobewright::plausibility {
namespace {

// All limits of this file: common practice, no source.

/// mm of a pass: of a shaft that swings against a lathe tool, and of a cutter that faces a flat.
constexpr Usual usual_turning{0.005, 0.5};
constexpr Usual usual_milling{0.005, 2.0};

constexpr double highest_ridge = 0.1;    // mm
constexpr double stoned_off = 0.01;      // mm
constexpr double most_left_on = 0.5;     // mm: more is not ground off a cam, it is cut
constexpr double usually_left_on = 0.1;  // mm

void doubt_infeed(Doubts& doubts, const std::string& path, const HandMethod& method) {
    if (!method.infeed) return;
    const bool turning = method.kind == HandKind::offset_fixture;
    const Usual usual = turning ? usual_turning : usual_milling;
    if (usual.holds(*method.infeed)) return;
    const std::string pass = "each pass takes " + doubts.length(*method.infeed);
    const std::string usual_words =
        "give " + doubts.length(turning ? 0.1 : 0.3) + " to " + doubts.length(turning ? 0.25 : 1.0);
    doubts.ask(path + ".infeed", "infeed",
               *method.infeed > usual.most && turning
                   ? pass + " off the radius, and the shaft meets the tool with a blow at every turn"
                   : pass,
               doubts.other_unit(*method.infeed, usual).value_or(usual_words));
}

void doubt_ridge(Doubts& doubts, const std::string& path, const HandMethod& method) {
    if (!method.cusp || *method.cusp <= highest_ridge) return;
    doubts.ask(path + ".cusp", "ridge",
               "ridges of " + doubts.length(*method.cusp) + " may stand between the cuts",
               doubts.other_unit(*method.cusp, {least_fine_length, highest_ridge})
                   .value_or("give what a stone takes off, " + doubts.length(stoned_off) + " or less"));
}

void doubt_allowance(Doubts& doubts, const std::string& path, const HandMethod& method) {
    if (method.allowance <= most_left_on) return;
    doubts.ask(path + ".allowance", "hand-allowance",
               doubts.length(method.allowance) + " is left on all round, for stone, lap or grinder",
               doubts.other_unit(method.allowance, {least_fine_length, most_left_on})
                   .value_or("give what they take off, " + doubts.length(usually_left_on) + " or so"));
}

}  // namespace

void doubt_hand_work(Doubts& doubts) {
    for (const auto& [name, method] : doubts.job.hand) {
        doubt_infeed(doubts, "hand." + name, method);
        doubt_ridge(doubts, "hand." + name, method);
        doubt_allowance(doubts, "hand." + name, method);
    }
}

}  // namespace lobewright::plausibility
