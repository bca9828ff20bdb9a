/// All of the program's commands over one job, within this process.
#pragma once

#include "cli/commands.h"

#include <string>
#include <vector>

/// What one command made of a job.
struct CommandRun {
    std::string words;  ///< as one would type it
    lobewright::cli::Result result;
    [[nodiscard]] int exit_code() const { return lobewright::cli::exit_code(result.messages); }
    /// Everything that the command says, on either output.
    [[nodiscard]] std::string said() const;
};

/// One command; `arguments` as on a command line.
CommandRun run_in_process(const std::vector<std::string>& arguments);
