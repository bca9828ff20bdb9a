/// Sound texts that fuzzing begins from: the shipped examples and dialects, and what the program itself
/// makes.
#pragma once

#include <string>
#include <vector>

std::vector<std::string> job_seeds();
std::vector<std::string> dialect_seeds();
std::vector<std::string> program_seeds();
std::vector<std::string> table_seeds();
std::vector<std::string> readings_seeds();
std::vector<std::string> arguments_seeds();
