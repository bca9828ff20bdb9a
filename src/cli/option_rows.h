/// The rows that the table of commands is put together of: switches, options with a value, those that many
/// commands have.
#pragma once

#include "cli/command_table.h"

namespace lobewright::cli {

OptionRow toggle(std::string name, std::string says, bool Options::*field, char letter = '\0');
OptionRow valued(std::string name, std::string value, std::string says, std::string Options::*field,
                 Value kind = Value::nothing, std::vector<std::string> words = {}, char letter = '\0');
OptionRow lobes_option();
OptionRow from_option();
OptionRow operation_option();
/// How a file of readings is written, and what of it is not known.
std::vector<OptionRow> readings_file_options();
/// The hand method whose wheel's marks a file of readings counts.
OptionRow wheel_option();
OptionRow output_option(std::string says = "write there, whole or not at all, not to standard output");
OptionRow quiet_option();
OptionRow help_option(std::string says = "this text");
OptionRow json_option(std::string says = "for a program to read, complaints too");
OptionRow post_option();
OptionRow format_option(std::vector<std::string> words);
/// The command's own options, then those of every command.
std::vector<OptionRow> with_common(std::vector<OptionRow> own);
ArgumentRow job_argument();

}  // namespace lobewright::cli
