// The precompiled headers of the tests hang on a target, and a target on a source file: this one.
#include "catch.h"
