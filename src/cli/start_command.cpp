#include "cli/commands.h"
#include "cli/load.h"

#include <lobewright/start.h>

namespace lobewright::cli {

Result start_command(const Options& options, Inputs& /*unused*/) {
    Result result;
    result.text = starting_job(options.purpose);
    result.must_be_new = true;
    if (!result.text) {
        result.messages.push_back(
            unknown_name("purpose", options.purpose, starting_purposes(), {"lobewright --for"}));
    }
    return result;
}

}  // namespace lobewright::cli
