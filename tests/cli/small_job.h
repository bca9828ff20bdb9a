/// A job of two lobes that passes every check, as text to be changed by a test.
#pragma once

#include <string>

/// An invented two-lobe shaft on a rotary mill with a disc parallel to the shaft, and by a dividing head.
std::string small_job();

/// `text` with the one place where `old_part` stands replaced; throws if it doesn't stand there exactly once.
std::string with(std::string text, const std::string& old_part, const std::string& new_part);

/// The number of the line, from 1, on which `part` first stands.
int line_of(const std::string& text, const std::string& part);
