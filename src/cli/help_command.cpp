#include "cli/commands.h"
#include "cli/help/help.h"
#include "cli/version_text.h"

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
    result.text = version_text();
    return result;
}

}  // namespace lobewright::cli
