/// The whole program from texts to texts: no disk, no streams, no environment.
#pragma once

#include <lobewright/known_shapes.h>

#include <map>
#include <string>
#include <vector>

namespace lobewright::cli {

/// Names are paths from the current folder; a folder is there as soon as a file lies in it.
using Texts = std::map<std::string, std::string>;

/// What a run leaves.
struct TextRun {
    int code = 0;     ///< the exit code
    std::string out;  ///< standard output
    std::string err;  ///< standard error
    Texts files;      ///< those that it wrote
};

/// What `lobewright ARGUMENTS` makes where these files lie, byte for byte what it makes on a disk for a user
/// who has no post-processors of his own. The file called "-" is standard input.
TextRun run_on_texts(const std::vector<std::string>& arguments, Texts files);
/// The same bytes; lobes whose shape `shapes` holds from runs before aren't solved anew.
TextRun run_on_texts(const std::vector<std::string>& arguments, Texts files, KnownShapes& shapes);

}  // namespace lobewright::cli
