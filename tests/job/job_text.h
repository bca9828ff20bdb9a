/// The text of a job that has every key, each on a line of its own, and changes to it.
#pragma once

#include <lobewright/job_file.h>

#include <string>
#include <string_view>

namespace job_text {

/// A good job with all the kinds of everything; file "dir/job.toml". Its lift table is `lift_table`.
std::string whole_job();
inline const std::string lift_table = "cam_angle,lift\n-60,0\n0,2\n60,0\n";

/// A place in a text, from 1.
struct Spot {
    int line = 0;
    int column = 0;
};

/// Where the header "[section]" has the last part of its name. For "[[lobe]]" the first one's first bracket.
Spot header_of(const std::string& text, const std::string& section);
/// Where the value of `key` in [section] stands. Fails the test if it isn't there.
Spot value_of(const std::string& text, const std::string& section, const std::string& key);

/// The text with another value for a key, without its line, with its line twice, with another line after the
/// header.
std::string set(std::string text, const std::string& section, const std::string& key,
                const std::string& value);
std::string unset(std::string text, const std::string& section, const std::string& key);
std::string doubled(std::string text, const std::string& section, const std::string& key);
std::string added(std::string text, const std::string& section, const std::string& line);
/// Without [section] and all its lines up to the next header.
std::string without(std::string text, const std::string& section);

/// Reads `text` as dir/job.toml; its lift table is `lift_table`.
lobewright::Outcome<lobewright::Job> read(const std::string& text);

/// All complaints, a line each.
std::string complaints(const lobewright::Outcome<lobewright::Job>& outcome);

}  // namespace job_text
