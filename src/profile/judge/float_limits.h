/// What keeps a follower on its lobe all round: the worst over the turn of what contact_load.h says of one
/// angle.
#pragma once

#include "profile/follower/lobe_curve.h"
#include "profile/judge/contact_load.h"

namespace lobewright::profile {

/// The largest float_tendency, s²; 0 where the follower never slows down.
double largest_float_tendency(const ContactLoad& load, const LobeCurve& curve);
/// The largest preload_needed, N, and rate_needed, N/mm (infinite where no rate does).
double largest_preload_needed(const ContactLoad& load, const LobeCurve& curve, double cam_speed);
double largest_rate_needed(const ContactLoad& load, const LobeCurve& curve, double cam_speed);

}  // namespace lobewright::profile
