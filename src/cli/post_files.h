/// Where post-processors are found, and which of them a job means.
#pragma once

#include <lobewright/dialect.h>

#include <filesystem>
#include <string>
#include <vector>

namespace lobewright::cli {

struct PostFile {
    std::string name;  ///< the file's name without folder and ending
    std::filesystem::path path;
};

/// The post-processors that came with the program, by name. Their folder is found from the program's own
/// place: beside it in a build, in the installed share folder otherwise. Empty if there is none.
std::vector<PostFile> shipped_posts();

/// The dialect called `word`: a shipped one's name, or, where it has a slash or ends in .toml, a path,
/// relative to `folder`. A name that isn't there is Fault::bad_input at `place`, with the nearest or all that
/// there are.
Outcome<Dialect> load_post(const std::string& word, const std::filesystem::path& folder, const Place& place,
                           std::vector<std::filesystem::path>& inputs);

/// The post that --post asks for (`wanted`, from the current folder), else the job's own (from the job's
/// folder). Required: job.machine.
Outcome<Dialect> load_post_of(const Job& job, const std::string& wanted,
                              std::vector<std::filesystem::path>& inputs);

/// The text of a shipped post's file.
Outcome<std::string> post_text(const std::string& name);

}  // namespace lobewright::cli
