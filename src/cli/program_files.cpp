#include "cli/program_files.h"

#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "cli/load.h"
#include "cli/system/path_text.h"

#include <lobewright/program_reader.h>
#include <lobewright/program_writer.h>

namespace lobewright::cli {
namespace {

constexpr std::string_view place_of_name = "{operation}";

/// Whether a file may be written over: it is empty, or a program that we wrote, or, where the dialect has no
/// comments to know it by, one that this dialect's controller would take.
bool may_go(const std::string& text, const Dialect& dialect, Units units) {
    if (text.empty() || bears_our_mark(text)) return true;
    return dialect.comments == CommentStyle::none && read_program(text, "", dialect, units).ok();
}

}  // namespace

std::string proof_remark(const Job& job, const ProofReport& report, const std::string& against) {
    double deepest = 0.0, proudest = 0.0;
    for (const LobeVerdict& lobe : report.lobes) {
        deepest = std::max(deepest, -lobe.deepest.along_normal);
        proudest = std::max(proudest, lobe.proudest.along_normal);
    }
    constexpr Decimals decimals = sentence_decimals;
    return "Proven from its own text: " + counted(static_cast<long long>(report.lobes.size()), "lobe") +
           ", from " + fixed_length(deepest, job.units, decimals) + " below " + against + " to " +
           with_unit(fixed_length(proudest, job.units, decimals), job.units) + " above it.";
}

std::optional<Diagnostic> find_other_file(Files& files, const std::string& path, const Options& options,
                                          const Dialect& dialect, Units units) {
    if (options.force || !files.is_file(path_of(path))) return std::nullopt;
    const Outcome<std::string> text = read_data(path_of(path), files);
    if (!text) return text.diagnostics().front();
    if (may_go(*text, dialect, units)) return std::nullopt;
    return Diagnostic{Fault::bad_input,
                      Severity::error,
                      "not-our-program",
                      "the file there is no program of ours",
                      "give another name, or --force to write over it",
                      {path}};
}

std::string numbered_name(const std::string& name, std::size_t number) {
    std::filesystem::path path = path_of(name);
    std::filesystem::path own = path.stem();
    own += '-' + std::to_string(number);
    own += path.extension();
    return text_of(path.replace_filename(own));
}

Diagnostic wants_output(std::size_t programs, const Dialect& dialect) {
    return {Fault::bad_input,
            Severity::error,
            "missing-argument",
            dialect.name + " takes the cut in " + std::to_string(programs) + " programs",
            "give -o FILE: each goes to a file with its number in that name",
            {"lobewright"}};
}

std::string output_name(const std::string& output, const Job& job) {
    std::string name = output;
    if (job.operation.empty()) return name;
    for (std::size_t at = name.find(place_of_name); at != std::string::npos;
         at = name.find(place_of_name, at + job.operation.size()))
        name.replace(at, place_of_name.size(), job.operation);
    return name;
}

bool tells_operations_apart(const std::string& output) {
    return output.find(place_of_name) != std::string::npos;
}

std::optional<Diagnostic> output_complaint(Files& files, const Options& options, const OperationWork& work) {
    const std::string name = output_name(options.output, work.job);
    if (tells_operations_apart(name)) {
        return Diagnostic{Fault::bad_input,
                          Severity::error,
                          "no-operation",
                          "-o says {operation}, and the job has no [[operation]]",
                          "give the file a name of its own",
                          {"lobewright -o"}};
    }
    return find_other_file(files, name, options, work.dialect, work.job.units);
}

}  // namespace lobewright::cli
