/// What the lobes make of their timing cards, at every lift at which cards are compared.
#pragma once

#include <lobewright/soundness.h>

#include <string>
#include <vector>

namespace lobewright::profile {

/// In the order of CheckingLift; without those that the lobe doesn't lift its valve by, or that its card
/// doesn't have. Empty without a card.
std::vector<CardView> card_views(const Job& job, const SolvedLobe& lobe);

/// At every lift that both have.
std::vector<OverlapView> overlap_views(const Job& job, const LobeReport& inlet, const LobeReport& exhaust);

/// "clearance", "at_lift", "1 mm", "0.050 in".
std::string checking_word(CheckingLift at);

}  // namespace lobewright::profile
