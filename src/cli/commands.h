/// The commands: each a function from options to what is to be written and said.
#pragma once

#include "cli/files.h"
#include "cli/options.h"
#include "cli/result.h"

namespace lobewright::cli {

Result check_command(const Options& options, Inputs& inputs);
Result table_command(const Options& options, Inputs& inputs);
Result compare_command(const Options& options, Inputs& inputs);
Result cut_command(const Options& options, Inputs& inputs);
Result prove_command(const Options& options, Inputs& inputs);
/// cut and prove with --correct.
Result cut_correction(const Options& options, Inputs& inputs);
Result prove_correction(const Options& options, Inputs& inputs);
Result index_command(const Options& options, Inputs& inputs);
Result inspect_command(const Options& options, Inputs& inputs);
Result draw_command(const Options& options, Inputs& inputs);
Result sheet_command(const Options& options, Inputs& inputs);
Result start_command(const Options& options, Inputs& inputs);
Result posts_command(const Options& options, Inputs& inputs);
Result help_command(const Options& options, Inputs& inputs);
Result version_command();

/// The command that the options name.
Result run_command(const Options& options, Inputs& inputs);

/// The whole program but for its process: parses, runs, writes, complains on standard error; gives the exit
/// code. `shapes`: those known from runs before.
int run(const std::vector<std::string>& arguments, Files& files, KnownShapes& shapes);
int run(const std::vector<std::string>& arguments, Files& files);
/// On the disk, with the streams of this process.
int run(const std::vector<std::string>& arguments);

}  // namespace lobewright::cli
