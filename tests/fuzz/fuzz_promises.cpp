#include "fuzz_promises.h"

#include "base/text/characters.h"

#include <algorithm>

using namespace lobewright;

namespace {

constexpr std::size_t longest_excerpt = 1000;

void hold_complaint(const Diagnostic& complaint) {
    const std::string told = to_text(complaint);
    const auto must = [&](bool fact, const char* otherwise) {
        if (!fact) throw std::logic_error(otherwise + (": " + printable(told)));
    };
    // A finding says what cures it in the same sentence.
    const bool error = complaint.severity == Severity::error && complaint.fault != Fault::check_failed;
    must(!complaint.code.empty() && !complaint.what.empty(), "a complaint says nothing");
    must(!error || !complaint.remedy.empty(), "an error doesn't say what to do");
    must(is_printable(told), "a message holds what no terminal should see");
    const std::string excerpt = excerpt_text(complaint);
    must(std::count(excerpt.begin(), excerpt.end(), '\n') <= 2, "an excerpt of many lines");
    must(excerpt.size() < longest_excerpt, "a long excerpt");
}

}  // namespace

void hold_remarks(const Diagnostics& remarks, const std::string& text, const std::string& file) {
    // A lone carriage return ends a line of a table, too.
    const auto line_ends =
        std::count(text.begin(), text.end(), '\n') + std::count(text.begin(), text.end(), '\r');
    const int lines = 1 + static_cast<int>(line_ends);
    for (const Diagnostic& each : remarks) {
        const Place& place = each.place;
        hold(place.line >= 0 && place.column >= 0, "there is no such place");
        hold(place.file != file || place.line <= lines, "a place below the text");
    }
    const Diagnostics once = told_once(remarks);
    hold(once.size() <= remarks.size() && once.empty() == remarks.empty(), "told once is told otherwise");
    hold(has_errors(once) == has_errors(remarks), "telling once loses an error");
    for (const Diagnostic& each : once)
        hold_complaint(each);
}

void hold_complaints(const Diagnostics& complaints, const std::string& text, const std::string& file) {
    hold(has_errors(complaints), "refused without an error");
    hold_remarks(complaints, text, file);
}

void hold_figures(const std::string& printed) {
    for (const char* none : {": nan", ": -nan", ": inf", ": -inf", ",nan", ",-nan", ",inf", ",-inf"})
        hold(printed.find(none) == std::string::npos, "a figure is none");
}
