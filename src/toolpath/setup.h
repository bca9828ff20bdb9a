/// What all passes share, in numbers: the job's cutter on the job's machine, the blank and the grid.
#pragma once

#include "toolpath/section/section.h"
#include "toolpath/tunnel/grid_path.h"

#include <lobewright/lobe.h>
#include <lobewright/word_grid.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

struct Setup {
    Machine machine;
    Cut cut;
    Cutter cutter;  ///< that `cut` names
    std::vector<Journal> journals;
    Stock stock;
    PlaneSection section;
    WordGrid grid;
    double unit = 1.0;     ///< mm of the unit in which the job writes its figures
    Steps steps;           ///< of the grid, in radians and mm
    int facing_sign = 1;   ///< +1: the facing direction φ rises as a pass runs, -1: it falls
    int rotary_sign = -1;  ///< rotary word = rotary_sign × φ
    double blank_radius = 0.0;
    double blank_touch = 0.0;  ///< X, mm, at which the section just touches the blank
    double safe = 0.0;         ///< X, mm, of rapids: the clearance outside the blank and the journals
    double gap = 0.0;   ///< mm over where a lead-in begins from which on the cutter comes down at its feed
    double worn = 0.0;  ///< mm of radius that a wheel has lost: the cutter's size is what is left of it
    double air = 0.0;   ///< mm over the stock at which lead-ins begin and lead-outs end
};

/// Required: the job meets the needs of Purpose::cut.
Setup set_up(const Job& job, const WordGrid& grid);

/// mm along the normal by which the lobe stands over its design at most; nothing where the bar about it is
/// untouched.
std::optional<double> standing_over(const Setup& setup, const SolvedLobe& lobe);
/// mm along the normal, over the design, of all that there is to take off on the lobe's heel.
double stock_on_heel(const Job& job, const SolvedLobe& lobe);

/// As `setup`, with another cutter in the place of its own.
Setup with_cutter(const Setup& setup, const Cutter& cutter);
/// As `setup`, its cutter touching with another section.
Setup with_section(const Setup& setup, const PlaneSection& section);

/// As `setup`, with the wheel that `ground` lobes have left of its own: made up for by the word.
Setup with_worn_wheel(const Setup& setup, int ground);

/// mm of radius that a wheel has lost when so many lobes have been ground with it.
double worn_after(const Cutter& wheel, int ground);

/// +1 where the facing direction φ rises. Parallel: the spindle turns clockwise seen from its shank (M3); on
/// the far side that is counter-clockwise seen from the drive end, so the teeth at the contact move towards
/// -v. In climb milling the work moves with them: the shaft turns clockwise, φ rises. With the spindle on the
/// drive side, φ falls. Radial and tangential: the teeth cross the lobe's width, so neither climbs; "climb"
/// lets φ rise, "conventional" fall.
int facing_sign_of(const Machine& machine, CutDirection direction);

/// X at which the section just touches a round bar of that radius; minus infinity where it passes beside it.
double touch_of_circle(const PlaneSection& section, double radius);

}  // namespace lobewright::toolpath
