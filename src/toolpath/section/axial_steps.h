/// Where along the shaft the cutter must stand to cover the whole width of a lobe, and what it leaves
/// between.
///
/// A disc or the side of an end mill covers its width, or its straight flutes. A cutter whose axis crosses
/// the shaft's is narrower the further a slice lies from its axis, and so leaves the slice at the distance y
/// proud:
///   ball, and the side of a cutter lying across: R - sqrt(R² - y²) everywhere (the slice is a smaller
///   section on the same path); end of an end mill: nothing while the flat of the slice, sqrt(w² - y²), still
///   holds the contact; past that, what is left is bounded by the path of the slice's point nearest to the
///   lobe, whose distance from the contour is measured.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::toolpath {

/// Of what a cutter covers, the spacing of its places: a twentieth of it is overlap.
inline constexpr double spacing_share = 0.95;

/// The most of them: a lobe is passed so often then, at every depth.
inline constexpr int most_places = 1000;

struct AxialSteps {
    std::vector<double> places;  ///< the axial word, mm, in the order of cutting
    double proud = 0.0;          ///< mm that the slices furthest from the cutter's axis stand proud
};

/// The fewest places from which the cutter leaves at most `allowed` (mm, > 0) proud over the lobe's width.
/// `nodes` are the contacts of the finish pass. Impossible for an end mill whose flutes are too short for the
/// lobe while its shank would rub (FlutesTooShort), and where the steps would be too fine, or more than
/// most_places (AxialStepsTooFine).
Possible<AxialSteps> axial_steps(const Setup& setup, const SolvedLobe& lobe,
                                 const std::vector<CutterContact>& nodes, double allowed);

/// What the slice at the distance `y` from the cutter's axis leaves proud at worst, mm. Radial and tangential
/// cutters.
double left_by_slice(const Setup& setup, const std::vector<CutterContact>& nodes, double y);

/// mm: half of the flat of the narrowest slice that meets the lobe from one of these places;
/// every_slice_alike where it is no end that is narrower beside its axis.
double narrowest_flat(const Setup& setup, const SolvedLobe& lobe, const std::vector<double>& places);

}  // namespace lobewright::toolpath
