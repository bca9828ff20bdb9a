/// What a program's header says of its way: where it begins, changes tools and ends, how long it takes, what
/// to check first.
#pragma once

#include "post/program/written_operation.h"

#include <lobewright/dialect.h>

#include <string>
#include <vector>

namespace lobewright::post {

/// Words of the places that the header tells of; of no meaning where they are the machine's own.
struct PlaceWords {
    std::string begins;
    std::string ends;
    std::vector<std::string> sides;  ///< by operation; empty: the dialect has no side axis
};

/// One comment each, empty where there is nothing to say.
std::vector<std::string> place_notes(const WrittenOperations& operations, const Dialect& dialect,
                                     const PlaceWords& places);

/// Seconds that the shaft takes to turn from where one operation ends to where the next begins, of all of
/// them, as far as the job gives the axis's speed.
double seconds_between(const WrittenOperations& operations);

}  // namespace lobewright::post
