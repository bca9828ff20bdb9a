/// The index settings of a shaft that swings off centre between the lathe's centres.
#pragma once

#include "hand/hand_contour.h"

#include <lobewright/diagnostic.h>
#include <lobewright/hand.h>

#include <string>
#include <vector>

namespace lobewright {

/// All flanks first, once round the wheel; then the clearing cuts of every heel, once round again; what they
/// leave. Clearing cuts stand on whole marks strictly between the flanks' settings and within the true heel,
/// so that none can touch a flank or a nose. Where the method has a wanted ridge or step, only as many as it
/// asks for.
Outcome<HandPlan> plan_offset_fixture(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const std::string& method);

/// The noses of a solved arcs lobe as a file leaves them, in the shaft's frame.
std::vector<FiledNose> filed_noses(const SolvedLobe& lobe);

/// Length of the land between two flanks that are set `between` apart (radians), as an arc on the blank's
/// outside, mm;
/// <= 0 where none is left.
double land_arc(double between, double offset, double swept_radius, double blank_radius);

}  // namespace lobewright
