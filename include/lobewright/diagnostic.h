/// What can go wrong for the user is a value: a diagnostic with its place and its remedy, or a whole list of
/// them.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace lobewright {

/// A place in a text the user wrote. Line and column count from 1, column in characters; 0 = unknown.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
    friend bool operator==(const Place&, const Place&) = default;
};

/// What kind of trouble, which settles the exit code.
enum class Fault {
    check_failed =
        1,  ///< the files were read, but the lobe can't exist, or can't be cut so, or is out of tolerance
    bad_input = 2,   ///< what an input file or the command line says is wrong
    unreadable = 3,  ///< a file can't be read or written
};

enum class Severity { error, warning, note };
/// "error", "warning", "note".
std::string severity_word(Severity severity);

/// One complaint. `code` is short and stable (for scripts and tests, e.g. "unknown-key"); `what` says what is
/// wrong with the figures in the user's units; `remedy` says what to do, never empty for an error.
struct Diagnostic {
    Fault fault = Fault::bad_input;
    Severity severity = Severity::error;
    std::string code;
    std::string what;
    std::string remedy;
    Place place;
    /// What one change would mend, where one mistake brings about many complaints: the path of a key without
    /// the numbers of lists ("lobe.z"). Empty: the sentence itself, without such numbers.
    std::string cause = {};
    std::string line_text =
        {};  ///< the line at `place` as it stands, where the complaint is about how it is written
    std::string lobe = {};  ///< the lobe that it is about, by name; empty: the whole job, or no lobe at all
    std::string key = {};  ///< the key that brings it about, for Job::place_of, where `place` isn't known yet
};

using Diagnostics = std::vector<Diagnostic>;

/// What a stage has found out about a job that could be read (Fault::check_failed): about `lobe`, by `key`.
/// `what` says by how much and, where something is wrong, which change cures it.
Diagnostic finding(Severity severity, std::string code, std::string lobe, std::string what,
                   std::string key = {});
/// Likewise about a line of a program, 0 where no single line is the cause.
Diagnostic finding_in_line(Severity severity, std::string code, int line, std::string what);

/// "what: remedy", or what alone.
std::string sentence_of(const Diagnostic& diagnostic);

/// "FILE:LINE:COLUMN: what is wrong: what to do", without the parts that are unknown or empty; one line, no
/// newline.
std::string to_text(const Diagnostic& diagnostic);

/// `line_text` with a caret below the place's column, two lines; a long line's stretch around it. Empty where
/// the diagnostic has no line_text.
std::string excerpt_text(const Diagnostic& diagnostic);

bool has_errors(const Diagnostics& diagnostics);

/// Like complaints told once: of those with one file, severity, code and cause the first remains, and says
/// how many more there are and in which line the last of them stands. The order stays; a complaint that is
/// there twice, word for word, counts once.
Diagnostics told_once(const Diagnostics& diagnostics);

/// The same finding about several lobes as one about all of them, "inlet, exhaust" in place of a name.
Diagnostics lobes_together(const Diagnostics& findings);

/// Without the numbers of lists: "lobe.z" for "lobe[3].z".
std::string without_list_numbers(std::string_view text);

/// The result of a stage: a value (with, perhaps, warnings), or the complaints that prevented it (at least
/// one error).
template <class T>
class [[nodiscard]] Outcome {
  public:
    Outcome(T value) : value_(std::move(value)) {}
    Outcome(T value, Diagnostics warnings) : value_(std::move(value)), diagnostics_(std::move(warnings)) {}
    Outcome(Diagnostic error) : diagnostics_{std::move(error)} {}
    Outcome(Diagnostics errors) : diagnostics_(std::move(errors)) {}

    [[nodiscard]] bool ok() const { return value_.index() == 1; }
    explicit operator bool() const { return ok(); }
    /// Required: ok().
    [[nodiscard]] const T& value() const& { return std::get<1>(value_); }
    [[nodiscard]] T& value() & { return std::get<1>(value_); }
    [[nodiscard]] T&& value() && { return std::get<1>(std::move(value_)); }
    const T* operator->() const { return &value(); }
    const T& operator*() const& { return value(); }
    /// Warnings of a success, errors of a failure.
    [[nodiscard]] const Diagnostics& diagnostics() const { return diagnostics_; }

  private:
    std::variant<std::monostate, T> value_;
    Diagnostics diagnostics_;
};

}  // namespace lobewright
