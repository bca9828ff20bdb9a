/// Where a program begins and ends, and its cutter is put in.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/toolpath.h>

#include <optional>

namespace lobewright::post {

enum class RestKind {
    tool_change,  ///< the job's own place
    home,         ///< the dialect's own way home
    at_clearance  ///< neither is known: where the path starts, just outside the blank's clearance
};

struct RestingPlace {
    RestKind kind = RestKind::at_clearance;
    long long radial = 0;  ///< words in steps of the grid; of no meaning at home
    long long axial = 0;
};

/// Where it begins. Before the cutter's length is on no place of the program's own says where its end is: a
/// dialect with lengths begins at home even where the job has a place.
RestingPlace beginning(const Job& job, const Dialect& dialect, const Toolpath& path);
RestingPlace ending(const Job& job, const Dialect& dialect, const Toolpath& path);

/// mm, the radial word of rapids, where the job's place for tools is nearer to the shaft than that.
std::optional<double> too_near(const Job& job, const Toolpath& path);

}  // namespace lobewright::post
