#include "every_command.h"

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
    switch (options->command) {
        case Command::check:
            run.result = check_command(*options);
            break;
        case Command::table:
            run.result = table_command(*options);
            break;
        case Command::compare:
            run.result = compare_command(*options);
            break;
        case Command::cut:
            run.result = cut_command(*options);
            break;
        case Command::prove:
            run.result = prove_command(*options);
            break;
        case Command::index:
            run.result = index_command(*options);
            break;
        case Command::inspect:
            run.result = inspect_command(*options);
            break;
        case Command::draw:
            run.result = draw_command(*options);
            break;
        case Command::sheet:
            run.result = sheet_command(*options);
            break;
        default:
            throw std::invalid_argument("not a command on a job: " + run.words);
    }
    return run;
}
