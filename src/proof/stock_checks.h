/// What must never touch: rapids and standing spindles the stock, necks, shanks and holders anything,
/// everything the journals. The stock is what the moves before have left of the blank.
#pragma once

#include "proof/findings.h"
#include "proof/lobe_planes.h"

namespace lobewright::proof {

/// Touching is going deeper than this, mm: clear of rounding, far below any chip.
inline constexpr double touch_depth = 1e-4;

/// Rapids that go into what is left of the stock when their turn comes. Where an axis that turns or slides
/// moves together with the radial one, the controller need not let them arrive together: such a rapid must
/// also stay clear where the axis that goes deeper is first.
int check_rapids(const std::vector<ShaftMove>& moves, const CutterBody& body,
                 const std::vector<LobePlanes>& lobes, Findings& findings);

/// Feeds into the stock with the spindle standing.
void check_spindle(const std::vector<ShaftMove>& moves, const CutterBody& body,
                   const std::vector<LobePlanes>& lobes, Findings& findings);

/// Neck, shank and holder against the lobes. Over a lobe's ray they are held against the blank until the
/// first cut there, against what is left at the time where they come nearest, and against what is left at the
/// end.
void check_blunt_parts(const std::vector<ShaftMove>& moves, const CutterBody& body,
                       const std::vector<LobePlanes>& lobes, Findings& findings);

void check_journals(const std::vector<ShaftMove>& moves, const CutterBody& body, const Shaft& shaft,
                    Findings& findings);

}  // namespace lobewright::proof
