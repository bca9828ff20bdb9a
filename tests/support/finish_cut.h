/// A cut that only finishes, and may take whatever stands there: how much that is is not the matter.
#pragma once

#include <lobewright/job.h>

#include <string>

/// Tolerance in mm, surface feed in mm a minute, spindle speed in turns a minute (none: 0).
inline lobewright::Cut finish_cut(const std::string& cutter, double tolerance, double surface_feed,
                                  double spindle_speed = 0.0) {
    lobewright::Cut cut;
    cut.cutter = cutter;
    cut.tolerance = tolerance;
    cut.finish_depth = 10.0;
    cut.surface_feed = surface_feed;
    cut.spindle_speed = spindle_speed;
    return cut;
}
