#include "every_command.h"

#include "cli/disk.h"

#include <stdexcept>

using namespace lobewright;
using namespace lobewright::cli;

std::string CommandRun::said() const {
    std::string all = result.text.value_or("");
    for (const Diagnostic& each : result.messages)
        all += to_text(each) + '\n';
    for (const std::string& remark : result.remarks)
        all += remark + '\n';
    return all;
}

CommandRun run_in_process(const std::vector<std::string>& arguments) {
    CommandRun run;
    for (const std::string& word : arguments)
        run.words += (run.words.empty() ? "" : " ") + word;
    const auto options = parse_command_line(arguments);
    if (!options) throw std::invalid_argument("not a command: " + run.words);
    Disk disk;
    KnownShapes shapes;
    Inputs inputs{disk, shapes};
    run.result = run_command(*options, inputs);
    return run;
}
