/// Where post-processors are found, and which of them a job means.
#pragma once

#include "cli/files.h"

#include <lobewright/dialect.h>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

/// One that has a name.
struct NamedPost {
    std::string name;
    std::optional<std::filesystem::path> file;  ///< the user's own; nothing: it is inside the program
};

/// By name: those of the user's own folder, and those inside the program that none of them goes before. The
/// folder is Files::posts_folder.
std::vector<NamedPost> named_posts(Files& files);

/// The dialect called `word`: where it has a slash or ends in .toml a path, relative to `folder`; else a
/// name, looked for in the user's own folder first. A name that isn't there is Fault::bad_input at `place`,
/// with the nearest, all that there are, and where they were looked for.
Outcome<Dialect> load_post(const std::string& word, const std::filesystem::path& folder, const Place& place,
                           Inputs& inputs);

/// The post that --post asks for (`wanted`, from the current folder), else the job's own (from the job's
/// folder). Required: job.machine.
Outcome<Dialect> load_post_of(const Job& job, const std::string& wanted, Inputs& inputs);

/// The text of a named post.
Outcome<std::string> post_text(const std::string& name, Inputs& inputs);

}  // namespace lobewright::cli
