#include "base/text/characters.h"
#include "cli/commands.h"
#include "cli/complaints.h"
#include "cli/system/last_words.h"
#include "cli/system/path_text.h"

#include <exception>
#include <new>

namespace lobewright::cli {

Result run_command(const Options& options, Inputs& inputs) {
    switch (options.command) {
        case Command::check:
            return check_command(options, inputs);
        case Command::table:
            return table_command(options, inputs);
        case Command::compare:
            return compare_command(options, inputs);
        case Command::cut:
            return cut_command(options, inputs);
        case Command::prove:
            return prove_command(options, inputs);
        case Command::index:
            return index_command(options, inputs);
        case Command::inspect:
            return inspect_command(options, inputs);
        case Command::draw:
            return draw_command(options, inputs);
        case Command::sheet:
            return sheet_command(options, inputs);
        case Command::start:
            return start_command(options, inputs);
        case Command::posts:
            return posts_command(options, inputs);
        case Command::help:
            return help_command(options, inputs);
        case Command::version:
            return version_command();
    }
    return {};
}

namespace {

/// The complaint that a file is to be written over which the run has read.
std::optional<Diagnostic> find_read_file(const Inputs& inputs, const std::vector<FileToWrite>& files) {
    for (const FileToWrite& file : files) {
        for (const std::filesystem::path& input : inputs.read) {
            if (inputs.files.same_file(input, file.path)) {
                return Diagnostic{Fault::bad_input,    Severity::error,
                                  "output-is-input",   "-o names a file that this run reads",
                                  "give another name", {text_of(file.path)}};
            }
        }
    }
    return std::nullopt;
}

/// All that the run makes; the first failure.
std::optional<Diagnostic> put_all(const Inputs& inputs, const Result& result, const std::string& output) {
    std::vector<FileToWrite> files;
    if (result.text && !is_standard_stream(output)) files.push_back({path_of(output), *result.text});
    for (const OutputFile& file : result.files) {
        files.push_back({path_of(file.path), file.text});
        inputs.files.sweep_beside(files.back().path);
    }
    if (auto failure = find_read_file(inputs, files)) return failure;
    if (auto failure = inputs.files.write(files, result.must_be_new)) return failure;
    if (result.text && is_standard_stream(output)) return inputs.files.write_standard_output(*result.text);
    return std::nullopt;
}

/// All that the run has to say, a line each.
std::string spoken(Result& result, bool quiet) {
    sort_by_place(result.messages);
    std::string lines;
    for (const Diagnostic& each : told_once(result.messages)) {
        if (!quiet || each.severity == Severity::error) lines += to_text(each) + '\n' + excerpt_text(each);
    }
    if (quiet || has_errors(result.messages)) return lines;
    for (const std::string& remark : result.remarks)
        lines += remark + '\n';
    return lines;
}

/// Complaints as JSON, where nothing else goes to standard output.
int end_with_complaints(Files& files, const Result& result, bool json) {
    if (json && has_errors(result.messages)) files.write_standard_output(complaints_json(result.messages));
    return exit_code(result.messages);
}

int refuse(Files& files, const Diagnostics& complaints, bool json) {
    Result result;
    result.messages = complaints;
    files.say(spoken(result, true));
    return end_with_complaints(files, result, json);
}

/// The file to write, or what stands for standard output.
const std::string& output_of(const Options& options) {
    return options.command == Command::start && options.output.empty() ? options.job : options.output;
}

int carry_out(const std::vector<std::string>& arguments, Files& files, KnownShapes& shapes) {
    const Outcome<Options> options = parse_command_line(arguments);
    if (!options) return refuse(files, options.diagnostics(), ask_for_json(arguments));
    const std::string& output = output_of(*options);
    if (!is_standard_stream(output)) files.sweep_beside(path_of(output));
    Inputs inputs{files, shapes};
    Result result;
    files.at_work(!options->quiet, [&] { result = run_command(*options, inputs); });
    // Everything is made before anything is written: once the file stands, nothing can fail any more.
    std::string lines = spoken(result, options->quiet);
    bool nothing_put = !result.text && result.files.empty();
    if (auto failure = put_all(inputs, result, output)) {
        result.messages.push_back(*failure);
        lines = spoken(result, options->quiet);
        nothing_put = true;
    }
    files.say(lines);
    return end_with_complaints(files, result, options->json && nothing_put);
}

int a_bug(Files& files, const std::string& what) {
    files.say("lobewright: stopped by a bug of ours (" + printable(what) +
              "): please report it together with the job file\n");
    return exit_bug;
}

/// Whatever goes wrong ends with a word and an exit code.
template <class Work>
int guarded(Files& files, Work work) {
    try {
        return work();
    } catch (const std::bad_alloc&) {
        files.say(out_of_memory);
        return exit_bug;
    } catch (const std::exception& error) {
        return a_bug(files, error.what());
    } catch (...) {
        return a_bug(files, "unknown");
    }
}

}  // namespace

int run(const std::vector<std::string>& arguments, Files& files, KnownShapes& shapes) {
    return guarded(files, [&] { return carry_out(arguments, files, shapes); });
}

int run(const std::vector<std::string>& arguments, Files& files) {
    return guarded(files, [&] {
        KnownShapes none;
        return carry_out(arguments, files, none);
    });
}

}  // namespace lobewright::cli
