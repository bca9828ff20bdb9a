/// The grid that a dialect's words lie on, and the limits that a path must keep for it.
#pragma once

namespace lobewright {

/// What a path must know of the dialect. dialect.h makes it (word_grid); the toolpath knows no dialect.
struct WordGrid {
    double radial_step = 1e-4;          ///< mm of *radius* in one step of the radial word's last decimal
    double axial_step = 1e-4;           ///< mm
    double rotary_step = 1e-3;          ///< degrees
    double longest_rotary_block = 0.0;  ///< degrees, of a feed block; 0: no limit
    double least_linear_feed = 0.0;  ///< mm/min: a block whose radial and axial way is run slower than this,
                                     ///< by a controller that won't, must have no such way; 0: any
    double blend_tolerance = 0.0;    ///< mm the controller may cut corners by; taken off the tunnel
    double largest_rotary = 0.0;     ///< degrees, of a rotary word either side of zero; 0: any
};

}  // namespace lobewright
