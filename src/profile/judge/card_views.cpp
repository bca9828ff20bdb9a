#include "profile/judge/card_views.h"

#include "profile/timing/nose_direction.h"

#include <lobewright/timing.h>

namespace lobewright::profile {
namespace {

struct Height {
    CheckingLift at;
    double mm;
};

/// 1 mm and 0.050 in are the usual heights of cards: common practice, no source.
std::vector<Height> heights(const ValveTiming& timing) {
    std::vector<Height> all{{CheckingLift::clearance, timing.clearance}};
    if (timing.at_lift) all.push_back({CheckingLift::card, *timing.at_lift});
    all.push_back({CheckingLift::millimetre, 1.0});
    all.push_back({CheckingLift::fifty_thousandths, 1.27});
    return all;
}

}  // namespace

std::vector<CardView> card_views(const Job& job, const SolvedLobe& lobe) {
    const ValveTiming* timing = timing_of(job, job.lobes[lobe.entry]);
    std::vector<CardView> views;
    if (timing == nullptr) return views;
    for (const Height& height : heights(*timing)) {
        const auto events = valve_events_at(job, lobe, height.mm);
        if (!events) continue;
        views.push_back(
            {height.at, height.mm, events->opens, events->closes, events->duration, events->centre});
    }
    return views;
}

std::vector<OverlapView> overlap_views(const Job& job, const LobeReport& inlet, const LobeReport& exhaust) {
    std::vector<OverlapView> views;
    for (const CardView& opens : inlet.cards) {
        for (const CardView& closes : exhaust.cards) {
            if (opens.at != closes.at) continue;
            const CrankAngle centres = opens.centre + closes.centre;
            views.push_back({opens.at, opens.opens + closes.closes,
                             CamAngle::from_radians(centres.radians() * job.engine->cam_per_crank)});
        }
    }
    return views;
}

std::string checking_word(CheckingLift at) {
    switch (at) {
        case CheckingLift::clearance:
            return "clearance";
        case CheckingLift::card:
            return "at_lift";
        case CheckingLift::millimetre:
            return "1 mm";
        case CheckingLift::fifty_thousandths:
            return "0.050 in";
    }
    return {};
}

}  // namespace lobewright::profile
