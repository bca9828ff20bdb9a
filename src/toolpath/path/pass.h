/// One pass over a lobe: the lead-in on the heel, once round with the overlap, the lead-out; or the sectors
/// of it that are not air.
///
/// Manners. The shaft turns in one sense through all passes, so that every start is come to from the same
/// side and no slack of the rotary axis shows. Lead-in and lead-out lie on the heel, where X stands still:
/// the cutter comes down along a parabola while the shaft turns and meets the surface along its tangent; it
/// leaves likewise. Into more stock than the heel is long for it comes along the lobe (way_in.h). Repeats of
/// a pass run on without leaving the work. A sector of roughing begins in the air before its stock: the
/// cutter comes down aslant through the stock's thin end, 1 in 2 at most, and lies on its curve where that
/// enters the blank; where the curve leaves the blank all of the sector is cut, and the cutter goes straight
/// out. It never stands still in contact, never comes down straight into stock, and goes from lobe to lobe
/// retracted. Rapids stay outside the blank; between their level and the stock the cutter moves at feed.
#pragma once

#include "toolpath/path/pass_frame.h"
#include "toolpath/path/path_builder.h"

namespace lobewright::toolpath {

/// Once round, with the overlap, and again as often as it is repeated; or along the lobe in a helix, whose
/// first and last turn, each with the overlap, stand still along the shaft. Wherever X stands still on the
/// heel so does the word. The tolerance's tunnel must be open on the grid: otherwise false, and nothing is
/// added.
[[nodiscard]] bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                             const PassOrder& order);

/// A wheel's way: from the outermost of `turns` down to the last, which is the size, in as many turns of the
/// shaft as lie between them, without a stop on the way; then as cut_round at size, all in one chain. Each
/// turn ends where the next begins; the last runs at the feed of what follows, whose surface it comes to.
/// Returns as cut_round.
[[nodiscard]] bool cut_infeed(PathBuilder& path, const Setup& setup, const std::vector<RadialFunction>& turns,
                              const PassOrder& infeed, const PassOrder& order);

/// Only where the contact lies within the blank: each such sector from air to air, the rest skipped at rapid.
/// Where there is no air it goes once round, from the place where its stock is thinnest. Returns as
/// cut_round.
[[nodiscard]] bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                               const PassOrder& order);

}  // namespace lobewright::toolpath
