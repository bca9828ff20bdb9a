/// The commands: each a function from options to what is to be written and said.
#pragma once

#include "cli/options.h"
#include "cli/result.h"

namespace lobewright::cli {

Result check_command(const Options& options);
Result table_command(const Options& options);
Result compare_command(const Options& options);
Result cut_command(const Options& options);
Result prove_command(const Options& options);
/// cut and prove with --correct.
Result cut_correction(const Options& options);
Result prove_correction(const Options& options);
Result index_command(const Options& options);
Result inspect_command(const Options& options);
Result draw_command(const Options& options);
Result sheet_command(const Options& options);
Result start_command(const Options& options);
Result posts_command(const Options& options);
Result help_command(const Options& options);
Result version_command();

/// The whole program but for its process: parses, runs, writes, complains on standard error; gives the exit
/// code.
int run(const std::vector<std::string>& arguments);

}  // namespace lobewright::cli
