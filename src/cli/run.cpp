#include "cli/commands.h"
#include "cli/help.h"
#include "cli/output.h"

#include <cstdio>
#include <exception>
#include <new>
#include <unistd.h>

namespace lobewright::cli {
namespace {

Result text_only(std::string text) {
    Result result;
    result.text = std::move(text);
    return result;
}

Result run_command(const Options& options) {
    switch (options.command) {
        case Command::help:
            return text_only(help_text(options.help_topic));
        case Command::version:
            return text_only("lobewright " LOBEWRIGHT_VERSION "\n");
        case Command::check:
            return check_command(options);
        case Command::table:
            return table_command(options);
        case Command::cut:
            return cut_command(options);
        case Command::prove:
            return prove_command(options);
        case Command::index:
            return index_command(options);
        case Command::start:
            return start_command(options);
        case Command::posts:
            return posts_command(options);
    }
    return {};
}

bool to_standard_output(const std::string& path) {
    return path.empty() || path == "-";
}

/// Writes the result's text where it belongs, unless that would destroy what was read.
std::optional<Diagnostic> put_out(const Result& result, const std::string& path) {
    if (to_standard_output(path)) return write_standard_output(*result.text);
    for (const std::filesystem::path& input : result.inputs) {
        if (same_file(input, path)) {
            return Diagnostic{Fault::bad_input,    Severity::error,
                              "output-is-input",   "-o names a file that this run reads",
                              "give another name", {path}};
        }
    }
    return write_whole(path, *result.text, result.must_be_new);
}

/// All that the run has to say, a line each.
std::string spoken(Result& result, bool quiet) {
    sort_by_place(result.messages);
    std::string lines;
    for (const Diagnostic& each : told_once(result.messages)) {
        if (!quiet || each.severity == Severity::error) lines += to_text(each) + '\n';
    }
    if (quiet || has_errors(result.messages)) return lines;
    for (const std::string& remark : result.remarks)
        lines += remark + '\n';
    return lines;
}

/// Straight to standard error; when even that is gone, the exit code still speaks.
void say(const std::string& lines) {
    std::fwrite(lines.data(), 1, lines.size(), stderr);
}

int carry_out(const std::vector<std::string>& arguments) {
    const Outcome<Options> options = parse_command_line(arguments);
    Result result;
    if (!options) {
        result.messages = options.diagnostics();
        say(spoken(result, true));
        return exit_code(result.messages);
    }
    result = run_command(*options);
    // Everything is made before anything is written: once the file stands, nothing can fail any more.
    std::string lines = spoken(result, options->quiet);
    const bool names_file = options->command == Command::start && options->output.empty();
    if (result.text) {
        if (auto failure = put_out(result, names_file ? options->job : options->output)) {
            result.messages.push_back(*failure);
            lines = spoken(result, options->quiet);
        }
    }
    say(lines);
    return exit_code(result.messages);
}

int a_bug(const std::string& what) {
    say("lobewright: stopped by a bug of ours (" + what + "): please report it together with the job file\n");
    return exit_bug;
}

}  // namespace

int run(const std::vector<std::string>& arguments) {
    try {
        return carry_out(arguments);
    } catch (const std::bad_alloc&) {
        std::fputs("lobewright: stopped, out of memory\n", stderr);
        return exit_bug;
    } catch (const std::exception& error) {
        return a_bug(error.what());
    } catch (...) {
        return a_bug("unknown");
    }
}

}  // namespace lobewright::cli
