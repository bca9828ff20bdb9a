/// What a cutter whose section shrinks beside its axis leaves where it goes along the lobe while the shaft
/// turns.
///
/// On a ray of the design the cutter passes again and again, each time further along the shaft. It is deepest
/// in the plane of its own place as it passes, and between two passages what is left is highest in the plane
/// where both leave the same: the ridge runs round the lobe as a helix does, and no few planes across the
/// shaft meet it everywhere. So it is followed on rays a degree apart, and where it comes out highest (and
/// where a passage is deepest) a plane is judged as any other, with all that lies beside the ray in it.
#pragma once

#include "proof/judge/lobe_planes.h"

#include <vector>

namespace lobewright::proof {

/// mm: what may hide between the planes so found.
inline constexpr double hidden_in_helix = 2e-4;

/// Planes, mm along the shaft, in which the deepest passages and the highest ridges lie; none where the lobe
/// is not cut so. `stock`: radius of the round blank, mm.
std::vector<double> planes_of_helix(const ShaftMoves& moves, const CutterPart& part, double stock,
                                    const LobePlanes& lobe);

}  // namespace lobewright::proof
