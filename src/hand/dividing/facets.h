/// Lobes cut facet by facet on a dividing head or a rotary table.
///
/// This folder holds the dividing head and the rotary table: their settings, and the facets made by them.
#pragma once

#include "hand/facts.h"

#include <lobewright/hand.h>

#include <string>
#include <vector>

namespace lobewright::hand {

/// Why these lobes can't be cut so at all, whatever the division: hollows, neighbours.
Obstacles obstacles_to_facets(const Job& job, const std::vector<SolvedLobe>& lobes, const HandMethod& method);

/// Facets lobe by lobe from the drive end, each lobe once round in the head's own counting sense, so that its
/// worm always bears on one side. Every facet's depth belongs to the angle as set, not as wanted: what the
/// nearest hole is off costs no accuracy. Required: no obstacles, and the bar encloses the lobes.
Planned plan_facets(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method);

}  // namespace lobewright::hand
