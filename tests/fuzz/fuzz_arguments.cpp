#include "cli/commands.h"
#include "cli/options.h"
#include "cli/text_files.h"
#include "fuzz_promises.h"
#include "fuzz_runs.h"

#include <vector>

using namespace lobewright;

namespace {

/// Arguments hold no NUL: the system ends them there.
std::vector<std::string> arguments_of(const std::string& text) {
    std::vector<std::string> arguments;
    for (std::size_t from = 0, end = 0; from < text.size(); from = end + 1) {
        end = std::min(text.find('\n', from), text.size());
        const std::string argument = text.substr(from, end - from);
        arguments.push_back(argument.substr(0, argument.find('\0')));
    }
    return arguments;
}

}  // namespace

void run_arguments(const std::string& text, FuzzDepth depth) {
    const std::vector<std::string> arguments = arguments_of(text);
    const Outcome<cli::Options> options = cli::parse_command_line(arguments);
    cli::ask_for_json(arguments);
    if (!options) return hold_complaints(options.diagnostics(), "", "lobewright");
    hold(options->every.radians() > 0.0, "a step that leads nowhere");
    if (depth == FuzzDepth::works && options->command == cli::Command::help) {
        cli::TextFiles files({});
        KnownShapes shapes;
        cli::Inputs inputs{files, shapes};
        const cli::Result help = cli::help_command(*options, inputs);
        hold(help.text && !help.text->empty(), "help says nothing");
    }
}
