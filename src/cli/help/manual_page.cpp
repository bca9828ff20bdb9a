#include "cli/command_table.h"
#include "cli/help/help.h"

namespace lobewright::cli {
namespace {

/// Text as roff takes it: no line of it is a request, dashes are those that one types.
std::string plain(const std::string& text) {
    std::string escaped = text.starts_with('.') || text.starts_with('\'') ? "\\&" : "";
    for (const char c : text) {
        if (c == '\\')
            escaped += "\\e";
        else if (c == '-')
            escaped += "\\-";
        else
            escaped += c;
    }
    return escaped;
}

std::string section(const std::string& title) {
    return ".SH " + title + '\n';
}

std::string paragraph(const std::string& text) {
    return ".PP\n" + plain(text) + '\n';
}

std::string entry(const std::string& word, const std::string& says) {
    return ".TP\n.B " + plain(word) + '\n' + plain(says) + '\n';
}

std::string entries(const std::vector<Meaning>& rows) {
    std::string text;
    for (const Meaning& row : rows)
        text += entry(row.word, row.says);
    return text;
}

std::string option_entries(const std::vector<OptionRow>& options) {
    std::string text;
    for (const OptionRow& option : options)
        text += entry(option_words(option), option.says);
    return text;
}

std::string examples(const std::vector<std::string>& lines) {
    std::string text = ".PP\n.RS\n.nf\n";
    for (const std::string& line : lines)
        text += plain("lobewright " + line) + '\n';
    return text + ".fi\n.RE\n";
}

std::string part_of(const CommandRow& row) {
    std::string text =
        ".SS " + plain("lobewright " + row.name + (row.usage.empty() ? "" : ' ' + row.usage)) + '\n';
    for (const std::string& each : row.about)
        text += paragraph(each);
    if (!row.list.empty()) text += paragraph("The " + row.list_title + ':') + entries(row.list);
    text += paragraph("Its options:") + option_entries(row.options);
    if (!row.caution.empty()) text += paragraph(row.caution);
    return text + paragraph("For example:") + examples(row.examples);
}

}  // namespace

std::string manual_page() {
    const ProgramTexts& program = program_texts();
    std::string text = ".TH LOBEWRIGHT 1 \"\" \"lobewright " LOBEWRIGHT_VERSION "\" \"User Commands\"\n";
    text += section("NAME") + plain("lobewright") + " \\- " + plain(program.line) + '\n';
    text += section("SYNOPSIS") + ".B lobewright\n" + plain("COMMAND JOB.toml [options]") + '\n';
    text += section("DESCRIPTION") + plain(program.about) + '\n';
    text += section("OPTIONS") + option_entries(program.options);
    text += section("COMMANDS");
    for (const CommandRow& row : command_table())
        text += part_of(row);
    text += section("EXIT STATUS") + entries(program.exit_codes);
    if (!program.environment.empty()) text += section("ENVIRONMENT") + entries(program.environment);
    if (!program.files.empty()) text += section("FILES") + entries(program.files);
    text += section("CAUTION") + plain(program.caution) + '\n';
    return text + section("EXAMPLES") + examples(program.examples);
}

}  // namespace lobewright::cli
