/// Complaints of the toolpath: places of keys and lengths in the user's units.
#pragma once

#include "job/typed_length.h"

#include <lobewright/job.h>

#include <string>
#include <string_view>

namespace lobewright::toolpath {

/// A check that failed, at the place of the key `path` of the job.
Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy);

/// A key that this command needs and the job hasn't: the job itself is incomplete (exit code 2).
Diagnostic missing(const Job& job, std::string_view path, std::string what, std::string remedy);

/// A limit that is accepted when it is applied: never above (or never below) `mm`, with its unit.
inline std::string length_at_most(double mm, Units units) {
    return typed_below(mm, units).words;
}
inline std::string length_at_least(double mm, Units units) {
    return typed_above(mm, units).words;
}

/// The path of a lobe's entry: "lobe[3]".
std::string lobe_key(std::size_t entry);

}  // namespace lobewright::toolpath
