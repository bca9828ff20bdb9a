#include "fuzz_promises.h"

#include "base/text/characters.h"

#include <algorithm>
#include <cctype>

using namespace lobewright;

namespace {

/// Names and words of the text itself may be long; what we say around them is not.
constexpr std::size_t longest_sentence = 4000;

void hold_complaint(const Diagnostic& complaint, int lines, const std::string& file) {
    const std::string told = to_text(complaint);
    // A finding says what cures it in the same sentence.
    const bool error = complaint.severity == Severity::error && complaint.fault != Fault::check_failed;
    hold(!complaint.code.empty() && !complaint.what.empty(), "a complaint says nothing: " + told);
    hold(!error || !complaint.remedy.empty(), "an error doesn't say what to do: " + told);
    hold(complaint.place.line >= 0 && complaint.place.column >= 0, "no such place: " + told);
    hold(complaint.place.file != file || complaint.place.line <= lines, "a place below the text: " + told);
    hold(is_printable(told), "a message holds what no terminal should see: " + printable(told));
    const std::string excerpt = excerpt_text(complaint);
    hold(std::count(excerpt.begin(), excerpt.end(), '\n') <= 2, "an excerpt of many lines: " + told);
    hold(excerpt.size() < longest_sentence, "a long excerpt: " + told);
}

bool is_word(const std::string& text, std::size_t i) {
    return i < text.size() && (std::isalnum(static_cast<unsigned char>(text[i])) != 0 || text[i] == '_');
}

}  // namespace

void hold_remarks(const Diagnostics& remarks, const std::string& text, const std::string& file) {
    // A lone carriage return ends a line of a table, too.
    const auto line_ends =
        std::count(text.begin(), text.end(), '\n') + std::count(text.begin(), text.end(), '\r');
    const int lines = 1 + static_cast<int>(line_ends);
    for (const Diagnostic& each : remarks)
        hold_complaint(each, lines, file);
    const Diagnostics once = told_once(remarks);
    hold(once.size() <= remarks.size() && once.empty() == remarks.empty(), "told once is told otherwise");
    hold(has_errors(once) == has_errors(remarks), "telling once loses an error");
    for (const Diagnostic& each : once)
        hold_complaint(each, lines, file);
}

void hold_complaints(const Diagnostics& complaints, const std::string& text, const std::string& file) {
    hold(has_errors(complaints), "refused without an error");
    hold_remarks(complaints, text, file);
}

void hold_figures(const std::string& printed) {
    for (const std::string none : {"nan", "inf", "infinity"}) {
        for (std::size_t at = printed.find(none); at != std::string::npos; at = printed.find(none, at + 1)) {
            const bool inside = (at > 0 && is_word(printed, at - 1)) || is_word(printed, at + none.size());
            hold(inside, "a figure is none: " + printed.substr(at < 60 ? 0 : at - 60, 120));
        }
    }
}
