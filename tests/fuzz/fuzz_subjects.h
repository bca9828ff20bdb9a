/// The small sound job that programs, tables and readings are tried on.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/job.h>
#include <lobewright/lobe.h>

#include <string>
#include <vector>

/// One lobe of arcs under a flat follower, narrow and cut in one pass with a loose tolerance: its programs
/// are short, and proven in a millisecond. It has an index wheel ("lathe") besides.
std::string subject_text(const std::string& units = "mm");

struct Subject {
    lobewright::Job job;
    std::vector<lobewright::SolvedLobe> lobes;
};
/// In millimetres or inches.
const Subject& subject_in(lobewright::Units units);

/// A dialect that the library brings, with the subject's program in it.
struct SpokenDialect {
    std::string name;
    lobewright::Dialect dialect;
    std::string program;  ///< in millimetres
};
const std::vector<SpokenDialect>& spoken_dialects();

/// The first line of a text, and what follows it: targets that have choices find them there.
struct HeadedText {
    std::vector<std::string> choices;
    std::string text;
};
HeadedText headed(const std::string& text);
bool chosen(const HeadedText& headed, const std::string& choice);
