#include "cli/commands.h"
#include "cli/help/help.h"

namespace lobewright::cli {

Result help_command(const Options& options, Inputs& /*unused*/) {
    Result result;
    if (options.as == "man")
        result.text = manual_page();
    else if (options.as == "bash")
        result.text = bash_completion();
    else if (options.as == "zsh")
        result.text = zsh_completion();
    else if (options.as == "fish")
        result.text = fish_completion();
    else
        result.text = help_text(options.topic);
    return result;
}

Result version_command() {
    Result result;
    result.text = "lobewright " LOBEWRIGHT_VERSION "\n";
    return result;
}

}  // namespace lobewright::cli
