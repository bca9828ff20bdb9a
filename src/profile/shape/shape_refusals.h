/// What is said of a lobe that can't be: the one place that turns the facts of cannot_be.h into sentences.
#pragma once

#include "profile/shape/cannot_be.h"
#include "profile/shape/lobe_shape.h"

namespace lobewright::profile {

/// At the place of the key that would cure it, in the job's units. Without words if the request wants none.
Diagnostic refusal_of(const ShapeRequest& request, const CannotBe& why);

}  // namespace lobewright::profile
