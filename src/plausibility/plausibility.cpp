#include "plausibility/doubts.h"

#include <lobewright/plausibility.h>

namespace lobewright {

Diagnostics implausible_figures(const Job& job, const std::vector<SolvedLobe>& lobes) {
    plausibility::Doubts doubts(job, lobes);
    if (!doubt_whole_size(doubts)) {
        doubt_sizes(doubts);
        doubt_cards(doubts);
        doubt_shaft(doubts);
        doubt_followers(doubts);
        doubt_cutting(doubts);
        doubt_hand_work(doubts);
    }
    return doubts.all();
}

}  // namespace lobewright
