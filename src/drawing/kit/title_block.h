/// The block below a drawing: whose it is, what it shows, its scale, a check of the printer, the caution.
#pragma once

#include "drawing/kit/drawing_board.h"

namespace lobewright::drawing {

struct TitleBlock {
    std::string job;                 ///< its title
    std::string shows;               ///< "lobe 1 inlet"
    std::vector<std::string> notes;  ///< a line each
    bool true_scale = true;          ///< whether a ruler may be laid on it: with the check lines
};

/// Below everything that is on the board.
void add_title_block(DrawingBoard& board, const TitleBlock& block, double scale);

/// "5:1", "1:2".
std::string scale_words(double scale);
/// A length as dimensions have it, in the job's units: "6", "0.2362".
std::string figure(double mm, Units units);

}  // namespace lobewright::drawing
