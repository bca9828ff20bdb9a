#include "base/text/characters.h"
#include "base/text/wrapped.h"
#include "cli/command_table.h"
#include "cli/help/help.h"

#include <algorithm>

namespace lobewright::cli {
namespace {

constexpr std::size_t width = 80;

std::string paragraph(const std::string& text) {
    return wrapped(text, width, "", "");
}

/// Words, each with what it means beside it.
std::string list(const std::string& title, const std::vector<Meaning>& rows) {
    std::size_t widest = 0;
    for (const Meaning& row : rows)
        widest = std::max(widest, characters(row.word));
    std::string text = '\n' + title + '\n';
    for (const Meaning& row : rows) {
        text += wrapped(row.says, width, "  " + flush_left(row.word, widest) + "  ",
                        std::string(widest + 4, ' '));
    }
    return text;
}

std::string option_list(const std::string& title, const std::vector<OptionRow>& options) {
    std::vector<Meaning> rows;
    for (const OptionRow& option : options)
        rows.push_back({option_words(option), option.says});
    return list(title, rows);
}

std::string example_list(const std::vector<std::string>& examples) {
    std::string text = examples.size() == 1 ? "\nexample\n" : "\nexamples\n";
    for (const std::string& example : examples)
        text += "  lobewright " + example + '\n';
    return text;
}

std::string overview() {
    const ProgramTexts& program = program_texts();
    std::vector<Meaning> commands;
    for (const CommandRow& row : command_table())
        commands.push_back({row.name, row.line});
    std::vector<OptionRow> options = program.common;
    options.insert(options.end(), program.options.begin(), program.options.end());
    std::string text = paragraph(program.about);
    text += "\nusage: lobewright COMMAND JOB.toml [options]\n";
    text += list("commands", commands) + option_list("options of every command", options);
    text += list("exit codes", program.exit_codes);
    return text + example_list(program.examples);
}

std::string page_of(const CommandRow& row) {
    std::string text = "lobewright " + row.name + (row.usage.empty() ? "" : ' ' + row.usage) + '\n';
    for (const std::string& each : row.about)
        text += '\n' + paragraph(each);
    if (!row.list.empty()) text += list(row.list_title, row.list);
    text += option_list("options", row.options);
    if (!row.caution.empty()) text += '\n' + paragraph(row.caution);
    return text + example_list(row.examples);
}

}  // namespace

std::string help_text(const std::string& topic) {
    const CommandRow* row = find_command(topic);
    return row == nullptr ? overview() : page_of(*row);
}

}  // namespace lobewright::cli
