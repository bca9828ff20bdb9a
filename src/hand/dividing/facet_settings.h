/// The settings of a divided shaft, facet by facet.
#pragma once

#include "hand/dividing/division.h"

#include <lobewright/hand.h>

#include <vector>

namespace lobewright::hand {

/// A shaft on a dividing head or rotary table; mm.
struct FacetedShaft {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const HandMethod& method;
    std::optional<double> cutter_radius;  ///< nothing: its flat end cuts
    double blank_radius = 0.0;
    std::vector<FacetedLobe> faceted;
    Division division;
};

/// Lobe by lobe from the drive end, each once round; with where the cutter first meets metal, where the bar
/// is known.
std::vector<HandSetting> facet_settings(const FacetedShaft& shaft);

}  // namespace lobewright::hand
