#include "cli/system/writing_complaints.h"

#include "cli/system/path_text.h"
#include "cli/system/system_reason.h"

namespace fs = std::filesystem;

namespace lobewright::cli {

Diagnostic not_written(const fs::path& path, const std::string& reason, const std::string& remedy) {
    return {Fault::unreadable, Severity::error, "not-written", "can't be written (" + reason + ")", remedy,
            {text_of(path)}};
}

Diagnostic cannot_write(const fs::path& path, int error) {
    return not_written(path, system_reason(error),
                       "nothing was changed there; name another file or folder with -o, or make room");
}

Diagnostic already_there(const fs::path& path) {
    return {Fault::bad_input,
            Severity::error,
            "file-exists",
            "there is a file of that name already",
            "give another name, or move the old file away",
            {text_of(path)}};
}

Diagnostic one_name_twice(const fs::path& path) {
    return {Fault::bad_input,
            Severity::error,
            "one-name-twice",
            "two files of this run would have this name",
            "name the operations so that their files differ, or write them one at a time",
            {text_of(path)}};
}

}  // namespace lobewright::cli
