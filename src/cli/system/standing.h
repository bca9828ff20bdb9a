/// What stands at a path.
#pragma once

#include <filesystem>
#include <optional>

namespace lobewright::cli {

struct Standing {
    enum class Kind {
        nothing,
        file,
        folder,
        device
    };  ///< device: whatever is written to directly, a pipe too
    Kind kind = Kind::nothing;
    int error = 0;                                  ///< why nobody can know it (errno); 0: it is known
    int protection = 0;                             ///< why nothing may be written to it (errno); 0: it may
    unsigned user = 0, group = 0, permissions = 0;  ///< where the system has them
};

/// Links are followed.
Standing standing_at(const std::filesystem::path& path);

/// Where a chain of links ends, whether or not a file is there; nothing, with errno, where they lead round in
/// a circle or can't be read.
std::optional<std::filesystem::path> end_of_links(const std::filesystem::path& path);

}  // namespace lobewright::cli
