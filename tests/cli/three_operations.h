/// A job that is cut in three operations, of which each has a program of its own.
#pragma once

#include <string>

/// The small job, roughed ("rough"), roughed again ("again") and finished ("finish").
std::string three_operations();
