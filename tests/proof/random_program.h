/// Random programs that keep to the standard: units, planes, distance and feed modes, arcs, dwells, spellings
/// mixed.
#pragma once

#include "dice.h"

#include <lobewright/dialect.h>

#include <string>

struct RandomProgram {
    lobewright::Dialect dialect;
    std::string text;
    bool block_delete = false;  ///< the switch that it is to be read with
};

/// The same seed gives the same program everywhere: no library distribution is used.
RandomProgram random_program(unsigned seed);
