/// How fast a program lets the cut run along the finished surface.
#pragma once

#include "proof/judge/findings.h"
#include "proof/judge/lobe_planes.h"
#include "proof/sweep/move_marks.h"

namespace lobewright::proof {

/// The contact's mean speed over each of the moves that finish the surface (see judge_plane), against the
/// job's feed: above it by half as much again an error, by a tenth a warning.
void check_surface_feed(const ShaftMoves& moves, const MoveMarks& finishes, const LobePlanes& lobe,
                        double surface_feed, Findings& findings);

}  // namespace lobewright::proof
